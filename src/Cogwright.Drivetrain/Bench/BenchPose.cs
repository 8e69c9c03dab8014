namespace Cogwright.Drivetrain.Bench;

/// <summary>Where the parts stand while one distance is measured; for drawings. Side view, mm.</summary>
/// <param name="Axle">Rear axle.</param>
/// <param name="BottomBracket">Bottom-bracket axis.</param>
/// <param name="HangerBolt">Hanger bolt.</param>
/// <param name="UpperPivot">Upper pivot of the parallelogram.</param>
/// <param name="CagePivot">Cage pivot.</param>
/// <param name="Guide">Guide pulley's axis.</param>
/// <param name="Tension">Tension pulley's axis.</param>
/// <param name="CogIndex">The cog that the guide pulley stands under.</param>
/// <param name="Ends">The two points that are measured between; null where they do not lie in the side view.</param>
public sealed record BenchPose(
    Point Axle,
    Point BottomBracket,
    Point HangerBolt,
    Point UpperPivot,
    Point CagePivot,
    Point Guide,
    Point Tension,
    int CogIndex,
    (Point From, Point To)? Ends
)
{
    /// <summary>The pose for a place; null without rear derailleur, or where the place names no cog of the bike.</summary>
    public static BenchPose? Of(DrivetrainSpec spec, in BenchPlace place)
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (spec is not { RearDerailleur: { } derailleur, Hanger: { } hanger })
        {
            return null;
        }
        var cog = CogOf(spec, place);
        if (cog < 0)
        {
            return null;
        }
        var body = derailleur.BodyAngleRad;
        var axle = spec.Frame.Axle;
        var bolt = axle + hanger.OffsetMm;
        var pivot = BenchModel.CagePivot(spec, cog, body);
        // Without a chain the spring holds the cage at its rear stop, unless a hand holds it at the front one.
        var angle = place.Distance switch
        {
            BenchDistance.TensionToAxleAtFrontStop => derailleur.Cage.FrontStopRad,
            BenchDistance.Gap => 0,
            _ => derailleur.Cage.RearStopRad,
        };
        var guide = pivot + derailleur.Cage.Guide.OffsetMm.Turned(angle);
        var tension = pivot + derailleur.Cage.Tension.OffsetMm.Turned(angle);
        var upper = bolt + derailleur.UpperPivotMm.Turned(body);
        var pose = new BenchPose(axle, default, bolt, upper, pivot, guide, tension, cog, null);
        return pose with { Ends = EndsOf(spec, pose, place) };
    }

    private static int CogOf(DrivetrainSpec spec, in BenchPlace place) =>
        place.CogTeeth != 0 ? spec.Cogs.Teeth.IndexOf(place.CogTeeth)
        : place.Distance == BenchDistance.LargestCogTip ? spec.Cogs.Teeth.Length - 1
        : 0;

    private static (Point From, Point To)? EndsOf(
        DrivetrainSpec spec,
        BenchPose pose,
        in BenchPlace place
    )
    {
        var cogs = spec.Cogs;
        var cage = spec.RearDerailleur!.Cage;
        return place.Distance switch
        {
            BenchDistance.AxleToBottomBracket => (pose.Axle, pose.BottomBracket),
            BenchDistance.AxleToHangerBolt => (pose.Axle, pose.HangerBolt),
            BenchDistance.HangerBoltToBottomBracket => (pose.HangerBolt, pose.BottomBracket),
            BenchDistance.AcrossLinkPins => (pose.UpperPivot, pose.CagePivot),
            BenchDistance.PivotToGuide => (pose.CagePivot, pose.Guide),
            BenchDistance.PivotToTension => (pose.CagePivot, pose.Tension),
            BenchDistance.GuideToTension => (pose.Guide, pose.Tension),
            BenchDistance.SmallestCogTip or BenchDistance.LargestCogTip => Across(
                pose.Axle,
                Sprocket.TipRadiusMm(cogs.Teeth[pose.CogIndex], cogs.TipDiameterMm(pose.CogIndex))
            ),
            BenchDistance.GuideTip => Across(
                pose.Guide,
                Sprocket.TipRadiusMm(cage.Guide.Teeth, cage.Guide.TipDiameterMm)
            ),
            BenchDistance.TensionTip => Across(
                pose.Tension,
                Sprocket.TipRadiusMm(cage.Tension.Teeth, cage.Tension.TipDiameterMm)
            ),
            BenchDistance.PivotToAxle or BenchDistance.PivotToAxleAfterScrew => (
                pose.CagePivot,
                pose.Axle
            ),
            BenchDistance.PivotToHangerBolt => (pose.CagePivot, pose.HangerBolt),
            BenchDistance.PivotToBottomBracket => (pose.CagePivot, pose.BottomBracket),
            BenchDistance.TensionToAxleAtRearStop or BenchDistance.TensionToAxleAtFrontStop => (
                pose.Tension,
                pose.Axle
            ),
            BenchDistance.Gap => GapEnds(spec, pose),
            _ => null,
        };
    }

    private static (Point From, Point To) Across(Point centre, double radiusMm) =>
        (centre - new Point(radiusMm, 0), centre + new Point(radiusMm, 0));

    private static (Point From, Point To) GapEnds(DrivetrainSpec spec, BenchPose pose)
    {
        var cogs = spec.Cogs;
        var guide = spec.RearDerailleur!.Cage.Guide;
        var between = pose.Guide - pose.Axle;
        var unit = new Point(between.X / between.Length, between.Y / between.Length);
        var onCog = Sprocket.TipRadiusMm(
            cogs.Teeth[pose.CogIndex],
            cogs.TipDiameterMm(pose.CogIndex)
        );
        var onGuide = between.Length - Sprocket.TipRadiusMm(guide.Teeth, guide.TipDiameterMm);
        return (
            pose.Axle + new Point(onCog * unit.X, onCog * unit.Y),
            pose.Axle + new Point(onGuide * unit.X, onGuide * unit.Y)
        );
    }
}
