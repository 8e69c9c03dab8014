using System.Runtime.InteropServices;

namespace Cogwright.Drivetrain;

/// <summary>
/// Solves every gear of a spec: where the derailleur swings, at which cage angle the chain is taut, and what follows.
/// </summary>
/// <remarks>
/// Model: ../shared conventions as in docs/theory/side-view.md. Allocates nothing beyond the table it returns.
/// The spec must be without <see cref="SpecCheck.Problems"/>.
/// </remarks>
public static class GearTableSolver
{
    /// <summary>The gear table for a chain length and a body angle.</summary>
    /// <param name="spec">The spec.</param>
    /// <param name="pitches">Length of the chain (pitches).</param>
    /// <param name="bodyAngleRad">Body angle β (rad); the spec's own when null. The cage's stops move with it.</param>
    public static GearTable Solve(DrivetrainSpec spec, int pitches, double? bodyAngleRad = null)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var cogs = spec.Cogs.Teeth.Length;
        var gears = new GearResult[spec.Rings.Length * cogs];
        var body = bodyAngleRad ?? spec.RearDerailleur?.BodyAngleRad ?? 0;
        for (var cog = 0; cog < cogs; cog++)
        {
            var reach = CogReach.Of(spec, cog, body);
            for (var ring = 0; ring < spec.Rings.Length; ring++)
            {
                gears[(ring * cogs) + cog] = Solve(spec, reach, ring, pitches);
            }
        }
        return new(spec, pitches, body, ImmutableCollectionsMarshal.AsImmutableArray(gears));
    }

    /// <summary>One gear, by the indices of its ring and cog.</summary>
    internal static GearResult SolveGear(
        DrivetrainSpec spec,
        int ring,
        int cog,
        int pitches,
        double bodyAngleRad
    ) => Solve(spec, CogReach.Of(spec, cog, bodyAngleRad), ring, pitches);

    private static GearResult Solve(
        DrivetrainSpec spec,
        in CogReach reach,
        int ring,
        int pitches
    ) =>
        spec.RearDerailleur is { } derailleur
            ? WithDerailleur(spec, derailleur, reach, ring, pitches)
            : DirectDrive.Solve(spec, pitches);

    private static GearResult WithDerailleur(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        in CogReach reach,
        int ring,
        int pitches
    )
    {
        var gear = new Gear(spec.Rings[ring].Teeth, spec.Cogs.Teeth[reach.Cog]);
        var pitch = Sprocket.PitchMm * (1 + spec.Chain.Elongation);
        var cage = derailleur.Cage;
        var result = new GearResult
        {
            Gear = gear,
            RingIndex = ring,
            CogIndex = reach.Cog,
            State = GearState.Unreachable,
            Blame = reach.Blame,
            ShortfallMm = reach.ShortfallMm,
            SwingRad = reach.SwingRad,
            CagePivot = reach.CagePivot,
            CageAngleRad = double.NaN,
            ResidualPitches = double.NaN,
            GapMm = double.NaN,
            GapToNextMm = double.NaN,
            CogTeethInMesh = double.NaN,
            RingTeethInMesh = double.NaN,
            TopRunMm = double.NaN,
            LowerRunMm = double.NaN,
            TakesAtRearStop = double.NaN,
            NeedsAtFrontStop = double.NaN,
            ForemostCageAngleRad = double.NaN,
            ChainAngleRad = double.NaN,
            TightMarginMm = double.NaN,
            LooseMarginMm = double.NaN,
            LowerRunTensionN = double.NaN,
            AxleMovedMm = double.NaN,
        };
        if (reach.Blame != Blame.None)
        {
            return result;
        }

        var closure = new CageClosure(
            pitch,
            spec.Frame.Axle,
            reach.CagePivot,
            SprocketSize.Of(gear.CogTeeth, pitch),
            SprocketSize.Of(gear.RingTeeth, pitch),
            SprocketSize.Of(cage.Tension.Teeth, pitch),
            SprocketSize.Of(cage.Guide.Teeth, pitch),
            cage.Tension.OffsetMm,
            cage.Guide.OffsetMm
        );
        var rearStop = cage.RearStopRad + reach.BodyTurnRad;
        var frontStop = cage.FrontStopRad + reach.BodyTurnRad;
        var takes = closure.TakesPitches(frontStop, rearStop);
        var end = closure.Walk(frontStop, rearStop, pitches);
        var lateral = spec.Cogs.LateralMm(reach.Cog);
        result = result with
        {
            ResidualPitches = closure.ResidualPitches,
            Evaluations = closure.Evaluations,
            TopRunMm = closure.TopRunMm,
            ChainAngleRad = Math.Atan(
                Math.Abs(spec.Rings[ring].LateralMm - lateral) / closure.TopRunMm
            ),
            TakesAtRearStop = takes,
            NeedsAtFrontStop = closure.NeedsPitches,
            ForemostCageAngleRad = closure.ForemostRad,
            TightMarginMm = (pitches - closure.NeedsPitches) * pitch,
            LooseMarginMm = (takes - pitches) * pitch,
        };
        return end switch
        {
            ClosureEnd.Short => result with
            {
                State = GearState.Short,
                Blame = Blame.ChainTooShort,
                ShortfallMm = closure.ResidualPitches * pitch,
            },
            ClosureEnd.Slack => result with
            {
                State = GearState.Slack,
                Blame = Blame.ChainTooLong,
                ShortfallMm = -closure.ResidualPitches * pitch,
            },
            ClosureEnd.NoPose => result with
            {
                State = GearState.Clash,
                Blame = Blame.OverlappingSprockets,
            },
            _ => Posed(spec, derailleur, reach, ref closure, result, end == ClosureEnd.Jammed),
        };
    }

    /// <summary>What follows once the cage angle is known.</summary>
    private static GearResult Posed(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        in CogReach reach,
        ref CageClosure closure,
        in GearResult result,
        bool jammed
    )
    {
        var cage = derailleur.Cage;
        var theta = closure.CageAngleRad;
        if (jammed)
        {
            _ = closure.PathPitches(theta);
        }
        var guide = reach.CagePivot + cage.Guide.OffsetMm.Turned(theta);
        var fromAxle = (guide - spec.Frame.Axle).Length;
        var guideTip = Sprocket.TipRadiusMm(cage.Guide.Teeth, cage.Guide.TipDiameterMm);
        var gap = fromAxle - guideTip - CogTip(spec.Cogs, reach.Cog);
        var isLargest = reach.Cog + 1 == spec.Cogs.Teeth.Length;
        var meets = jammed || gap <= 0;
        return result with
        {
            State = meets ? GearState.Clash : GearState.Ok,
            Blame =
                jammed ? Blame.OverlappingSprockets
                : meets ? Blame.GuidePulleyOnCog
                : Blame.None,
            ShortfallMm = meets ? Math.Max(0, -gap) : 0,
            CageAngleRad = theta,
            GapMm = gap,
            GapToNextMm = isLargest
                ? double.NaN
                : fromAxle - guideTip - CogTip(spec.Cogs, reach.Cog + 1),
            GapTipUncertaintyMm = GapTipUncertaintyMm(spec, derailleur, reach.Cog),
            CogTeethInMesh = closure.CogWrapRad * result.Gear.CogTeeth / Math.Tau,
            RingTeethInMesh = closure.RingWrapRad * result.Gear.RingTeeth / Math.Tau,
            LowerRunMm = closure.LowerRunMm,
            LowerRunTensionN = TensionN(cage, closure, theta, cage.RearStopRad + reach.BodyTurnRad),
            Guide = guide,
            Tension = reach.CagePivot + cage.Tension.OffsetMm.Turned(theta),
        };
    }

    private static double CogTip(CogSet cogs, int cog) =>
        Sprocket.TipRadiusMm(cogs.Teeth[cog], cogs.TipDiameterMm(cog));

    /// <summary>
    /// Standard uncertainty of the gap from tips that were not measured (mm): each tip's radius is taken as
    /// rectangular between ISO 606's limits (JCGM 100, 4.3.7).
    /// </summary>
    private static double GapTipUncertaintyMm(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        int cog
    )
    {
        var onCog = Sprocket.TipRadiusHalfSpreadMm(
            spec.Cogs.Teeth[cog],
            spec.Cogs.TipDiameterMm(cog)
        );
        var guide = derailleur.Cage.Guide;
        var onGuide = Sprocket.TipRadiusHalfSpreadMm(guide.Teeth, guide.TipDiameterMm);
        return Math.Sqrt(((onCog * onCog) + (onGuide * onGuide)) / 3);
    }

    /// <summary>Tension that the spring alone gives (N): τ(θ) over the lever of a unit tension; NaN without spring.</summary>
    private static double TensionN(
        PulleyCage cage,
        in CageClosure closure,
        double theta,
        double rearStop
    )
    {
        if (cage.Spring is not { } spring)
        {
            return double.NaN;
        }
        const double metresPerMillimetre = 1e-3;
        var torque = spring.TorqueAtRearStopNm + (spring.RateNmPerRad * (theta - rearStop));
        var lever = closure.TensionLeverMm(theta) * metresPerMillimetre;
        // With no lever the spring holds no chain; there is no tension to speak of.
        return lever > 0 ? torque / lever : double.NaN;
    }

    /// <summary>Where the derailleur stands for one cog, whatever the ring.</summary>
    private readonly record struct CogReach(
        int Cog,
        Blame Blame,
        double ShortfallMm,
        double SwingRad,
        Point CagePivot,
        double BodyTurnRad
    )
    {
        internal static CogReach Of(DrivetrainSpec spec, int cog, double bodyAngleRad)
        {
            if (spec.RearDerailleur is not { } derailleur)
            {
                return new(cog, Blame.None, 0, 0, default, 0);
            }
            var bolt = spec.Frame.Axle + spec.Hanger!.OffsetMm;
            var swing = new SwingReach(derailleur, bolt, bodyAngleRad);
            var wanted = spec.Cogs.LateralMm(cog) + derailleur.IndexOffsetMm;
            var blame = swing.Reach(wanted, out var sine, out var swingRad, out var shortfall);
            var cosine = Math.Sqrt(Math.Max(0, 1 - (sine * sine)));
            return new(
                cog,
                blame,
                shortfall,
                swingRad,
                swing.Knuckle(sine, cosine),
                bodyAngleRad - derailleur.BodyAngleRad
            );
        }
    }
}
