using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Web.WorkTargets;

/// <summary>A stage with its targets, in the order of work.</summary>
/// <param name="Title">The heading.</param>
/// <param name="Targets">The targets.</param>
internal sealed record StageOfWork(string Title, ImmutableArray<Target> Targets)
{
    /// <summary>The targets of a bike, stage by stage.</summary>
    internal static ImmutableArray<StageOfWork> Of(Bikes.ComputedBike bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var stages = ImmutableArray.CreateBuilder<StageOfWork>();
        foreach (var stage in bike.Targets.GroupBy(target => target.Stage))
        {
            stages.Add(
                new(StageTitles.Of(stage.Key, bike.File.Work.Actuation, bike.Catalogue), [.. stage])
            );
        }
        return stages.ToImmutable();
    }
}

/// <summary>A caution taken apart for the screen: the signal word stands in its own box.</summary>
/// <param name="Signal">WARNING, CAUTION or NOTICE; empty when the text begins with none.</param>
/// <param name="Text">The rest.</param>
internal readonly record struct CautionText(string Signal, string Text)
{
    /// <summary>Takes a caution apart.</summary>
    internal static CautionText Of(string caution)
    {
        ArgumentNullException.ThrowIfNull(caution);
        var colon = caution.IndexOf(':', StringComparison.Ordinal);
        var isSignal = colon > 0 && caution.AsSpan(0, colon).IndexOfAnyExceptInRange('A', 'Z') < 0;
        return isSignal ? new(caution[..colon], caution[(colon + 1)..].Trim()) : new("", caution);
    }
}

/// <summary>A target's aim as figures to be read from afar.</summary>
internal static class AimWords
{
    /// <summary>The aim, such as 6 to 8, or null for a look or a push by hand.</summary>
    internal static string? Of(Target target)
    {
        ArgumentNullException.ThrowIfNull(target);
        return Of(target.Lower, target.Value, target.Upper);
    }

    /// <summary>The same of limits and an aim.</summary>
    internal static string? Of(double? least, double? aim, double? most) =>
        (least, aim, most) switch
        {
            ({ } lower, _, { } upper) when Math.Abs(upper - lower) > 1e-9 => Texts.Get(
                "targets.band",
                lower,
                upper
            ),
            (_, { } value, _) => Texts.Get("targets.value", value),
            ({ } lower, _, { }) => Texts.Get("targets.value", lower),
            (_, _, { } upper) => Texts.Get("targets.most", upper),
            ({ } lower, _, _) => Texts.Get("targets.least", lower),
            _ => null,
        };
}
