using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>
/// What a mechanic can measure with a caliper in the wheel plane, no level needed. All are distances (mm);
/// "pivot" is the axis about which the cage turns.
/// </summary>
public enum BenchDistance
{
    /// <summary>Rear axle to bottom-bracket axis.</summary>
    AxleToBottomBracket,

    /// <summary>Rear axle to hanger bolt.</summary>
    AxleToHangerBolt,

    /// <summary>Hanger bolt to bottom-bracket axis.</summary>
    HangerBoltToBottomBracket,

    /// <summary>Across the two pins of one link of the parallelogram, centre to centre.</summary>
    AcrossLinkPins,

    /// <summary>Cage pivot to the guide pulley's centre.</summary>
    PivotToGuide,

    /// <summary>Cage pivot to the tension pulley's centre.</summary>
    PivotToTension,

    /// <summary>Guide pulley's centre to the tension pulley's.</summary>
    GuideToTension,

    /// <summary>Over the tips of the smallest cog: its diameter.</summary>
    SmallestCogTip,

    /// <summary>Over the tips of the largest cog: its diameter.</summary>
    LargestCogTip,

    /// <summary>Over the tips of the guide pulley: its diameter.</summary>
    GuideTip,

    /// <summary>Over the tips of the tension pulley: its diameter.</summary>
    TensionTip,

    /// <summary>Cage pivot to rear axle, chain off, guide pulley under the named cog.</summary>
    PivotToAxle,

    /// <summary>Cage pivot to hanger bolt, chain off, guide pulley under the named cog.</summary>
    PivotToHangerBolt,

    /// <summary>Cage pivot to bottom-bracket axis, chain off, guide pulley under the named cog.</summary>
    PivotToBottomBracket,

    /// <summary>Middle of the smallest cog to the middle of the largest, along the axle.</summary>
    EndCogSpacing,

    /// <summary>Bike's centre plane to the middle between the rings (to the ring, when there is one).</summary>
    Chainline,

    /// <summary>Tension pulley's centre to rear axle, cage at its rear stop, guide pulley under the smallest cog.</summary>
    TensionToAxleAtRearStop,

    /// <summary>Tension pulley's centre to rear axle, cage at its front stop, guide pulley under the smallest cog.</summary>
    TensionToAxleAtFrontStop,

    /// <summary>Cage pivot to rear axle again, under the named cog, after turning the body-angle screw clockwise.</summary>
    PivotToAxleAfterScrew,

    /// <summary>Pulley-to-cog gap in the named gear, tooth tip to tooth tip, chain on.</summary>
    Gap,
}

/// <summary>What is measured: a distance, and the gear or the turns that it belongs to.</summary>
/// <param name="Distance">The distance.</param>
/// <param name="CogTeeth">Teeth of the cog that it is measured under, 0 where none matters.</param>
/// <param name="RingTeeth">Teeth of the ring, 0 where none matters.</param>
/// <param name="Turns">Turns of the screw, clockwise positive, 0 where none matter.</param>
public readonly record struct BenchPlace(
    BenchDistance Distance,
    int CogTeeth = 0,
    int RingTeeth = 0,
    double Turns = 0
);

/// <summary>One measured distance.</summary>
/// <param name="Place">What was measured.</param>
/// <param name="ValueMm">What was read (mm).</param>
/// <param name="UncertaintyMm">Its standard uncertainty (mm).</param>
public readonly record struct BenchReading(
    BenchPlace Place,
    double ValueMm,
    double UncertaintyMm = BenchReading.UsualUncertaintyMm
)
{
    /// <summary>
    /// Standard uncertainty of a distance between two bolts or axles with a caliper held by hand (mm). Common practice.
    /// </summary>
    public const double UsualUncertaintyMm = 0.5;
}

/// <summary>What was measured on one bike. Immutable.</summary>
/// <param name="Readings">The readings, in any order; the same distance may be there more than once.</param>
public sealed record BenchMeasurements(ImmutableArray<BenchReading> Readings)
{
    /// <summary>Turns of the screw between the two readings of its effect.</summary>
    public const double ScrewTurns = 2;

    /// <summary>The cogs under which the pivot is measured: smallest, middle and largest.</summary>
    public static ImmutableArray<int> Cogs(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var teeth = spec.Cogs.Teeth;
        return [.. ((int[])[teeth[0], teeth[teeth.Length / 2], teeth[^1]]).Distinct()];
    }

    /// <summary>What the measuring form asks for, in the order of work.</summary>
    public static ImmutableArray<BenchPlace> Form(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (spec.RearDerailleur is null)
        {
            return [];
        }
        var cogs = Cogs(spec);
        return
        [
            new(BenchDistance.AxleToBottomBracket),
            new(BenchDistance.AxleToHangerBolt),
            new(BenchDistance.HangerBoltToBottomBracket),
            new(BenchDistance.AcrossLinkPins),
            new(BenchDistance.PivotToGuide),
            new(BenchDistance.PivotToTension),
            new(BenchDistance.GuideToTension),
            new(BenchDistance.SmallestCogTip),
            new(BenchDistance.LargestCogTip),
            new(BenchDistance.GuideTip),
            new(BenchDistance.TensionTip),
            new(BenchDistance.EndCogSpacing),
            new(BenchDistance.Chainline),
            .. cogs.SelectMany(cog =>
                (BenchPlace[])
                    [new(BenchDistance.PivotToAxle, cog), new(BenchDistance.PivotToHangerBolt, cog)]
            ),
            new(BenchDistance.TensionToAxleAtRearStop),
            new(BenchDistance.TensionToAxleAtFrontStop),
            new(BenchDistance.PivotToAxleAfterScrew, cogs[^1], 0, ScrewTurns),
        ];
    }

    /// <summary>
    /// What a mechanic is led through: the form, the pivot's third distance, and the gaps that help most once the chain is on.
    /// </summary>
    public static ImmutableArray<BenchPlace> WholeForm(DrivetrainSpec spec)
    {
        var form = Form(spec);
        if (form.IsEmpty)
        {
            return form;
        }
        var cogs = Cogs(spec);
        var (smallest, largest) = (spec.Rings.Min(r => r.Teeth), spec.Rings.Max(r => r.Teeth));
        return
        [
            .. form,
            .. cogs.Select(cog => new BenchPlace(BenchDistance.PivotToBottomBracket, cog)),
            new(BenchDistance.Gap, cogs[^1], smallest),
            new(BenchDistance.Gap, cogs[0], largest),
            new(BenchDistance.Gap, cogs[cogs.Length / 2], largest),
        ];
    }

    /// <summary>
    /// What a caliper should read about there if the bike is as its spec and classes say (mm), or null when nothing can be said:
    /// no such cog, no taut chain. After turning the screw it is the figure before.
    /// </summary>
    public static double? ExpectedMm(DrivetrainSpec spec, in BenchPlace place)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return spec.RearDerailleur is { } derailleur
            ? BenchModel.ReadingMm(spec, derailleur.BodyAngleRad, place)
            : null;
    }

    /// <summary>What may be measured beyond the form: the pivot's third distance, and the gap in every gear.</summary>
    public static ImmutableArray<BenchPlace> Further(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return spec.RearDerailleur is null
            ? []
            :
            [
                .. Cogs(spec)
                    .Select(cog => new BenchPlace(BenchDistance.PivotToBottomBracket, cog)),
                .. spec.Rings.SelectMany(ring =>
                    spec.Cogs.Teeth.Select(cog => new BenchPlace(
                        BenchDistance.Gap,
                        cog,
                        ring.Teeth
                    ))
                ),
            ];
    }
}
