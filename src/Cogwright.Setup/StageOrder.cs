using System.Collections.Immutable;

namespace Cogwright.Setup;

/// <summary>The order of the stages for what moves the derailleurs.</summary>
public static class StageOrder
{
    // Common practice: with a cable the outboard stop decides where the first click is, so it comes before the index.
    // With motors the reference cog comes first and the stop screws are brought up to the mechanism afterwards,
    // since a screw that blocks the motor spoils the offset.
    private static readonly ImmutableArray<WorkStage> ByCable =
    [
        WorkStage.Inspection,
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
        WorkStage.Front,
        WorkStage.Torque,
        WorkStage.LoadedTest,
    ];

    private static readonly ImmutableArray<WorkStage> ByMotor =
    [
        .. ByCable.Select(stage =>
            stage switch
            {
                WorkStage.OutboardStop => WorkStage.Index,
                WorkStage.Index => WorkStage.OutboardStop,
                _ => stage,
            }
        ),
    ];

    // A derailleur that rests inboard stands at the inboard stop as soon as it is mounted: that stop is proven before a
    // chain lies on the largest cog, and the outboard stop is set last, with the cable pulled.
    private static readonly ImmutableArray<WorkStage> AtRest =
    [
        WorkStage.Inspection,
        WorkStage.WheelSeated,
        WorkStage.Hanger,
        WorkStage.Mounting,
        WorkStage.RoughStops,
        WorkStage.InboardStop,
        WorkStage.Chain,
        WorkStage.CableOrPairing,
        WorkStage.SetUpCog,
        WorkStage.Index,
        WorkStage.OutboardStop,
        WorkStage.Gap,
        WorkStage.IndexAgain,
        WorkStage.Front,
        WorkStage.Torque,
        WorkStage.LoadedTest,
    ];

    /// <summary>All stages in the order of work; a bike may have nothing to do in some of them.</summary>
    /// <param name="actuation">What moves the derailleurs.</param>
    /// <param name="restsInboard">Whether the rear derailleur's springs pull inboard (cable only).</param>
    public static ImmutableArray<WorkStage> For(Actuation actuation, bool restsInboard = false) =>
        actuation is Actuation.MotorWired or Actuation.MotorWireless ? ByMotor
        : restsInboard ? AtRest
        : ByCable;
}
