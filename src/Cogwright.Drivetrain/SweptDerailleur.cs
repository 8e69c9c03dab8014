namespace Cogwright.Drivetrain;

/// <summary>What of a gear does not change over the travel.</summary>
internal readonly record struct SweptGear(
    int RingIndex,
    int CogIndex,
    SprocketSize Ring,
    SprocketSize Cog,
    double GuideLateralMm,
    double TipsMm
);

/// <summary>What a sweep keeps of a gear at one position.</summary>
internal readonly record struct SweptFigures(
    GearState State,
    double CageAngleRad,
    double GapMm,
    double TightMarginMm,
    double LooseMarginMm,
    double BodyAngleRad
);

/// <summary>
/// The gears of a sweep: the same model as <see cref="GearTableSolver"/>, without the columns that a sweep does not keep
/// and with all that stays the same over the travel computed once. A test holds the two together.
/// </summary>
internal readonly struct SweptDerailleur
{
    private readonly DrivetrainSpec spec;
    private readonly RearDerailleur derailleur;
    private readonly int pitches;
    private readonly double pitch;
    private readonly SprocketSize tension;
    private readonly SprocketSize guide;

    internal SweptDerailleur(DrivetrainSpec spec, RearDerailleur derailleur, int pitches)
    {
        this.spec = spec;
        this.derailleur = derailleur;
        this.pitches = pitches;
        pitch = spec.Chain.PitchMm;
        tension = SprocketSize.Of(derailleur.Cage.Tension.Teeth, pitch);
        guide = SprocketSize.Of(derailleur.Cage.Guide.Teeth, pitch);
    }

    internal SweptGear Ready(int ring, int cog)
    {
        var onGuide = derailleur.Cage.Guide;
        return new(
            ring,
            cog,
            SprocketSize.Of(spec.Rings[ring].Teeth, pitch),
            SprocketSize.Of(spec.Cogs.Teeth[cog], pitch),
            spec.Cogs.LateralMm(cog) + derailleur.IndexOffsetMm,
            Sprocket.TipRadiusMm(onGuide.Teeth, onGuide.TipDiameterMm)
                + Sprocket.TipRadiusMm(spec.Cogs.Teeth[cog], spec.Cogs.TipDiameterMm(cog))
        );
    }

    /// <summary>The parallelogram at a place; hanger and body turn with the member that carries the axle.</summary>
    internal SwingReach SwingAt(in RearPlace place, double bodyAngleRad)
    {
        var turn = place.Pose.RotationRad;
        var bolt = place.Pose.Carry(spec.BoltOffsetMm);
        return new(derailleur, bolt, bodyAngleRad + turn);
    }

    internal SweptFigures Solve(
        in RearPlace place,
        in SwingReach swing,
        double bodyAngleRad,
        in SweptGear gear
    )
    {
        if (derailleur.Sprung is not null)
        {
            var solved = GearTableSolver.SolveGear(
                spec,
                place,
                gear.RingIndex,
                gear.CogIndex,
                pitches,
                bodyAngleRad
            );
            return new(
                solved.State,
                solved.CageAngleRad,
                solved.GapMm,
                solved.TightMarginMm,
                solved.LooseMarginMm,
                solved.BodyAngleRad
            );
        }
        if (swing.Reach(gear.GuideLateralMm, out var sine, out _, out _) != Blame.None)
        {
            return Without(GearState.Unreachable, bodyAngleRad);
        }
        var cage = derailleur.Cage;
        var knuckle = swing.Knuckle(sine, Math.Sqrt(Math.Max(0, 1 - (sine * sine))));
        var closure = new CageClosure(
            pitch,
            place.Pose.Axle,
            knuckle,
            gear.Cog,
            gear.Ring,
            tension,
            guide,
            cage.Tension.OffsetMm,
            cage.Guide.OffsetMm,
            place.Idler
        );
        if (!closure.Upper.IsPossible)
        {
            return Without(GearState.Clash, bodyAngleRad);
        }
        var turned = bodyAngleRad - derailleur.BodyAngleRad + place.Pose.RotationRad;
        var rearStop = cage.RearStopRad + turned;
        var frontStop = cage.FrontStopRad + turned;
        var takes = closure.TakesPitches(frontStop, rearStop);
        var end = closure.Walk(frontStop, rearStop, pitches);
        var tight = (pitches - closure.NeedsPitches) * pitch;
        var loose = (takes - pitches) * pitch;
        if (end is ClosureEnd.Taut or ClosureEnd.Jammed)
        {
            var theta = closure.CageAngleRad;
            var centre = knuckle + cage.Guide.OffsetMm.Turned(theta);
            var gap = (centre - place.Pose.Axle).Length - gear.TipsMm;
            return new(
                end == ClosureEnd.Jammed || gap <= 0 ? GearState.Clash : GearState.Ok,
                theta,
                gap,
                tight,
                loose,
                bodyAngleRad
            );
        }
        return Without(
            end switch
            {
                ClosureEnd.Short => GearState.Short,
                ClosureEnd.Slack => GearState.Slack,
                _ => GearState.Clash,
            },
            bodyAngleRad
        ) with
        {
            TightMarginMm = tight,
            LooseMarginMm = loose,
        };
    }

    private static SweptFigures Without(GearState state, double bodyAngleRad) =>
        new(state, double.NaN, double.NaN, double.NaN, double.NaN, bodyAngleRad);
}
