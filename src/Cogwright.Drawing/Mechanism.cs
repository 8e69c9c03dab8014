using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>Where every part of one gear lies in the side view: what the drawings are made from. Immutable.</summary>
internal sealed record Mechanism
{
    internal required GearTable Table { get; init; }
    internal required GearResult Result { get; init; }
    internal required Disc Cog { get; init; }
    internal required Disc Ring { get; init; }

    /// <summary>The guide pulley, or null when there is none or it has no place.</summary>
    internal Disc? Guide { get; init; }

    /// <summary>The tension pulley, or null when there is none or it has no place.</summary>
    internal Disc? Tension { get; init; }

    /// <summary>The idler, or null when there is none.</summary>
    internal Disc? Idler { get; init; }

    /// <summary>Index of the ring among <see cref="Sprockets"/>; the pulleys follow it.</summary>
    internal int RingIndex => Idler is null ? 1 : 2;

    internal Point? HangerBolt { get; init; }
    internal Point? UpperPivot { get; init; }

    /// <summary>The lower knuckle, or null when nothing is known of it.</summary>
    internal Point? CagePivot { get; init; }

    /// <summary>Cage angle drawn (rad): that of the taut chain, or the stop at which the cage rests.</summary>
    internal double CageAngleRad { get; init; }

    /// <summary>The sprockets in the order in which the chain meets them: cog, idler if any, ring, pulleys.</summary>
    internal required IReadOnlyList<OrientedSprocket> Sprockets { get; init; }

    /// <summary>The path round them, or null when no chain can be drawn.</summary>
    internal ChainPath? Path { get; init; }

    internal double PitchMm { get; init; }

    internal DrivetrainSpec Spec => Table.Spec;

    /// <summary>Whether the path takes the chain exactly, so that its pitches can be counted along it.</summary>
    internal bool TakesTheChain =>
        Path is { } path && Math.Abs(path.Pitches - Table.Pitches) < CountsWithinPitches;

    /// <summary>The most by which a chain without a tensioner may be longer than its path and still count as lying on it (pitches).</summary>
    internal const double CountsWithinPitches = 0.05;

    /// <summary>A sprocket with its sizes.</summary>
    internal readonly record struct Disc(
        Point Centre,
        int Teeth,
        double PitchRadiusMm,
        double TipRadiusMm
    );

    /// <summary>The gear as the table has it.</summary>
    /// <exception cref="ArgumentException">The table has no such gear.</exception>
    internal static Mechanism Of(GearTable table, Gear gear)
    {
        ArgumentNullException.ThrowIfNull(table);
        var result =
            table.Find(gear)
            ?? throw new ArgumentException(
                Texts.Get("drawing.noSuchGear", gear.RingTeeth, gear.CogTeeth),
                nameof(gear)
            );
        var spec = table.Spec;
        var pitch = spec.Chain.PitchMm;
        var cog = DiscOf(
            AxleOf(table, result),
            gear.CogTeeth,
            spec.Cogs.TipDiameterMm(result.CogIndex),
            pitch
        );
        var ring = DiscOf(
            new Point(0, 0),
            gear.RingTeeth,
            spec.Rings[result.RingIndex].TipDiameterMm,
            pitch
        );
        var idler = table.Idler;
        var mechanism = new Mechanism
        {
            Table = table,
            Result = result,
            Cog = cog,
            Ring = ring,
            PitchMm = pitch,
            Idler = idler is { } over ? DiscOf(over.Centre, over.Teeth, null, pitch) : null,
            Sprockets =
            [
                new(cog.Centre, cog.Teeth, 1),
                .. idler is { } at ? (ReadOnlySpan<OrientedSprocket>)[at] : [],
                new(ring.Centre, ring.Teeth, 1),
            ],
        };
        return (
            spec.RearDerailleur is { } derailleur
                ? mechanism.WithDerailleur(derailleur, spec.BoltOffsetMm)
                : mechanism
        ).WithPath();
    }

    private static Disc DiscOf(Point centre, int teeth, double? tipDiameterMm, double pitchMm) =>
        new(
            centre,
            teeth,
            Sprocket.PitchRadiusMm(teeth, pitchMm),
            Sprocket.TipRadiusMm(teeth, tipDiameterMm)
        );

    // An axle moved in its slots stays on the line of the chainstay here: only its distance is known.
    private static Point AxleOf(GearTable table, GearResult result)
    {
        var axle = table.AxlePose.Axle;
        var moved = double.IsFinite(result.AxleMovedMm) ? result.AxleMovedMm : 0;
        var part = 1 + (moved / axle.Length);
        return new(axle.X * part, axle.Y * part);
    }

    private Mechanism WithDerailleur(RearDerailleur derailleur, Point boltOffsetMm)
    {
        // Hanger and body turn with the member that carries the axle.
        var pose = Table.AxlePose;
        var bolt = pose.Carry(boltOffsetMm);
        var upper = bolt + derailleur.UpperPivotMm.Turned(Result.BodyAngleRad + pose.RotationRad);
        var with = this with { HangerBolt = bolt, UpperPivot = upper };
        if (!IsPlace(Result.CagePivot))
        {
            return with;
        }
        var cage = derailleur.Cage;
        var angle = CageAngle(derailleur);
        var guide = DiscOf(
            Result.CagePivot + cage.Guide.OffsetMm.Turned(angle),
            cage.Guide.Teeth,
            cage.Guide.TipDiameterMm,
            PitchMm
        );
        var tension = DiscOf(
            Result.CagePivot + cage.Tension.OffsetMm.Turned(angle),
            cage.Tension.Teeth,
            cage.Tension.TipDiameterMm,
            PitchMm
        );
        return with with
        {
            CagePivot = Result.CagePivot,
            CageAngleRad = angle,
            Guide = guide,
            Tension = tension,
            Sprockets =
            [
                .. Sprockets,
                new(tension.Centre, tension.Teeth, 1),
                new(guide.Centre, guide.Teeth, -1),
            ],
        };
    }

    private double CageAngle(RearDerailleur derailleur)
    {
        // The stops sit on the lower knuckle and turn with the body.
        var turned = Result.BodyAngleRad - derailleur.BodyAngleRad + Table.AxlePose.RotationRad;
        return Result.State switch
        {
            GearState.Short when double.IsFinite(Result.ForemostCageAngleRad) =>
                Result.ForemostCageAngleRad,
            GearState.Short => derailleur.Cage.FrontStopRad + turned,
            _ when Result.HasPose => Result.CageAngleRad,
            _ => derailleur.Cage.RearStopRad + turned,
        };
    }

    private Mechanism WithPath()
    {
        // Beside another cog than the one in use the chain of an unreachable gear lies nowhere in particular.
        if (Result.State == GearState.Unreachable || (HangerBolt is not null && Guide is null))
        {
            return this;
        }
        var path = ChainPath.Round([.. Sprockets], PitchMm);
        return path.IsPossible ? this with { Path = path } : this;
    }

    private static bool IsPlace(Point point) =>
        double.IsFinite(point.X) && double.IsFinite(point.Y) && point != default;
}
