using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Mechanisms drawn from a class, and a mechanic who measures them with an unsteady hand.</summary>
internal static class BenchCases
{
    /// <summary>The classes that mechanisms are drawn from, with sprockets that suit them.</summary>
    internal static ImmutableArray<DrivetrainSpec> Classes { get; } =
    [
        Example.Spec,
        Class(
            Example.Spec,
            new(-31, -34),
            62,
            -30,
            56,
            new(-6, 1),
            -92,
            13,
            [46, 36, 26],
            [11, 13, 15, 17, 20, 23, 26, 30, 34],
            4.34
        ),
        Class(
            Example.Spec,
            new(-22, -39),
            69,
            -41,
            59,
            new(-22, 0),
            -92,
            13,
            [32],
            [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51],
            3.58
        ),
    ];

    private static DrivetrainSpec Class(
        DrivetrainSpec basis,
        Point upperPivot,
        double length,
        double linkAngle,
        double slant,
        Point guide,
        double tensionY,
        int pulleyTeeth,
        int[] rings,
        int[] cogs,
        double spacing
    )
    {
        var derailleur = basis.RearDerailleur!;
        const double rad = Math.PI / 180;
        return basis with
        {
            Frame = basis.Frame with { ChainstayMm = 440, BottomBracketDropMm = 45 },
            Rings = [.. rings.Select((t, i) => new Ring(t, 50 - (i * 6.5)))],
            Cogs = new()
            {
                Teeth = [.. cogs],
                SmallestLateralMm = 64,
                SpacingMm = spacing,
            },
            Chain = new(),
            RearDerailleur = derailleur with
            {
                UpperPivotMm = upperPivot,
                LinkLengthMm = length,
                LinkAngleRad = linkAngle * rad,
                SlantRad = slant * rad,
                GuideLateralAtZeroMm = 64 - ((cogs.Length - 1) * spacing / 2),
                Cage = derailleur.Cage with
                {
                    Guide = new(guide, pulleyTeeth),
                    Tension = new(new(-4, tensionY), pulleyTeeth),
                },
            },
        };
    }

    /// <summary>A mechanism of the class that could be built: no problem, and most of its gears work with its chain.</summary>
    internal static DrivetrainSpec Draw(DrivetrainSpec ofClass, Random random)
    {
        var space = new BenchSpace(new(ofClass, []));
        while (true)
        {
            var y = new double[space.Free.Length];
            for (var i = 0; i < y.Length; i++)
            {
                y[i] = Normal(random);
            }
            if (space.At(y, 0, out _) is not { } spec || !SpecCheck.Problems(spec).IsEmpty)
            {
                continue;
            }
            var turn = space.Value(y, BenchParameter.ScrewTurn);
            var teeth = spec.Cogs.Teeth;
            spec = spec with
            {
                Cogs = spec.Cogs with
                {
                    TipDiametersMm =
                    [
                        .. spec.Cogs.TipDiametersMm.Select(
                            (tip, i) =>
                                i == 0 || i == teeth.Length - 1
                                    ? tip
                                    : tip + (2 * BenchPriors.CogTipScatterMm * Normal(random))
                        ),
                    ],
                },
                RearDerailleur = spec.RearDerailleur! with
                {
                    BodyAngleScrew = new()
                    {
                        Name = "body-angle screw",
                        Moves = Moves.BodyAngle,
                        ThreadPitchMm = BenchPriors.UsualThreadPitchMm,
                        LeverRadiusMm = BenchPriors.UsualThreadPitchMm / Math.Abs(turn),
                        ClockwiseWidensGap = turn > 0 == BenchSpace.WidensWithBodyAngle(spec),
                    },
                },
            };
            var choice = ChainChooser.Choose(spec);
            if (choice.Numbers.Recommended is not { } pitches)
            {
                continue;
            }
            spec = spec with { Chain = spec.Chain with { Pitches = pitches } };
            var table = GearTableSolver.Solve(spec, pitches);
            if (table.Gears.Count(g => g.State == GearState.Ok) >= 0.7 * table.Gears.Length)
            {
                return spec;
            }
        }
    }

    /// <summary>What a mechanic reads: each place on the true mechanism, with normal noise.</summary>
    internal static BenchMeasurements Measure(
        DrivetrainSpec truth,
        IEnumerable<BenchPlace> places,
        double noiseMm,
        Random? random,
        double? believedMm = null
    )
    {
        var derailleur = truth.RearDerailleur!;
        var screw = derailleur.BodyAngleScrew!;
        var perTurn =
            (screw.ClockwiseWidensGap == BenchSpace.WidensWithBodyAngle(truth) ? 1 : -1)
            * screw.ThreadPitchMm!.Value
            / screw.LeverRadiusMm!.Value;
        return new([
            .. places
                .Select(place =>
                    (
                        place,
                        reading: BenchModel.ReadingMm(
                            truth,
                            derailleur.BodyAngleRad + (place.Turns * perTurn),
                            place
                        )
                    )
                )
                .Where(r => r.reading is not null)
                .Select(r => new BenchReading(
                    r.place,
                    r.reading!.Value + (random is null ? 0 : noiseMm * Normal(random)),
                    believedMm ?? noiseMm
                )),
        ]);
    }

    /// <summary>What the mechanic knows beforehand: the class, and the chain that is on the bike.</summary>
    internal static BenchPriors Priors(DrivetrainSpec ofClass, DrivetrainSpec truth) =>
        new(
            ofClass with
            {
                Chain = truth.Chain,
                RearDerailleur = ofClass.RearDerailleur! with { BodyAngleScrew = null },
            },
            []
        );

    /// <summary>A normal deviate (G. E. P. Box and M. E. Muller, Ann. Math. Stat. 29 (1958) 610).</summary>
    internal static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()))
        * Math.Cos(Math.Tau * random.NextDouble());
}
