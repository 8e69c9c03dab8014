using MathNet.Numerics.RootFinding;
using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The body angle that comes out of the set-up: against a general root finder over the closure, by hand, and by what must hold.</summary>
public sealed class CoaxialSetUpTests
{
    private static readonly Gear OnSetUp = new(32, 21);

    /// <summary>The naive way: the closure's own cage angle against the body, at any body angle (rad); NaN without a pose.</summary>
    private static double CageOnBody(DrivetrainSpec spec, int pitches, double bodyAngleRad)
    {
        var table = GearTableSolver.Solve(spec, pitches, bodyAngleRad);
        return table.Find(OnSetUp)!.Value.CageAngleRad
            - (bodyAngleRad - spec.RearDerailleur!.BodyAngleRad)
            - table.AxlePose.RotationRad;
    }

    [Theory]
    [InlineData(112, -2)]
    [InlineData(116, -2)]
    [InlineData(120, -2)]
    [InlineData(122, -2)]
    [InlineData(118, -20)]
    [InlineData(118, 15)]
    public void Of_AnyChain_AgreesWithAGeneralRootFinderOverTheClosure(int pitches, double markDeg)
    {
        var spec = CoaxialExample.With(mount => mount with { CageAtSetUpRad = Rad(markDeg) });
        double Off(double body) => CageOnBody(spec, pitches, body) - Rad(markDeg);
        // From the front rearward in coarse steps to the first change of sign; the cage swings forward on the body.
        double? twin = null;
        for (var degrees = 45; degrees > -45 && twin is null; degrees--)
        {
            if (Off(Rad(degrees)) < 0 && Off(Rad(degrees - 1)) >= 0)
            {
                twin = Brent.FindRoot(Off, Rad(degrees - 1), Rad(degrees), 1e-12);
            }
        }
        var found = CoaxialSetUp.Of(spec, pitches)!.Value;
        Assert.Equal(BodySetUpStatus.Set, found.Status);
        Assert.Equal(twin!.Value, found.BodyAngleRad, 9);
    }

    [Fact]
    public void Of_Suspended_AgreesWithTheRootFinderAtSag()
    {
        var spec = CoaxialExample.Spec with { Frame = RearEnds.OnLinks };
        var found = CoaxialSetUp.Of(spec, 120)!.Value;
        Assert.True(found.IsSet);
        double Off(double body) =>
            CageOnBody(spec, 120, body) - spec.RearDerailleur!.Coaxial!.CageAtSetUpRad;
        Assert.Equal(
            Brent.FindRoot(Off, found.BodyAngleRad - 0.05, found.BodyAngleRad + 0.05, 1e-12),
            found.BodyAngleRad,
            9
        );
    }

    /// <summary>The same, by the general path round oriented sprockets: with the outcome it takes the chain exactly.</summary>
    [Theory]
    [InlineData(114)]
    [InlineData(120)]
    public void Of_Outcome_TheGeneralPathTakesTheChain(int pitches)
    {
        var table = GearTableSolver.Solve(CoaxialExample.Spec, pitches);
        var gear = table.Find(OnSetUp)!.Value;
        var path = ChainPath.Round(
            [
                new(table.AxlePose.Axle, 21, 1),
                new(default, 32, 1),
                new(gear.Tension, 14, 1),
                new(gear.Guide, 14, -1),
            ],
            Sprocket.PitchMm
        );
        Assert.Equal(pitches, path.Pitches, 8);
    }

    /// <summary>
    /// By hand: upper pivot (−48, −24), a link of 60 mm straight down at swing 0, guide pulley 20 mm above the knuckle
    /// at a mark of 0: it stands at (−48, −64) from the axle, 80 mm away (3-4-5). Tips 45 and 30 mm: a gap of 5 mm,
    /// whatever the chain.
    /// </summary>
    [Fact]
    public void Gap_InTheSetUpGear_IsThePartsOwnWhateverTheChain()
    {
        var spec = CoaxialExample.Spec with
        {
            Cogs = new()
            {
                Teeth = [10, 12, 14, 16, 18, 21, 24],
                SmallestLateralMm = 50,
                SpacingMm = 1,
                TipDiametersMm = [null, null, null, null, null, 90, null],
            },
            Shifting = null,
            RearDerailleur = CoaxialExample.Spec.RearDerailleur! with
            {
                UpperPivotMm = new(-48, -24),
                LinkLengthMm = 60,
                LinkAngleRad = Rad(-90),
                GuideLateralAtZeroMm = 45,
                Cage = new()
                {
                    Guide = new(new(0, 20), 14, 60),
                    Tension = new(new(0, -70), 14),
                    RearStopRad = Rad(-100),
                    FrontStopRad = Rad(75),
                },
                Coaxial = new() { SetUpCogTeeth = 21, CageAtSetUpRad = 0 },
            },
        };
        var bodies = new List<double>();
        foreach (var pitches in (int[])[104, 106, 108, 110])
        {
            var table = GearTableSolver.Solve(spec, pitches);
            Assert.Equal(BodySetUpStatus.Set, table.SetUp!.Value.Status);
            Assert.Equal(5, table.Find(OnSetUp)!.Value.GapMm, 9);
            bodies.Add(table.BodyAngleRad);
        }
        // A longer chain brings the body further rearward, nothing else.
        Assert.Equal(bodies.OrderDescending(), bodies);
    }

    [Fact]
    public void Solve_AskedBodyAngle_IsTakenInsteadOfTheOutcome()
    {
        var table = GearTableSolver.Solve(CoaxialExample.Spec, 120, Rad(-5));
        Assert.Null(table.SetUp);
        Assert.Equal(Rad(-5), table.BodyAngleRad);
    }

    [Fact]
    public void Solve_AnyTravel_KeepsTheBodyWhereTheAxleClampedIt()
    {
        var spec = CoaxialExample.Spec with { Frame = RearEnds.OnLinks };
        var body = GearTableSolver.Solve(spec, 120).BodyAngleRad;
        Assert.Equal(body, GearTableSolver.Solve(spec, 120, null, 0).BodyAngleRad);
        var sweep = TravelSweep.Of(spec, [OnSetUp], 120, 10);
        var there = GearTableSolver.Solve(spec, 120, body, sweep.TravelMm[7]).Find(OnSetUp)!.Value;
        Assert.Equal(there.GapMm, sweep.GapMm[7], 9);
    }

    [Theory]
    [InlineData(150, BodySetUpStatus.ChainTooLong, FindingKind.ChainTooLongForMark)]
    [InlineData(90, BodySetUpStatus.ChainTooShort, FindingKind.ChainTooShortForMark)]
    public void Solve_ChainThatCannotBeSet_SaysWhatToDoInNumbers(
        int pitches,
        BodySetUpStatus status,
        FindingKind kind
    )
    {
        var table = GearTableSolver.Solve(CoaxialExample.Spec, pitches);
        var setUp = table.SetUp!.Value;
        Assert.Equal(status, setUp.Status);
        Assert.True(double.IsFinite(table.BodyAngleRad));
        Assert.Equal(pitches == 150, setUp.ChainOffMm > 0);
        var finding = Assert.Single(Findings.Of(table), f => f.Kind == kind);
        Assert.Equal(Math.Abs(setUp.ChainOffMm), finding.ValueMm);
        var words = Explanation.Of(finding, CoaxialExample.Spec);
        Assert.Contains("32/21", words.What, StringComparison.Ordinal);
        Assert.Contains("set up on a", words.WhatToDo, StringComparison.Ordinal);
    }

    /// <summary>The finding's figure is the chain that is over: that many millimetres less, and the mark is just reached.</summary>
    [Fact]
    public void Solve_ChainTooLong_NamesTheChainThatIsOver()
    {
        var off = CoaxialSetUp.Of(CoaxialExample.Spec, 150)!.Value.ChainOffMm / Sprocket.PitchMm;
        var least = (int)Math.Ceiling(off);
        Assert.True(CoaxialSetUp.Of(CoaxialExample.Spec, 150 - least)!.Value.IsSet);
        Assert.False(CoaxialSetUp.Of(CoaxialExample.Spec, 150 - least + 1)!.Value.IsSet);
    }

    [Fact]
    public void Solve_SetUpCogOutOfReach_IsToldAndNeverNotANumber()
    {
        var spec = CoaxialExample.With(derailleur => derailleur with { OutboardStopRad = Rad(5) });
        var table = GearTableSolver.Solve(spec, 120);
        Assert.Equal(BodySetUpStatus.NoPose, table.SetUp!.Value.Status);
        Assert.True(double.IsFinite(table.BodyAngleRad));
        Assert.Contains(Findings.Of(table), f => f.Kind == FindingKind.SetUpCogNotReached);
    }

    /// <summary>By trying: the safe lengths are those with which the body can be set and every gear is sound.</summary>
    [Fact]
    public void Choose_OnTheAxle_SafeLengthsAreThoseFoundByTrying()
    {
        var spec = CoaxialExample.Spec with { Chain = new() };
        var tried = Enumerable
            .Range(45, 30)
            .Select(half => 2 * half)
            .Where(pitches =>
                GearTableSolver.Solve(spec, pitches) is { SetUp.IsSet: true } table
                && table.Gears.All(gear => gear.State == GearState.Ok)
            )
            .ToList();
        Assert.NotEmpty(tried);
        var numbers = ChainChooser.Choose(spec).Numbers;
        Assert.Equal(
            (tried[0], tried[^1]),
            (numbers.ShortestSafe!.Value, numbers.LongestSafe!.Value)
        );
        Assert.Contains(numbers.Recommended!.Value, tried);
    }

    [Fact]
    public void Choose_BodyThatCannotTurn_LeavesEveryGearOutWithItsReason()
    {
        // The range lies so far forward that no chain comes taut at the mark.
        var spec = CoaxialExample.With(mount =>
            mount with
            {
                BodyRange = new(Rad(0.2), Rad(0.4)),
            }
        ) with
        {
            Chain = new(),
        };
        var choice = ChainChooser.Choose(spec);
        Assert.Equal(ChainChoiceStatus.NoGear, choice.Status);
        Assert.All(choice.LeftOut, gear => Assert.Equal(Blame.BodyNotSet, gear.Blame));
        Assert.Contains(
            Explanation.Reasons(spec, choice),
            reason => reason.Contains("mark", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Solve_OnTheAxle_AllocatesItsTableOnly()
    {
        static long Least(Func<object?> work)
        {
            var least = long.MaxValue;
            for (var round = 0; round < 20; round++)
            {
                var before = GC.GetAllocatedBytesForCurrentThread();
                GC.KeepAlive(work());
                least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
            }
            return least;
        }
        Assert.Equal(
            Least(() => GearTableSolver.Solve(CoaxialExample.Spec, 120, 0)),
            Least(() => GearTableSolver.Solve(CoaxialExample.Spec, 120))
        );
    }

    [Fact]
    public void Problems_OnTheAxle_RefusesHangerScrewAndStops()
    {
        Assert.Empty(SpecCheck.Problems(CoaxialExample.Spec));
        Assert.Contains(
            SpecCheck.Problems(CoaxialExample.Spec with { Hanger = new(new(-8, -28)) }),
            p => p.Path == "hanger" && p.Message.Contains("axle", StringComparison.Ordinal)
        );
        var screw = new Adjuster { Name = "screw", Moves = Moves.BodyAngle };
        Assert.Contains(
            SpecCheck.Problems(
                CoaxialExample.With(d =>
                    d with
                    {
                        Sprung = SprungExample.Spec.RearDerailleur!.Sprung,
                    }
                )
            ),
            p => p.Path == "rearDerailleur.coaxial"
        );
        Assert.Contains(
            SpecCheck.Problems(CoaxialExample.With(d => d with { BodyAngleScrew = screw })),
            p => p.Path == "rearDerailleur.bodyAngleScrew"
        );
        Assert.Contains(
            SpecCheck.Problems(
                CoaxialExample.Spec with
                {
                    Adjusters = [screw with { Moves = Moves.RearInboardStop }],
                }
            ),
            p => p.Path == "adjusters[0].moves"
        );
        Assert.Contains(
            SpecCheck.Problems(CoaxialExample.With(d => d with { InboardStopRad = Rad(40) })),
            p => p.Path == "rearDerailleur.inboardStop"
        );
        Assert.Contains(
            SpecCheck.Problems(CoaxialExample.With(d => d with { OutboardStopRad = Rad(-40) })),
            p => p.Path == "rearDerailleur.outboardStop"
        );
        Assert.Contains(
            SpecCheck.Problems(CoaxialExample.With(m => m with { SetUpCogTeeth = 22 })),
            p => p.Path == "rearDerailleur.coaxial.setUpCog"
        );
        Assert.Contains(
            SpecCheck.Problems(CoaxialExample.With(m => m with { CageAtSetUpRad = Rad(80) })),
            p => p.Path == "rearDerailleur.coaxial.cageAtSetUp"
        );
        Assert.Contains(
            SpecCheck.Problems(
                CoaxialExample.With(m => m with { BodyRange = new(Rad(10), Rad(-10)) })
            ),
            p => p.Path == "rearDerailleur.coaxial.bodyMost"
        );
        Assert.Contains(
            SpecCheck.Problems(CoaxialExample.With(d => d with { RestsInboard = true })),
            p => p.Path == "rearDerailleur.restsInboard"
        );
    }

    /// <summary>The body was left 3° too far forward: the gap that the model then has is read back to those 3°.</summary>
    [Fact]
    public void Correct_BodyThatWasLeftForward_IsFoundAndSetAgain()
    {
        var spec = CoaxialExample.Spec;
        var set = GearTableSolver.Solve(spec, 120);
        var wrong = GearTableSolver.Solve(spec, 120, set.BodyAngleRad + Rad(3));
        var read = wrong.Find(OnSetUp)!.Value.GapMm;
        var wanted = set.Find(OnSetUp)!.Value.GapMm;
        var found = SetUpCorrector.Correct(spec, 120, OnSetUp, read, wanted, 0.1)!;
        Assert.Equal(SetUpCorrectionStatus.SetAgain, found.Status);
        Assert.Equal(Rad(3), found.BodyOffRad!.Value, 6);
        Assert.Equal(wanted, found.ExpectedMm!.Value, 9);
        Assert.Equal(
            CageOnBody(spec, 120, wrong.BodyAngleRad) - Rad(-2),
            found.CageOffMarkRad!.Value,
            6
        );
        // In the set-up gear a chain of another length changes nothing once it is set again.
        Assert.Equal(0, found.MmPerPitchSetAgain!.Value, 6);
        Assert.True(found.MmPerPitchLeft < -0.5);
        Assert.Equal(set.Gears, found.After!.Gears);
    }

    [Fact]
    public void Correct_GapThatTheMarkDoesNotGive_NamesOtherMeans()
    {
        var spec = CoaxialExample.Spec;
        var largest = new Gear(32, 51);
        var atMark = GearTableSolver.Solve(spec, 120).Find(largest)!.Value.GapMm;
        var found = SetUpCorrector.Correct(spec, 120, largest, atMark, atMark + 3, 0.5)!;
        Assert.Equal(SetUpCorrectionStatus.OtherMeans, found.Status);
        Assert.NotEmpty(found.Ways);
        var way = found.Ways[0];
        var other = CoaxialExample.With(m => m with { SetUpCogTeeth = way.CogTeeth });
        Assert.Equal(
            GearTableSolver.Solve(other, way.Pitches).Find(largest)!.Value.GapMm,
            way.GapMm,
            9
        );
        Assert.Equal(
            found.Ways.Select(w => Math.Abs(w.GapMm - found.WantedMm)).Order(),
            found.Ways.Select(w => Math.Abs(w.GapMm - found.WantedMm))
        );
    }

    [Fact]
    public void Clearances_OnTheAxle_SpeakOfProgrammedPositionsAndMount()
    {
        var spec = CoaxialExample.Spec with
        {
            Lateral = new()
            {
                CageInnerFaceMm = 9,
                Spokes = new() { CageToSpokesMm = 4 },
            },
        };
        var report = SpokeClearance.Of(GearTableSolver.Solve(spec, 120));
        var words = string.Join(
            ' ',
            report
                .All.Select(clearance => LateralWords.Of(clearance, report))
                .Concat([LateralWords.Of(report.Inboard!), LateralWords.Of(report.Outboard!)])
                .Select(explanation => $"{explanation.What} {explanation.WhatToDo}")
        );
        Assert.DoesNotContain("stop", words, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("programmed", words, StringComparison.Ordinal);
        Assert.Contains("no hanger to bend", words, StringComparison.Ordinal);
        // The last position lies 0.02 mm inboard of the cog: 66.9 − 11 · 3.58 = 27.52.
        Assert.Equal(0.02, report.Inboard!.OvershootMm, 9);
        Assert.Equal(4, report.Find(ClearanceKind.CageOnLargestCog)!.Mm!.Value, 9);
        Assert.Equal(3.98, report.Find(ClearanceKind.CageAtInboardStop)!.Mm!.Value, 9);
    }
}
