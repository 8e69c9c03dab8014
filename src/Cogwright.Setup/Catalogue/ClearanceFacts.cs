using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>Where in the work a clearance is told.</summary>
public enum ClearanceGroup
{
    /// <summary>Before anything is touched: on the largest cog.</summary>
    OnCog,

    /// <summary>Where the inboard stop is proven: at the stop, after a knock, the chain beside the spokes.</summary>
    AtStop,

    /// <summary>On the smallest cog, beside the frame.</summary>
    AtFrame,
}

/// <summary>A clearance to spokes or frame, or the reach of a stop, in words. Immutable.</summary>
/// <param name="Group">Where in the work it is told.</param>
/// <param name="Words">What is the matter and what to do; never silent about what is not known.</param>
/// <param name="Mm">The room (mm), or null when it cannot be said.</param>
/// <param name="IsAssumed">Whether it was computed from figures that nobody measured.</param>
public sealed record ClearanceFacts(ClearanceGroup Group, string Words, double? Mm, bool IsAssumed);

/// <content>Clearances to spokes and frame.</content>
public sealed partial class QuantityCatalogue
{
    private ImmutableArray<ClearanceFacts>? clearances;

    /// <summary>The clearances to spokes and frame, the costliest first, and the reach of the stops; empty when nothing could be solved.</summary>
    public ImmutableArray<ClearanceFacts> Clearances => clearances ??= MakeClearances();

    private ImmutableArray<ClearanceFacts> MakeClearances()
    {
        if (table is null)
        {
            return [];
        }
        var report = SpokeClearance.Of(table);
        var facts = ImmutableArray.CreateBuilder<ClearanceFacts>();
        foreach (var clearance in report.All)
        {
            facts.Add(
                new(
                    GroupOf(clearance.Kind),
                    Joined(LateralWords.Of(clearance, report)),
                    clearance.Mm,
                    !clearance.Assumed.IsEmpty
                )
            );
        }
        if (report.Inboard is { } inboard)
        {
            facts.Add(new(ClearanceGroup.AtStop, Joined(LateralWords.Of(inboard)), null, false));
        }
        return facts.ToImmutable();
    }

    private static ClearanceGroup GroupOf(ClearanceKind kind) =>
        kind switch
        {
            ClearanceKind.CageOnLargestCog or ClearanceKind.CageTilted => ClearanceGroup.OnCog,
            ClearanceKind.ChainOnSmallestCog => ClearanceGroup.AtFrame,
            _ => ClearanceGroup.AtStop,
        };

    private static string Joined(Explanation words) => $"{words.What} {words.WhatToDo}".TrimEnd();
}
