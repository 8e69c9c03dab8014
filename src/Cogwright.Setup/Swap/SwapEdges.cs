using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Setup.Swap;

/// <summary>What a part that is replaced spoils: the stages to do again, and those to look at again.</summary>
/// <param name="Redo">What was set there no longer holds.</param>
/// <param name="Look">What was set there may still hold; it is read again.</param>
internal sealed record SwapEdge(ImmutableArray<WorkStage> Redo, ImmutableArray<WorkStage> Look);

/// <summary>
/// "If this part changes, that must be done again", as the trade teaches it (common practice). A torque walk-round and a
/// test under load follow every change.
/// </summary>
internal static class SwapEdges
{
    private static readonly ImmutableArray<WorkStage> WholeRear =
    [
        WorkStage.WheelSeated,
        WorkStage.Hanger,
        WorkStage.Mounting,
        WorkStage.RoughStops,
        WorkStage.Chain,
        WorkStage.CableOrPairing,
        WorkStage.SetUpCog,
        WorkStage.OutboardStop,
        WorkStage.Index,
        WorkStage.InboardStop,
        WorkStage.Gap,
        WorkStage.IndexAgain,
    ];

    /// <summary>What replacing a part of that kind spoils.</summary>
    /// <param name="kind">The kind of part.</param>
    /// <param name="cogsAlike">Whether number and distance of the cogs stay the same; asked of a cassette.</param>
    internal static SwapEdge Of(PartKind kind, bool cogsAlike) =>
        kind switch
        {
            PartKind.Frame => new([.. WholeRear, WorkStage.Front], []),
            PartKind.Hanger => new(
                [
                    WorkStage.Hanger,
                    WorkStage.Mounting,
                    WorkStage.OutboardStop,
                    WorkStage.Index,
                    WorkStage.InboardStop,
                    WorkStage.Gap,
                    WorkStage.IndexAgain,
                ],
                [WorkStage.Chain]
            ),
            PartKind.RearWheel => new(
                [
                    WorkStage.WheelSeated,
                    WorkStage.OutboardStop,
                    WorkStage.Index,
                    WorkStage.InboardStop,
                    WorkStage.IndexAgain,
                ],
                [WorkStage.Gap]
            ),
            PartKind.Cassette when !cogsAlike => new(WholeRear.Remove(WorkStage.Hanger), []),
            PartKind.Cassette => new(
                [
                    WorkStage.WheelSeated,
                    WorkStage.Mounting,
                    WorkStage.Chain,
                    WorkStage.SetUpCog,
                    WorkStage.InboardStop,
                    WorkStage.Gap,
                ],
                [WorkStage.Index, WorkStage.IndexAgain]
            ),
            PartKind.RearDerailleur => new(
                WholeRear.Remove(WorkStage.WheelSeated).Remove(WorkStage.Hanger),
                [WorkStage.Hanger]
            ),
            PartKind.Cage => new(
                [WorkStage.Chain, WorkStage.SetUpCog, WorkStage.Gap],
                [WorkStage.Index, WorkStage.IndexAgain]
            ),
            PartKind.Chain => new(
                [WorkStage.Chain],
                [WorkStage.Gap, WorkStage.Index, WorkStage.Front]
            ),
            PartKind.Rings => new(
                [WorkStage.Mounting, WorkStage.Chain, WorkStage.SetUpCog, WorkStage.Front],
                [WorkStage.Gap]
            ),
            PartKind.Crank or PartKind.BottomBracket => new(
                [WorkStage.Mounting, WorkStage.Front],
                [WorkStage.Chain]
            ),
            PartKind.FrontDerailleur => new(
                [WorkStage.Mounting, WorkStage.Front],
                [WorkStage.Chain]
            ),
            PartKind.RearShifter => new(
                [
                    WorkStage.CableOrPairing,
                    WorkStage.OutboardStop,
                    WorkStage.Index,
                    WorkStage.IndexAgain,
                ],
                [WorkStage.InboardStop]
            ),
            PartKind.FrontShifter => new([WorkStage.CableOrPairing, WorkStage.Front], []),
            _ => new([], [.. WholeRear, WorkStage.Front]),
        };
}
