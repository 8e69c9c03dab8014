using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>A correction of an adjuster in a mechanic's words.</summary>
public static class AdjusterWords
{
    /// <summary>What to do, one sentence each, in the order of doing.</summary>
    public static ImmutableArray<string> ToDo(AdjusterAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        return advice.Kind switch
        {
            AdjusterKind.LeaveAsIs => [Texts.Get("adjust.leave", advice.Name)],
            AdjusterKind.NoEffect => [Texts.Get("adjust.noEffect", advice.Name)],
            AdjusterKind.TryHalfTurn => [Texts.Get("adjust.try", advice.Name, Amount(advice))],
            AdjusterKind.OutOfTravel when advice.Turns == 0 =>
            [
                Texts.Get("adjust.atEnd", advice.Name),
                Texts.Get(Texts.OnAxle($"adjust.instead.{advice.Place}", advice.IsOnAxle)),
            ],
            AdjusterKind.OutOfTravel =>
            [
                Turn(advice),
                Texts.Get("adjust.ends", advice.Name, Missing(advice)),
                Texts.Get(Texts.OnAxle($"adjust.instead.{advice.Place}", advice.IsOnAxle)),
            ],
            _ => [Turn(advice)],
        };
    }

    /// <summary>What to ask before trusting it.</summary>
    public static ImmutableArray<string> Questions(AdjusterAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        var questions = ImmutableArray.CreateBuilder<string>();
        var turns = advice.Kind is AdjusterKind.Turn or AdjusterKind.OutOfTravel;
        if (advice.ActsOtherWay)
        {
            questions.Add(Texts.Get("adjust.otherWay", advice.Name));
        }
        if (advice.IsUsual && turns)
        {
            questions.Add(Texts.Get("adjust.usual", advice.Name, Math.Abs(advice.MmPerTurn ?? 0)));
        }
        if (
            advice.Place is AdjusterPlace.OutboardStop or AdjusterPlace.InboardStop
            && advice.Kind is not (AdjusterKind.LeaveAsIs or AdjusterKind.NoEffect)
        )
        {
            questions.Add(Texts.Get("adjust.touches", advice.Name));
        }
        return questions.ToImmutable();
    }

    /// <summary>Such as "¼ turn anticlockwise", "2 clicks clockwise" or "3 steps inboard".</summary>
    internal static string Amount(AdjusterAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        if (advice.Place is AdjusterPlace.OffsetStep)
        {
            var steps = Math.Abs(advice.Turns);
            return Texts.Get(
                steps == 1 ? "adjust.step" : "adjust.steps",
                steps.ToString("0", CultureInfo.InvariantCulture),
                Way(advice.Turns > 0)
            );
        }
        return advice.Clicks is { } clicks and not 0
            ? Texts.Get(
                Math.Abs(clicks) == 1 ? "adjust.click" : "adjust.clicks",
                Math.Abs(clicks),
                Texts.Get(clicks > 0 ? "turn.clockwise" : "turn.anticlockwise")
            )
            : TurnWords.Of(advice.Turns);
    }

    /// <summary>outboard or inboard.</summary>
    internal static string Way(bool isOutboard) =>
        Texts.Get(isOutboard ? "way.outboard" : "way.inboard");

    private static double Missing(AdjusterAdvice advice) =>
        Math.Abs(advice.WantedMm - (advice.ExpectedMm ?? advice.ReadMm));

    private static string Turn(AdjusterAdvice advice)
    {
        var key =
            advice.Place is AdjusterPlace.OffsetStep ? "adjust.set"
            : advice.Tool is null ? "adjust.turn"
            : "adjust.turnWith";
        var moved = (advice.ExpectedMm ?? advice.WantedMm) - advice.ReadMm;
        return Texts.Get(
            key,
            advice.Name,
            Amount(advice),
            Math.Abs(moved),
            Way(moved > 0),
            advice.Tool
        );
    }
}
