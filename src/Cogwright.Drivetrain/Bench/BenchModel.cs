namespace Cogwright.Drivetrain.Bench;

/// <summary>What a caliper would read on a mechanism. The equations stand in docs/theory/bench-geometry.md.</summary>
internal static class BenchModel
{
    /// <summary>The reading (mm), or null when it cannot be taken there: no such cog, no derailleur, no taut chain.</summary>
    /// <param name="spec">The mechanism.</param>
    /// <param name="bodyAngleRad">Its body angle at the reading (rad).</param>
    /// <param name="place">What is measured.</param>
    internal static double? ReadingMm(
        DrivetrainSpec spec,
        double bodyAngleRad,
        in BenchPlace place
    ) =>
        place.Distance == BenchDistance.Gap && !CanBeBuilt(spec)
            ? null
            : CheckedReadingMm(spec, bodyAngleRad, place);

    /// <summary>Whether the solver may be asked about a mechanism: a search may stray to what cannot be built.</summary>
    internal static bool CanBeBuilt(DrivetrainSpec spec) => SpecCheck.Problems(spec).IsEmpty;

    /// <summary>The same where the caller has made sure, if it is a gap, that the mechanism <see cref="CanBeBuilt"/>.</summary>
    internal static double? CheckedReadingMm(
        DrivetrainSpec spec,
        double bodyAngleRad,
        in BenchPlace place
    )
    {
        if (spec is not { RearDerailleur: { } derailleur, Hanger: { } hanger })
        {
            return null;
        }
        var axle = spec.Frame.Axle;
        var bolt = axle + hanger.OffsetMm;
        var cage = derailleur.Cage;
        var cog = spec.Cogs.Teeth.IndexOf(place.CogTeeth);
        switch (place.Distance)
        {
            case BenchDistance.AxleToBottomBracket:
                return spec.Frame.ChainstayMm;
            case BenchDistance.AxleToHangerBolt:
                return hanger.OffsetMm.Length;
            case BenchDistance.HangerBoltToBottomBracket:
                return bolt.Length;
            case BenchDistance.AcrossLinkPins:
                return derailleur.LinkLengthMm;
            case BenchDistance.PivotToGuide:
                return cage.Guide.OffsetMm.Length;
            case BenchDistance.PivotToTension:
                return cage.Tension.OffsetMm.Length;
            case BenchDistance.GuideToTension:
                return (cage.Guide.OffsetMm - cage.Tension.OffsetMm).Length;
            case BenchDistance.SmallestCogTip:
                return CogTip(spec.Cogs, 0);
            case BenchDistance.LargestCogTip:
                return CogTip(spec.Cogs, spec.Cogs.Teeth.Length - 1);
            case BenchDistance.GuideTip:
                return Tip(cage.Guide);
            case BenchDistance.TensionTip:
                return Tip(cage.Tension);
            case BenchDistance.EndCogSpacing:
                return (spec.Cogs.Teeth.Length - 1) * spec.Cogs.SpacingMm;
            case BenchDistance.Chainline:
                return spec.Rings.Average(ring => ring.LateralMm);
            case BenchDistance.TensionToAxleAtRearStop:
                return TensionToAxle(spec, cage.RearStopRad, bodyAngleRad);
            case BenchDistance.TensionToAxleAtFrontStop:
                return TensionToAxle(spec, cage.FrontStopRad, bodyAngleRad);
            case BenchDistance.PivotToAxle or BenchDistance.PivotToAxleAfterScrew when cog >= 0:
                return (CagePivot(spec, cog, bodyAngleRad) - axle).Length;
            case BenchDistance.PivotToHangerBolt when cog >= 0:
                return (CagePivot(spec, cog, bodyAngleRad) - bolt).Length;
            case BenchDistance.PivotToBottomBracket when cog >= 0:
                return CagePivot(spec, cog, bodyAngleRad).Length;
            case BenchDistance.Gap when cog >= 0 && spec.Chain.Pitches is { } pitches:
                return GapMm(spec, place.RingTeeth, cog, pitches, bodyAngleRad);
            default:
                return null;
        }
    }

    /// <summary>The cage pivot with the guide pulley under a cog.</summary>
    internal static Point CagePivot(DrivetrainSpec spec, int cog, double bodyAngleRad)
    {
        var derailleur = spec.RearDerailleur!;
        var swing = new SwingReach(
            // The caliper reads where the hand holds the parallelogram; the stop screws have no say.
            derailleur.OutboardStopRad
                is null
            && derailleur.InboardStopRad is null
                ? derailleur
                : derailleur with
                {
                    OutboardStopRad = null,
                    InboardStopRad = null,
                },
            spec.Frame.Axle + spec.Hanger!.OffsetMm,
            bodyAngleRad
        );
        _ = swing.Reach(
            spec.Cogs.LateralMm(cog) + derailleur.IndexOffsetMm,
            out var sine,
            out _,
            out _
        );
        return swing.Knuckle(sine, Math.Sqrt(Math.Max(0, 1 - (sine * sine))));
    }

    private static double TensionToAxle(DrivetrainSpec spec, double stopRad, double bodyAngleRad)
    {
        var derailleur = spec.RearDerailleur!;
        var turned = stopRad + bodyAngleRad - derailleur.BodyAngleRad;
        return (
            CagePivot(spec, 0, bodyAngleRad)
            + derailleur.Cage.Tension.OffsetMm.Turned(turned)
            - spec.Frame.Axle
        ).Length;
    }

    private static double? GapMm(
        DrivetrainSpec spec,
        int ringTeeth,
        int cog,
        int pitches,
        double bodyAngleRad
    )
    {
        if (spec.IndicesOf(new(ringTeeth, spec.Cogs.Teeth[cog])) is not var (ring, _))
        {
            return null;
        }
        // On the bench the wheel hangs: a suspended rear end is fully extended.
        var place = RearPlace.Extended(spec);
        var gear = GearTableSolver.SolveGear(spec, place, ring, cog, pitches, bodyAngleRad);
        return gear.HasPose ? gear.GapMm : null;
    }

    private static double CogTip(CogSet cogs, int cog) =>
        2 * Sprocket.TipRadiusMm(cogs.Teeth[cog], cogs.TipDiameterMm(cog));

    private static double Tip(CagePulley pulley) =>
        2 * Sprocket.TipRadiusMm(pulley.Teeth, pulley.TipDiameterMm);
}
