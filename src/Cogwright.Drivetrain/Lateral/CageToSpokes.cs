using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>The cage against the spokes: on the largest cog, at the inboard stop, with a tilted and with a knocked hanger.</summary>
internal sealed class CageToSpokes
{
    /// <summary>Greatest lean that is tried when looking for the knock that reaches the spokes (rad): 45 degrees.</summary>
    private const double MostLeanRad = Math.PI / 4;

    /// <summary>That knock's lean is found within this (rad): far less than a nanometre at the guide pulley.</summary>
    private const double WithinRad = 1e-12;

    private static readonly string[] AssumedGroups =
    [
        "rearDerailleur.bodyAngle",
        "rearDerailleur.upperPivot",
        "rearDerailleur.link",
        "rearDerailleur.slant",
        "rearDerailleur.guideLateralAtZero",
        "rearDerailleur.cage.guide",
        "rearDerailleur.cage.tension",
        "rearDerailleur.cage.innerFace",
        "rearDerailleur.cage.reach",
        "cogs.",
        "hanger.",
        "wheel.",
        "frame.chainstay",
        "frame.bbDrop",
    ];

    private readonly DrivetrainSpec spec;
    private readonly StopReach? stop;
    private readonly double? measuredMm;
    private readonly bool isStale;
    private readonly SpokeCone? cone;
    private readonly double? innerFaceMm;
    private readonly ImmutableArray<CagePoses.Pose> onCog;
    private readonly ImmutableArray<CagePoses.Pose> atStop;
    private readonly Point axle;
    private readonly Point bolt;

    /// <param name="table">The solved gears.</param>
    /// <param name="stop">The inboard stop's reach, or null when unknown.</param>
    /// <param name="movedSinceMeasured">Whether the cage was moved after the distance had been measured.</param>
    internal CageToSpokes(GearTable table, StopReach? stop, bool movedSinceMeasured)
    {
        spec = table.Spec;
        this.stop = stop;
        measuredMm = spec.Lateral?.Spokes?.CageToSpokesMm;
        // Hub and rim do not stand in for it: a figure computed beside a measured one would pass for what the move did.
        isStale = movedSinceMeasured && measuredMm is not null;
        cone = SpokeClearance.Cone(spec);
        innerFaceMm = spec.Lateral?.CageInnerFaceMm;
        axle = table.AxlePose.Axle;
        bolt = table.AxlePose.Carry(spec.BoltOffsetMm);
        onCog = [.. CagePoses.OnLargestCog(table)];
        atStop = stop is null ? [] : [.. CagePoses.AtStop(table, stop)];
    }

    private bool IsKnown =>
        !isStale && (measuredMm is not null || (cone is not null && innerFaceMm is not null));

    private ImmutableArray<string> Missing =>
        isStale
            ? ["wheel.cageToSpokes"]
            :
            [
                .. cone is null
                    ? SpokeClearance.MissingOfSpokes(spec.Lateral?.Spokes, "wheel.cageToSpokes")
                    : [],
                // With neither known, the one measured distance says it all.
                .. innerFaceMm is null && (cone is not null || spec.Lateral?.Spokes is not null)
                    ? ["rearDerailleur.cage.innerFace"]
                    : Array.Empty<string>(),
            ];

    internal Clearance OnLargestCog() =>
        IsKnown
            ? Known(
                ClearanceKind.CageOnLargestCog,
                SpokeClearance.LeastCageMm,
                OnCog(default, out var where),
                where
            )
            : Unknown(ClearanceKind.CageOnLargestCog, SpokeClearance.LeastCageMm, Missing);

    internal Clearance AtStop()
    {
        const ClearanceKind kind = ClearanceKind.CageAtInboardStop;
        const double least = SpokeClearance.LeastAtStopMm;
        ImmutableArray<string> missing =
        [
            .. IsKnown ? [] : Missing,
            .. stop is not null ? Array.Empty<string>()
            : spec.RearDerailleur is { Coaxial: not null } ? ["shifting.positions"]
            : ["rearDerailleur.inboardStopLateral"],
        ];
        return missing.IsEmpty
            ? Known(kind, least, AtStop(default, out var where), where)
            : Unknown(kind, least, missing);
    }

    /// <summary>The less of the two poses with a bent hanger; without a known stop, that on the largest cog.</summary>
    internal Clearance Bent(ClearanceKind kind, HangerTilt tilt, Knock? knock, double leastMm)
    {
        if (!IsKnown)
        {
            return Unknown(kind, leastMm, Missing);
        }
        var lean = knock is { } size ? size.LeanRad(GuideBelowBoltMm) : 0;
        var room = Least(tilt, lean, out var where);
        return Known(kind, leastMm, room, where);
    }

    /// <summary>The least knock that brings the cage to the spokes (mm inward at the guide pulley); null when not known or beyond any knock.</summary>
    internal double? KnockToSpokesMm(HangerTilt tilt)
    {
        if (!IsKnown)
        {
            return null;
        }
        var unbent = Least(tilt, 0, out _);
        if (unbent <= 0)
        {
            return 0;
        }
        var bentMost = Least(tilt, MostLeanRad, out _);
        if (bentMost > 0)
        {
            return null;
        }
        var lean = Chandrupatla.Crossing(
            lean => Least(tilt, lean, out _),
            (0, unbent),
            (MostLeanRad, bentMost),
            WithinRad
        );
        return lean * Knock.LeverMm(GuideBelowBoltMm);
    }

    private double GuideBelowBoltMm => onCog.Min(pose => bolt.Y - pose.Guide.Y);

    /// <summary>
    /// The less of both poses. A tilt that was there when index and stops were set moves no guide pulley; one that came
    /// later does: the worse of the two counts. A knock always comes later.
    /// </summary>
    private double Least(HangerTilt tilt, double knockLeanRad, out Place place)
    {
        var least = OnCog(new(tilt, knockLeanRad), out place);
        if (stop is not null)
        {
            var there = AtStop(new(tilt, knockLeanRad), out var other);
            if (there < least)
            {
                (least, place) = (there, other);
            }
        }
        return least;
    }

    private double OnCog(Bend bend, out Place place) =>
        measuredMm is { } measured
            ? measured - MovedInwardMm(onCog, bend, out place)
            : Computed(onCog, bend, out place);

    private double AtStop(Bend bend, out Place place)
    {
        if (measuredMm is not { } measured)
        {
            return Computed(atStop, bend, out place);
        }
        // Beyond the pose that was measured the cage goes inboard by the overshoot.
        var further = onCog.Min(pose => pose.GuideLateralMm) - stop!.GuideLateralMm;
        return measured - Math.Max(0, further) - MovedInwardMm(atStop, bend, out place);
    }

    /// <summary>
    /// How far a knock carries the cage inward beside a measured distance (mm): its lowest point, where it moves most.
    /// The tilt was there when the distance was measured and moves nothing.
    /// </summary>
    private double MovedInwardMm(ImmutableArray<CagePoses.Pose> poses, Bend bend, out Place place)
    {
        var most = double.NegativeInfinity;
        place = default;
        foreach (var pose in poses)
        {
            var face = Face(pose, 0);
            var lowest = Math.Min(
                pose.Guide.Y - face.GuideReachMm,
                pose.Tension.Y - face.TensionReachMm
            );
            var moved = bend.KnockLeanRad * Math.Max(0, bolt.Y - lowest);
            if (moved > most)
            {
                (most, place) = (moved, new(pose.Gear, null, double.NaN));
            }
        }
        return most;
    }

    private double Computed(ImmutableArray<CagePoses.Pose> poses, Bend bend, out Place place)
    {
        var least = double.PositiveInfinity;
        place = default;
        foreach (var pose in poses)
        {
            var face = Face(pose, innerFaceMm!.Value);
            Try(pose, face, ref least, ref place);
            // Set again after the tilt, the guide pulley stands under its cog once more.
            var again = face.LateralMm - bend.Tilt.LateralMm(pose.Guide - bolt);
            Try(pose, face with { LateralMm = again }, ref least, ref place);
        }
        return least;

        void Try(CagePoses.Pose pose, CageFace face, ref double room, ref Place nearest)
        {
            var found = face.LeastToSpokesMm(cone!.Value, axle, bolt, bend.Whole, out var at);
            if (found < room)
            {
                room = found;
                nearest = new(pose.Gear, at, face.LateralMm + bend.Whole.LateralMm(at - bolt));
            }
        }
    }

    private CageFace Face(CagePoses.Pose pose, double innerFace)
    {
        var cage = spec.RearDerailleur!.Cage;
        return new(
            pose.Guide,
            pose.Tension,
            Reach(cage.Guide),
            Reach(cage.Tension),
            pose.GuideLateralMm - innerFace
        );
    }

    private double Reach(CagePulley pulley) =>
        spec.Lateral?.CageReachMm ?? Sprocket.TipRadiusMm(pulley.Teeth, pulley.TipDiameterMm);

    private Clearance Unknown(ClearanceKind kind, double leastMm, ImmutableArray<string> missing) =>
        SpokeClearance.Unknown(kind, leastMm, missing) with
        {
            IsStale = isStale,
        };

    private Clearance Known(ClearanceKind kind, double leastMm, double room, Place place) =>
        new()
        {
            Kind = kind,
            Verdict = SpokeClearance.Verdict(room, leastMm),
            Mm = room,
            LeastMm = leastMm,
            Gear = place.Gear,
            At = place.At,
            FaceLateralMm = place.At is null ? null : place.FaceLateralMm,
            IsMeasured = measuredMm is not null,
            Assumed =
                measuredMm is not null && kind == ClearanceKind.CageOnLargestCog
                    ? []
                    : SpokeClearance.AssumedAmong(spec, AssumedGroups),
        };

    /// <summary>In which gear and where the room is least; no point when only a distance was measured.</summary>
    private readonly record struct Place(Gear Gear, Point? At, double FaceLateralMm);

    /// <summary>A tilt that was read and a knock that adds to it.</summary>
    private readonly record struct Bend(HangerTilt Tilt, double KnockLeanRad)
    {
        internal HangerTilt Whole => Tilt with { LeanRad = Tilt.LeanRad + KnockLeanRad };
    }
}
