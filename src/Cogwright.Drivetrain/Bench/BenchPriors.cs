using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>
/// What is known before anything is measured: the values of a class of mechanism and how far a real part of that
/// class may lie off. The deviations are standard ones and common practice: wide enough that parts of the class lie
/// within two of them, so that a caliper outweighs them wherever it can see.
/// </summary>
/// <param name="Spec">The spec, with every value that was not measured taken from its class. Without problems.</param>
/// <param name="Held">Parameters that the spec states itself: they are kept as they are.</param>
public sealed record BenchPriors(DrivetrainSpec Spec, ImmutableHashSet<BenchParameter> Held)
{
    /// <summary>Frames of one class differ by a size or two in the stay (mm).</summary>
    public const double ChainstayMm = 6;

    /// <summary>Hangers stand 5 to 12 mm behind and 25 to 32 mm below the axle (mm, each way).</summary>
    public const double HangerMm = 2.5;

    /// <summary>Where the parallelogram hangs differs from series to series (mm, each way).</summary>
    public const double UpperPivotMm = 4;

    /// <summary>Links are made 50 to 75 mm long; within a class a few mm (mm).</summary>
    public const double LinkLengthMm = 4;

    /// <summary>Set with the upper pivot, so that the pulley follows the same cogs (rad, 6°).</summary>
    public const double LinkAngleRad = 6 * Math.PI / 180;

    /// <summary>The slant follows the largest cog that the class serves (rad, 4°).</summary>
    public const double SlantRad = 4 * Math.PI / 180;

    /// <summary>Half a cog's spacing either way of the cassette's middle (mm).</summary>
    public const double GuideLateralMm = 2;

    /// <summary>Guide pulleys sit close to the pivot (mm).</summary>
    public const double GuideArmMm = 3;

    /// <summary>Cages of one name differ by a tooth of capacity or two (mm).</summary>
    public const double TensionArmMm = 5;

    /// <summary>Direction of the guide pulley against the tension pulley (rad, 10°).</summary>
    public const double GuideAngleRad = 10 * Math.PI / 180;

    /// <summary>Where the stops are cast (rad, 12°).</summary>
    public const double StopRad = 12 * Math.PI / 180;

    /// <summary>Cassettes of one number of cogs differ by hundredths, 0.05 mm between systems (mm).</summary>
    public const double CogSpacingMm = 0.05;

    /// <summary>Relative: levers are 12 to 20 mm long and threads 0.5 to 0.8 mm steep.</summary>
    public const double ScrewTurnRelative = 0.3;

    /// <summary>Thread pitch taken when the spec names none: that of an M4 screw (mm; ISO 261).</summary>
    public const double UsualThreadPitchMm = 0.7;

    /// <summary>Lever radius taken when the spec names none (mm).</summary>
    public const double UsualLeverRadiusMm = 15;

    /// <summary>
    /// How far one cog's tip radius lies from what the two end cogs let expect (mm): teeth of one cassette are shaped
    /// alike, apart from cogs with ramps.
    /// </summary>
    public const double CogTipScatterMm = 0.15;

    /// <summary>Priors of a spec that was read: what it assumes is free, what it states is held.</summary>
    public static BenchPriors Of(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var assumed = spec.Assumptions.Select(a => a.Path).ToHashSet(StringComparer.Ordinal);
        var held = Enum.GetValues<BenchParameter>()
            .Where(p => Path(p) is { } path && !assumed.Contains(path))
            .ToImmutableHashSet();
        // A screw with a stated thread and lever says what a turn does; its sign is still to be seen.
        return new(
            spec,
            spec.RearDerailleur?.BodyAngleScrew
                is { ThreadPitchMm: not null, LeverRadiusMm: not null }
                ? held
                : held.Remove(BenchParameter.ScrewTurn)
        );
    }

    /// <summary>The field that the parameter belongs to, or null when a spec has none for it.</summary>
    public static string? Path(BenchParameter parameter) =>
        parameter switch
        {
            BenchParameter.Chainstay => "frame.chainstay",
            BenchParameter.HangerX or BenchParameter.HangerY => "hanger.offset",
            BenchParameter.UpperPivotX or BenchParameter.UpperPivotY => "rearDerailleur.upperPivot",
            BenchParameter.LinkAngle => "rearDerailleur.linkAngle",
            BenchParameter.Slant => "rearDerailleur.slant",
            BenchParameter.GuideLateralAtZero => "rearDerailleur.guideLateralAtZero",
            BenchParameter.LinkLength => "rearDerailleur.linkLength",
            BenchParameter.GuideArm or BenchParameter.GuideAngle =>
                "rearDerailleur.cage.guide.offset",
            BenchParameter.TensionArm => "rearDerailleur.cage.tension.offset",
            BenchParameter.RearStop => "rearDerailleur.cage.rearStop",
            BenchParameter.FrontStop => "rearDerailleur.cage.frontStop",
            BenchParameter.CogSpacing => "cogs.spacing",
            BenchParameter.ScrewTurn => "rearDerailleur.bodyAngleScrew.leverRadius",
            _ => null,
        };
}
