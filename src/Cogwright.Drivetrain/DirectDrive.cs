namespace Cogwright.Drivetrain;

/// <summary>
/// A ring and a cog without derailleur: the chain is tightened by moving the axle in its slots. The two ends of the
/// axle's travel take the place of the cage's two stops.
/// </summary>
internal static class DirectDrive
{
    /// <summary>
    /// A chain this much longer than the path still runs without an axle that moves (pitches): over a 400 mm run it
    /// is a sag of about 9 mm, up and down together 18 mm. Common practice: 10 to 20 mm of movement.
    /// </summary>
    internal const double SagAllowancePitches = 0.04;

    /// <summary>Length of the direct path at a chainstay length (pitches); NaN when the two overlap.</summary>
    internal static double PathPitches(
        double chainstayMm,
        int ringTeeth,
        int cogTeeth,
        double pitchMm
    )
    {
        var difference =
            Sprocket.PitchRadiusMm(ringTeeth, pitchMm) - Sprocket.PitchRadiusMm(cogTeeth, pitchMm);
        if (!(Math.Abs(difference) < chainstayMm))
        {
            return double.NaN;
        }
        var run = Math.Sqrt((chainstayMm * chainstayMm) - (difference * difference));
        var lean = Math.Asin(difference / chainstayMm);
        return (2 * run / pitchMm)
            + (ringTeeth * (Math.PI + (2 * lean)) / Math.Tau)
            + (cogTeeth * (Math.PI - (2 * lean)) / Math.Tau);
    }

    /// <summary>
    /// The direct path round the largest ring, the largest cog and the idler, where the travel makes it longest (pitches).
    /// </summary>
    internal static (double TravelMm, double Value) LongestPath(
        DrivetrainSpec spec,
        RearEnd rearEnd,
        double pitchMm
    )
    {
        var longest = TravelExtremes.Greatest(
            rearEnd.TravelMm,
            travel => PathPitches(spec, RearPlace.At(spec, rearEnd, travel), pitchMm)
        );
        return (longest.TravelMm, longest.Value);
    }

    /// <summary>The direct path round the largest ring, the largest cog and the idler, with the axle at a place (pitches).</summary>
    internal static double PathPitches(DrivetrainSpec spec, in RearPlace place, double pitchMm)
    {
        var ring = spec.Rings.Max(r => r.Teeth);
        var cog = spec.Cogs.Teeth[^1];
        if (place.Idler is not { } idler)
        {
            return PathPitches(place.Pose.AxleToBracketMm, ring, cog, pitchMm);
        }
        var path = ChainPath.Round(
            [new(place.Pose.Axle, cog, 1), idler, new(default, ring, 1)],
            pitchMm
        );
        return path.IsPossible ? path.Pitches : double.NaN;
    }

    internal static GearResult Solve(DrivetrainSpec spec, int pitches)
    {
        var ring = spec.Rings[0];
        var gear = new Gear(ring.Teeth, spec.Cogs.Teeth[0]);
        var pitch = spec.Chain.PitchMm;
        var near = spec.Frame.ChainstayMm;
        var far = near + spec.Frame.AxleTravelMm;
        var needs = PathPitches(near, gear.RingTeeth, gear.CogTeeth, pitch);
        var takes = PathPitches(far, gear.RingTeeth, gear.CogTeeth, pitch);
        var state =
            pitches < needs - CageClosure.TautWithinPitches ? GearState.Short
            : pitches > takes + SagAllowancePitches ? GearState.Slack
            : GearState.Ok;
        var evaluations = 2;
        var chainstay = state switch
        {
            GearState.Short => near,
            GearState.Slack => far,
            _ => TautChainstay(gear, pitch, near, far, pitches, ref evaluations),
        };
        var difference =
            Sprocket.PitchRadiusMm(gear.RingTeeth, pitch)
            - Sprocket.PitchRadiusMm(gear.CogTeeth, pitch);
        var lean = Math.Asin(difference / chainstay);
        var run = chainstay * Math.Cos(lean);
        return new()
        {
            Gear = gear,
            RingIndex = 0,
            CogIndex = 0,
            State = state,
            Blame = state switch
            {
                GearState.Short => Blame.ChainTooShort,
                GearState.Slack => Blame.ChainTooLong,
                _ => Blame.None,
            },
            ShortfallMm = state switch
            {
                GearState.Short => (needs - pitches) * pitch,
                GearState.Slack => (pitches - takes) * pitch,
                _ => 0,
            },
            Evaluations = evaluations,
            ResidualPitches =
                PathPitches(chainstay, gear.RingTeeth, gear.CogTeeth, pitch) - pitches,
            CageAngleRad = double.NaN,
            GapMm = double.NaN,
            GapToNextMm = double.NaN,
            SwingRad = double.NaN,
            ForemostCageAngleRad = double.NaN,
            LowerRunTensionN = double.NaN,
            CogTeethInMesh = gear.CogTeeth * (Math.PI - (2 * lean)) / Math.Tau,
            RingTeethInMesh = gear.RingTeeth * (Math.PI + (2 * lean)) / Math.Tau,
            TopRunMm = run,
            LowerRunMm = run,
            IdlerRunMm = double.NaN,
            IdlerTeethInMesh = double.NaN,
            TakesAtRearStop = takes,
            NeedsAtFrontStop = needs,
            TightMarginMm = (pitches - needs) * pitch,
            LooseMarginMm = (takes - pitches) * pitch,
            ChainAngleRad = Math.Atan(Math.Abs(ring.LateralMm - spec.Cogs.SmallestLateralMm) / run),
            AxleMovedMm = chainstay - near,
        };
    }

    /// <summary>
    /// Chainstay at which the chain is just taut (mm): Newton on a path that grows by 2·run/chainstay per mm, held
    /// inside the axle's travel.
    /// </summary>
    private static double TautChainstay(
        Gear gear,
        double pitch,
        double near,
        double far,
        int pitches,
        ref int evaluations
    )
    {
        const double withinMm = 1e-10;
        var chainstay = 0.5 * (near + far);
        for (var i = 0; i < 50; i++)
        {
            evaluations++;
            var step =
                (PathPitches(chainstay, gear.RingTeeth, gear.CogTeeth, pitch) - pitches)
                * pitch
                / 2;
            var next = Math.Clamp(chainstay - step, near, far);
            if (Math.Abs(next - chainstay) < withinMm)
            {
                return next;
            }
            chainstay = next;
        }
        return chainstay;
    }
}
