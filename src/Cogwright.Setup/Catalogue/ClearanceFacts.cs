using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>Where in the work a clearance is told.</summary>
public enum ClearanceGroup
{
    /// <summary>Before anything is touched: on the largest cog.</summary>
    OnCog,

    /// <summary>Where the inboard stop is proven: at the stop, after a knock.</summary>
    AtStop,

    /// <summary>The chain on the largest cog beside the spokes.</summary>
    Chain,

    /// <summary>On the smallest cog, beside the frame.</summary>
    AtFrame,
}

/// <summary>How urgent a clearance is, the least first.</summary>
public enum ClearanceUrgency
{
    /// <summary>Enough room, or the reach of a stop.</summary>
    None,

    /// <summary>Not known.</summary>
    Unknown,

    /// <summary>Less room than there should be.</summary>
    Close,

    /// <summary>Parts touch.</summary>
    Touches,
}

/// <summary>A clearance to spokes or frame, or the reach of a stop, in words. Immutable.</summary>
/// <param name="Group">Where in the work it is told.</param>
/// <param name="What">What is the matter, never silent about what is not known.</param>
/// <param name="WhatToDo">What to do or to measure; empty when nothing.</param>
/// <param name="Mm">The room, or how far beyond the cog a stop holds (mm); null when it cannot be said.</param>
/// <param name="IsAssumed">Whether it was computed from figures that nobody measured.</param>
/// <param name="Urgency">How urgent it is.</param>
/// <param name="AfterKnock">Whether it tells what a knock would do, and not what is.</param>
public sealed record ClearanceFacts(
    ClearanceGroup Group,
    string What,
    string WhatToDo,
    double? Mm,
    bool IsAssumed,
    ClearanceUrgency Urgency,
    bool AfterKnock = false
);

/// <content>Clearances to spokes and frame.</content>
public sealed partial class QuantityCatalogue
{
    private ImmutableArray<ClearanceFacts>? clearances;

    /// <summary>The clearances to spokes and frame, the costliest first, and the reach of the stops; empty when nothing could be solved.</summary>
    public ImmutableArray<ClearanceFacts> Clearances => clearances ??= MakeClearances();

    /// <summary>
    /// What the cage does beside the spokes when the inboard stop lets the pulley that far past the largest cog (mm), in
    /// words; null when nothing could be solved or no link brings the pulley there.
    /// </summary>
    public string? RoomAtInboardStop(double overshootMm)
    {
        if (table is null || spec.RearDerailleur is not { } derailleur)
        {
            return null;
        }
        var stop = StopReach.SwingRadAt(
            derailleur.GuideLateralAtZeroMm,
            derailleur.LinkLengthMm,
            derailleur.SlantRad,
            spec.Cogs.LateralMm(spec.Cogs.Teeth.Length - 1) - overshootMm
        );
        if (stop is null)
        {
            return null;
        }
        var report = SpokeClearance.Of(
            table with
            {
                Spec = spec with { RearDerailleur = derailleur with { InboardStopRad = stop } },
            }
        );
        return report.Find(ClearanceKind.CageAtInboardStop) is { } clearance
            ? LateralWords.Of(clearance, report).What
            : null;
    }

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
            var words = LateralWords.Of(clearance, report);
            facts.Add(
                new(
                    GroupOf(clearance.Kind),
                    words.What,
                    words.WhatToDo,
                    clearance.Mm,
                    !clearance.Assumed.IsEmpty,
                    clearance.Verdict switch
                    {
                        ClearanceVerdict.Touches => ClearanceUrgency.Touches,
                        ClearanceVerdict.Close => ClearanceUrgency.Close,
                        ClearanceVerdict.CannotSay => ClearanceUrgency.Unknown,
                        _ => ClearanceUrgency.None,
                    },
                    clearance.Kind is ClearanceKind.CageKnocked
                )
            );
        }
        if (report.Inboard is { } inboard)
        {
            var words = LateralWords.Of(inboard);
            facts.Add(
                new(
                    ClearanceGroup.AtStop,
                    words.What,
                    words.WhatToDo,
                    inboard.OvershootMm,
                    false,
                    ClearanceUrgency.None
                )
            );
        }
        return facts.ToImmutable();
    }

    private static ClearanceGroup GroupOf(ClearanceKind kind) =>
        kind switch
        {
            ClearanceKind.CageOnLargestCog or ClearanceKind.CageTilted => ClearanceGroup.OnCog,
            ClearanceKind.ChainOnSmallestCog => ClearanceGroup.AtFrame,
            ClearanceKind.ChainOnLargestCog => ClearanceGroup.Chain,
            _ => ClearanceGroup.AtStop,
        };
}
