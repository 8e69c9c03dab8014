using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Corrections, chain choice and sweeps on a sprung mount.</summary>
public class SprungGapTests
{
    private static readonly DrivetrainSpec Sprung = SprungExample.Spec;

    private static readonly Gear Setting = new(34, 30);

    private static DrivetrainSpec With(SprungMount mount) =>
        Sprung with
        {
            RearDerailleur = Sprung.RearDerailleur! with { Sprung = mount },
        };

    /// <summary>What is promised after the turn is what the gear table gives with the spring wound up by it.</summary>
    [Theory]
    [InlineData(9.2, 7.0)]
    [InlineData(6.0, 8.0)]
    public void Correct_TorquePerTurnKnown_TurnsTheScrewToTheWantedGap(double read, double wanted)
    {
        var correction = GapCorrector.Correct(Sprung, 110, Setting, read, wanted);
        Assert.Equal(CorrectionStatus.Turn, correction.Status);
        // Winding up opens the gap on this bike, and clockwise is the usual way.
        Assert.Equal(wanted > read, correction.Turns > 0);
        var perTurn = 0.1 / 1.2;
        var from = GearTableSolver.Solve(Sprung, 110, correction.BodyAngleRad);
        Assert.Equal(read, from.Find(Setting)!.Value.GapMm, 1e-6);
        var exact = GearTableSolver.Solve(
            Sprung,
            110,
            correction.BodyAngleRad - (correction.ExactTurns!.Value * perTurn)
        );
        Assert.Equal(wanted, exact.Find(Setting)!.Value.GapMm, 1e-6);
        Assert.Equal(
            from.PreloadNm!.Value + (0.1 * correction.Turns),
            correction.After!.PreloadNm!.Value,
            1e-9
        );
        Assert.Equal(correction.ExpectedMm, correction.After.Find(Setting)!.Value.GapMm, 1e-9);
        Assert.InRange(Math.Abs(correction.ResidualMm), 0, 0.3);
    }

    /// <summary>The same turn, whether the part says N·m, degrees, or the screw its pitch and lever.</summary>
    [Fact]
    public void Correct_ThreeWaysToSayATurn_GiveTheSameTurns()
    {
        var turns = Turns(Sprung);
        var mount = Sprung.RearDerailleur!.Sprung! with { ScrewNmPerTurn = null };
        Assert.Equal(turns, Turns(With(mount with { ScrewRadPerTurn = 0.1 / 1.2 })), 1e-9);
        var byScrew = With(mount);
        byScrew = byScrew with
        {
            RearDerailleur = byScrew.RearDerailleur! with
            {
                BodyAngleScrew = byScrew.RearDerailleur!.BodyAngleScrew! with
                {
                    ThreadPitchMm = 0.8,
                    LeverRadiusMm = 9.6,
                },
            },
        };
        Assert.Equal(turns, Turns(byScrew), 1e-9);

        static double Turns(DrivetrainSpec spec) =>
            GapCorrector.Correct(spec, 110, Setting, 9.2, 7.0).ExactTurns!.Value;
    }

    [Fact]
    public void Correct_NothingKnownOfATurn_TriesHalfATurnAndThenLearns()
    {
        var spec = With(Sprung.RearDerailleur!.Sprung! with { ScrewNmPerTurn = null });
        spec = spec with
        {
            RearDerailleur = spec.RearDerailleur! with
            {
                BodyAngleScrew = spec.RearDerailleur!.BodyAngleScrew! with { LeverRadiusMm = null },
            },
        };
        var trial = GapCorrector.Correct(spec, 110, Setting, 9.2, 7.0);
        Assert.Equal(CorrectionStatus.TryHalfTurn, trial.Status);
        Assert.Equal(-0.5, trial.Turns);
        // The bike in truth turns its anchor by 4 degrees per turn.
        var after = GearTableSolver.Solve(spec, 110, trial.BodyAngleRad + (0.5 * Rad(4)));
        var learnt = GapCorrector.Learn(
            spec,
            110,
            Setting,
            9.2,
            after.Find(Setting)!.Value.GapMm,
            -0.5
        );
        Assert.Equal(-Rad(4), learnt!.Value, 1e-6);
    }

    /// <summary>On its tab the body does not follow the screw: no gap but its own can be had there by winding up.</summary>
    [Fact]
    public void Correct_BodyOnItsTab_HasNoSolution()
    {
        var spec = With(new(Rad(10), Rad(40), 6, 1.2) { ScrewNmPerTurn = 0.1 });
        var gear = GearTableSolver.Solve(spec, 110).Find(Setting)!.Value;
        Assert.Equal(BodyRest.OnTab, gear.BodyRest);
        Assert.Equal(Rad(10), gear.BodyAngleRad);
        var correction = GapCorrector.Correct(spec, 110, Setting, gear.GapMm, gear.GapMm + 2);
        Assert.Equal(CorrectionStatus.NoSolution, correction.Status);
    }

    /// <summary>On both sides of each number of the choice, the gear tables say what the choice says.</summary>
    [Fact]
    public void Choose_RandomBikes_AgreesWithTheGearTables()
    {
        var compared = 0;
        foreach (var spec in Draws.Of(SprungExample.Any, 25, 300, 20261129))
        {
            var choice = ChainChooser.Choose(spec);
            if (choice.Numbers is not { ShortestSafe: { } shortest, LongestSafe: { } longest })
            {
                continue;
            }
            compared++;
            var leftOut = choice.LeftOut.Select(left => left.Gear).ToHashSet();
            Assert.DoesNotContain(GearState.Short, States(shortest));
            Assert.Contains(GearState.Short, States(shortest - 2));
            Assert.DoesNotContain(GearState.Slack, States(longest));
            Assert.Contains(GearState.Slack, States(longest + 2));

            GearState[] States(int pitches) =>
                [
                    .. GearTableSolver
                        .Solve(spec, pitches)
                        .Gears.Where(gear => !leftOut.Contains(gear.Gear))
                        .Select(gear => gear.State),
                ];
        }
        Assert.True(compared > 5, $"only {compared} bikes have lengths that serve all gears");
    }

    [Fact]
    public void Sweep_SuspendedBike_FollowsTheSolver()
    {
        var spec = SprungExample.With(
            RearEnds.Trail(RearEnds.OnPivot),
            new(0.9, 0.35),
            new(Rad(0), Rad(40), 1.2, 1.2)
        );
        Gear[] gears = [new(32, 14), new(32, 33)];
        var sweep = TravelSweep.Of(spec, gears, 118, 10);
        for (var g = 0; g < gears.Length; g++)
        {
            for (var p = 0; p < sweep.Positions; p++)
            {
                var solved = GearTableSolver
                    .Solve(spec, 118, null, sweep.TravelMm[p])
                    .Find(gears[g])!
                    .Value;
                var at = (g * sweep.Positions) + p;
                Assert.Equal(solved.State, sweep.State[at]);
                Assert.Equal(solved.GapMm, sweep.GapMm[at]);
                Assert.Equal(solved.BodyAngleRad, sweep.BodyAngleRad[at]);
                Assert.Equal(solved.CageAngleRad, sweep.CageAngleRad[at]);
            }
        }
        Assert.NotEqual(sweep.BodyAngleRad[0], sweep.BodyAngleRad[sweep.Positions - 1]);
    }

    [Fact]
    public void Findings_WeakSpringAtTheBolt_NameTheGearsAtTheForwardLimit()
    {
        var table = GearTableSolver.Solve(With(new(Rad(0), Rad(10), 0.1, 0.1)), 110);
        var found = Findings
            .Of(table)
            .Where(f => f.Kind == FindingKind.BodyAtForwardLimit)
            .ToArray();
        Assert.NotEmpty(found);
        Assert.Equal(
            table
                .Gears.Where(g => g is { State: GearState.Ok, BodyRest: BodyRest.AtForwardLimit })
                .Select(g => g.Gear),
            found.Select(f => f.Gear)
        );
        Assert.Contains("forward limit", Explanation.Of(found[0]).What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("rearDerailleur.sprung.forwardLimit")]
    [InlineData("rearDerailleur.cage.spring")]
    [InlineData("rearDerailleur.sprung.anglePerTurn")]
    [InlineData("rearDerailleur.sprung.rate")]
    public void Check_ImpossibleMount_NamesTheField(string path)
    {
        var mount = Sprung.RearDerailleur!.Sprung!;
        var spec = path switch
        {
            "rearDerailleur.sprung.forwardLimit" => With(mount with { ForwardLimitRad = Rad(-1) }),
            "rearDerailleur.sprung.anglePerTurn" => With(mount with { ScrewRadPerTurn = Rad(4) }),
            "rearDerailleur.sprung.rate" => With(mount with { RateNmPerRad = 0 }),
            _ => Sprung with
            {
                RearDerailleur = Sprung.RearDerailleur! with
                {
                    Cage = Sprung.RearDerailleur!.Cage with { Spring = null },
                },
            },
        };
        Assert.Equal(path, Assert.Single(SpecCheck.Problems(spec)).Path);
        Assert.Empty(SpecCheck.Problems(Sprung));
    }
}
