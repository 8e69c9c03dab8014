using System.Runtime.InteropServices;

namespace Cogwright.Drivetrain;

/// <summary>
/// Solves every gear of a spec: where the derailleur swings, at which cage angle the chain is taut, and what follows.
/// </summary>
/// <remarks>
/// Model and symbols: docs/theory/side-view.md. Allocates nothing beyond the table it returns.
/// The spec must be without <see cref="SpecCheck.Problems"/>.
/// </remarks>
public static partial class GearTableSolver
{
    /// <summary>The gear table for a chain length and a body angle.</summary>
    /// <param name="spec">The spec.</param>
    /// <param name="pitches">Length of the chain (pitches).</param>
    /// <param name="bodyAngleRad">
    /// Body angle β (rad). When null, the spec's own, or of a derailleur on the axle what comes out of its set-up with this
    /// chain (<see cref="CoaxialSetUp"/>). The cage's stops move with it. With a sprung mount, the spec's own
    /// plus the turn of the spring's anchor (<see cref="SprungMount"/>).
    /// </param>
    /// <param name="travelMm">Travel of the rear end (mm); where gaps are set when null (<see cref="Frame.SetUpTravelMm"/>).</param>
    /// <exception cref="ArgumentOutOfRangeException">The rear end has no such travel.</exception>
    public static GearTable Solve(
        DrivetrainSpec spec,
        int pitches,
        double? bodyAngleRad = null,
        double? travelMm = null
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        var travel = travelMm ?? spec.Frame.SetUpTravelMm;
        var rearEnd = RearEnd.Of(spec.Frame);
        var place = new RearPlace(rearEnd, rearEnd.At(travel), spec.Idler);
        var cogs = spec.Cogs.Teeth.Length;
        var gears = new GearResult[spec.Rings.Length * cogs];
        var setUp = bodyAngleRad is null ? CoaxialSetUp.Of(spec, pitches) : null;
        var body = bodyAngleRad ?? setUp?.BodyAngleRad ?? spec.RearDerailleur?.BodyAngleRad ?? 0;
        var sprung = spec.RearDerailleur?.Sprung;
        for (var cog = 0; cog < cogs; cog++)
        {
            if (sprung is not null)
            {
                for (var ring = 0; ring < spec.Rings.Length; ring++)
                {
                    gears[(ring * cogs) + cog] = SolveGear(spec, place, ring, cog, pitches, body);
                }
                continue;
            }
            var reach = CogReach.Of(spec, place, cog, body);
            for (var ring = 0; ring < spec.Rings.Length; ring++)
            {
                gears[(ring * cogs) + cog] = Solve(spec, reach, ring, pitches);
            }
        }
        return new(spec, pitches, body, ImmutableCollectionsMarshal.AsImmutableArray(gears))
        {
            TravelMm = travel,
            AxlePose = place.Pose,
            Idler = place.Idler,
            SetUp = setUp,
        };
    }

    /// <summary>
    /// The same as <see cref="Solve(DrivetrainSpec, int, double?, double?)"/> of one gear alone: for a drawing that moves while a hand turns
    /// something. The table holds that gear only, or none when the bike has no such gear.
    /// </summary>
    /// <param name="spec">The spec.</param>
    /// <param name="pitches">Length of the chain (pitches).</param>
    /// <param name="gear">The gear.</param>
    /// <param name="bodyAngleRad">Body angle β (rad), or null.</param>
    /// <param name="travelMm">Travel of the rear end (mm), or null.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rear end has no such travel.</exception>
    public static GearTable SolveOne(
        DrivetrainSpec spec,
        int pitches,
        Gear gear,
        double? bodyAngleRad = null,
        double? travelMm = null
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        var travel = travelMm ?? spec.Frame.SetUpTravelMm;
        var place = RearPlace.At(spec, RearEnd.Of(spec.Frame), travel);
        var setUp = bodyAngleRad is null ? CoaxialSetUp.Of(spec, pitches) : null;
        var body = bodyAngleRad ?? setUp?.BodyAngleRad ?? spec.RearDerailleur?.BodyAngleRad ?? 0;
        return new(
            spec,
            pitches,
            body,
            spec.IndicesOf(gear) is var (ring, cog)
                ? [SolveGear(spec, place, ring, cog, pitches, body)]
                : []
        )
        {
            TravelMm = travel,
            AxlePose = place.Pose,
            Idler = place.Idler,
            SetUp = setUp,
        };
    }

    /// <summary>One gear, by the indices of its ring and cog, with the rear axle at a place.</summary>
    internal static GearResult SolveGear(
        DrivetrainSpec spec,
        in RearPlace place,
        int ring,
        int cog,
        int pitches,
        double bodyAngleRad
    ) =>
        spec.RearDerailleur is { Sprung: { } mount } derailleur
            ? OnSpring(new(spec, derailleur, mount, place, ring, cog, pitches, bodyAngleRad), place)
            : Solve(spec, CogReach.Of(spec, place, cog, bodyAngleRad), ring, pitches);

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
        var pitch = spec.Chain.PitchMm;
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
            BodyAngleRad = reach.BodyAngleRad,
            CageAngleRad = double.NaN,
            ResidualPitches = double.NaN,
            GapMm = double.NaN,
            GapToNextMm = double.NaN,
            CogTeethInMesh = double.NaN,
            RingTeethInMesh = double.NaN,
            TopRunMm = double.NaN,
            IdlerRunMm = double.NaN,
            IdlerTeethInMesh = double.NaN,
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

        var closure = ClosureOf(spec, cage, reach, gear, pitch);
        if (!closure.Upper.IsPossible)
        {
            return result with
            {
                State = GearState.Clash,
                Blame =
                    reach.Idler is null ? Blame.OverlappingSprockets
                    : closure.Upper.HasLeftIdler ? Blame.ChainOffIdler
                    : Blame.IdlerOnSprocket,
            };
        }
        var rearStop = cage.RearStopRad + reach.BodyTurnRad;
        var frontStop = cage.FrontStopRad + reach.BodyTurnRad;
        var takes = closure.TakesPitches(frontStop, rearStop);
        var end = closure.Walk(frontStop, rearStop, pitches);
        var idler = spec.Idler;
        var towards = idler?.LateralBeside(spec.Rings[ring]) ?? spec.Rings[ring].LateralMm;
        result = result with
        {
            ResidualPitches = closure.ResidualPitches,
            Evaluations = closure.Evaluations,
            TopRunMm = closure.Upper.CogRunMm,
            IdlerRunMm = idler is null ? double.NaN : closure.Upper.RingRunMm,
            IdlerTeethInMesh = idler is null ? double.NaN : closure.Upper.IdlerTeethInMesh,
            ChainAngleRad = Math.Atan(
                Math.Abs(towards - spec.Cogs.LateralMm(reach.Cog)) / closure.Upper.CogRunMm
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

    /// <summary>The path of one gear as a function of the cage angle.</summary>
    private static CageClosure ClosureOf(
        DrivetrainSpec spec,
        PulleyCage cage,
        in CogReach reach,
        Gear gear,
        double pitch
    ) =>
        new(
            pitch,
            reach.Axle,
            reach.CagePivot,
            SprocketSize.Of(gear.CogTeeth, pitch),
            SprocketSize.Of(gear.RingTeeth, pitch),
            SprocketSize.Of(cage.Tension.Teeth, pitch),
            SprocketSize.Of(cage.Guide.Teeth, pitch),
            cage.Tension.OffsetMm,
            cage.Guide.OffsetMm,
            reach.Idler
        );

    private static CageClosure ClosureOf(
        DrivetrainSpec spec,
        PulleyCage cage,
        in CogReach reach,
        int ring
    ) =>
        ClosureOf(
            spec,
            cage,
            reach,
            new(spec.Rings[ring].Teeth, spec.Cogs.Teeth[reach.Cog]),
            spec.Chain.PitchMm
        );

    /// <summary>
    /// The path of a gear at a place of the rear axle with the cage at a given angle (pitches); NaN where it has none.
    /// </summary>
    internal static double PathAt(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        in RearPlace place,
        int ring,
        int cog,
        double bodyAngleRad,
        double cageAngleRad
    )
    {
        var reach = CogReach.Of(spec, place, cog, bodyAngleRad);
        if (reach.Blame != Blame.None)
        {
            return double.NaN;
        }
        var closure = ClosureOf(spec, derailleur.Cage, reach, ring);
        // A range of no width is the one cage angle; what has no pose there takes no chain.
        return closure.Upper.IsPossible
            ? closure.TakesPitches(cageAngleRad, cageAngleRad)
            : double.NaN;
    }

    /// <summary>The least chain that a gear needs at a place of the rear axle (pitches); NaN when it has no possible pose there.</summary>
    internal static double Needs(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        in RearPlace place,
        int ring,
        int cog,
        double bodyAngleRad
    )
    {
        if (derailleur.Sprung is { } mount)
        {
            var body = new SprungBody(spec, derailleur, mount, place, ring, cog, 0, bodyAngleRad);
            return body.IsServed ? body.Needs().Pitches : double.NaN;
        }
        var reach = CogReach.Of(spec, place, cog, bodyAngleRad);
        var closure = ClosureOf(spec, derailleur.Cage, reach, ring);
        if (reach.Blame != Blame.None || !closure.Upper.IsPossible)
        {
            return double.NaN;
        }
        // A chain of no length is too short at once: the walk ends at the first possible pose.
        _ = closure.Walk(
            derailleur.Cage.FrontStopRad + reach.BodyTurnRad,
            derailleur.Cage.RearStopRad + reach.BodyTurnRad,
            0
        );
        return closure.NeedsPitches;
    }

    /// <summary>The most chain that a gear takes at a place of the rear axle (pitches); NaN when it has no possible pose there.</summary>
    internal static double Takes(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        in RearPlace place,
        int ring,
        int cog,
        double bodyAngleRad
    )
    {
        if (derailleur.Sprung is { } mount)
        {
            var body = new SprungBody(spec, derailleur, mount, place, ring, cog, 0, bodyAngleRad);
            return body.IsServed ? body.Takes() : double.NaN;
        }
        var reach = CogReach.Of(spec, place, cog, bodyAngleRad);
        var closure = ClosureOf(spec, derailleur.Cage, reach, ring);
        return reach.Blame == Blame.None && closure.Upper.IsPossible
            ? closure.TakesPitches(
                derailleur.Cage.FrontStopRad + reach.BodyTurnRad,
                derailleur.Cage.RearStopRad + reach.BodyTurnRad
            )
            : double.NaN;
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
        var fromAxle = (guide - reach.Axle).Length;
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
        var lever = closure.TensionLeverMm(theta) * MetresPerMillimetre;
        // With no lever the spring holds no chain; there is no tension to speak of.
        return lever > 0 ? spring.TorqueNm(theta - rearStop) / lever : double.NaN;
    }

    /// <summary>
    /// Lever of the lower run's tension about the cage pivot in a gear of a table that has a pose (m), positive when the
    /// chain pulls the cage forward.
    /// </summary>
    internal static double TensionLeverM(
        GearTable table,
        RearDerailleur derailleur,
        in GearResult gear
    )
    {
        var spec = table.Spec;
        var reach = CogReach.Of(spec, table.Place, gear.CogIndex, gear.BodyAngleRad);
        var closure = ClosureOf(spec, derailleur.Cage, reach, gear.RingIndex);
        _ = closure.PathPitches(gear.CageAngleRad);
        return closure.TensionLeverMm(gear.CageAngleRad) * MetresPerMillimetre;
    }

    /// <summary>Where the derailleur stands for one cog, whatever the ring.</summary>
    private readonly record struct CogReach(
        int Cog,
        Blame Blame,
        double ShortfallMm,
        double SwingRad,
        Point CagePivot,
        double BodyTurnRad,
        double BodyAngleRad,
        Point Axle,
        OrientedSprocket? Idler
    )
    {
        internal static CogReach Of(
            DrivetrainSpec spec,
            in RearPlace place,
            int cog,
            double bodyAngleRad
        )
        {
            var axle = place.Pose.Axle;
            if (spec.RearDerailleur is not { } derailleur)
            {
                return new(cog, Blame.None, 0, 0, default, 0, 0, axle, null);
            }
            // Hanger, body and with it the cage's stops turn with the member that carries the axle.
            var turn = place.Pose.RotationRad;
            var bolt = place.Pose.Carry(spec.BoltOffsetMm);
            var swing = new SwingReach(derailleur, bolt, bodyAngleRad + turn);
            var wanted = spec.Cogs.LateralMm(cog) + derailleur.IndexOffsetMm;
            var blame = swing.Reach(wanted, out var sine, out var swingRad, out var shortfall);
            var cosine = Math.Sqrt(Math.Max(0, 1 - (sine * sine)));
            return new(
                cog,
                blame,
                shortfall,
                swingRad,
                swing.Knuckle(sine, cosine),
                bodyAngleRad - derailleur.BodyAngleRad + turn,
                bodyAngleRad,
                axle,
                place.Idler
            );
        }
    }
}
