using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>A correction made and solved again must give what it promised.</summary>
public class GapCorrectorTests
{
    private static DrivetrainSpec Spec => Example.Spec;

    private static readonly Gear Gear = new(34, 34);

    private static Adjuster Screw => Spec.RearDerailleur!.BodyAngleScrew!;

    private static DrivetrainSpec With(Adjuster? screw) =>
        Spec with
        {
            RearDerailleur = Spec.RearDerailleur! with { BodyAngleScrew = screw },
        };

    private static double GapAt(Gear gear, double bodyAngleRad) =>
        GearTableSolver.Solve(Spec, 110, bodyAngleRad).Find(gear)!.Value.GapMm;

    private static double Body => Spec.RearDerailleur!.BodyAngleRad;

    [Fact]
    public void Correct_AnyReading_ExactTurnsHitTheTargetAndExpectedIsWhatSolvingGives()
    {
        var turned = 0;
        // The screw of the real bike stands up to three degrees of body angle away from the spec's.
        var gen = Gen.Select(Gen.Int[0, 11], Gen.Double[-2.5, 2.5], Gen.Double[-0.05, 0.05]);
        foreach (var (cog, change, away) in Draws.Of(gen, 60, 2_000, 31))
        {
            var gear = new Gear(34, Spec.Cogs.Teeth[cog]);
            var real = Body + away;
            var read = GapAt(gear, real);
            var correction = GapCorrector.Correct(Spec, 110, gear, read, read + change);
            if (correction.Status == CorrectionStatus.NoSolution)
            {
                continue;
            }
            Assert.Equal(GapAt(gear, Body), correction.ModelMm, 1e-12);
            Assert.Equal(real, correction.BodyAngleRad, 1e-9);
            Assert.Equal(0, correction.OffsetMm);
            var exact = GapAt(gear, real + correction.ExactBodyAngleChangeRad);
            Assert.Equal(read + change, exact, 1e-6);
            // Clockwise widens here, and a larger body angle narrows: 0.7 mm of thread on a lever of 15 mm.
            var perTurn = -0.7 / 15;
            Assert.Equal(
                correction.ExactBodyAngleChangeRad,
                correction.ExactTurns!.Value * perTurn,
                1e-12
            );
            Assert.Equal(0, Math.IEEERemainder(correction.Turns, 0.25), 1e-12);
            var after = GapAt(gear, real + (correction.Turns * perTurn));
            Assert.Equal(after, correction.ExpectedMm, 1e-6);
            Assert.Equal(read + change - after, correction.ResidualMm, 1e-6);
            if (correction.Status == CorrectionStatus.Turn)
            {
                turned++;
                Assert.Equal(after, correction.After!.Find(gear)!.Value.GapMm, 1e-6);
                Assert.InRange(correction.ExactTurns.Value - correction.Turns, -0.1251, 0.1251);
                Assert.True(Math.Abs(correction.ResidualMm) < Math.Abs(change));
            }
        }
        Assert.True(turned > 20, $"{turned}");
    }

    [Fact]
    public void Correct_GapTooLarge_TurnsAnticlockwiseUnlessReverseActing()
    {
        var usual = GapCorrector.Correct(Spec, 110, Gear, 9.2, 7.0);
        Assert.Equal(CorrectionStatus.Turn, usual.Status);
        Assert.True(usual.Turns < 0);
        var reverse = GapCorrector.Correct(
            With(Screw with { ClockwiseWidensGap = false }),
            110,
            Gear,
            9.2,
            7.0
        );
        Assert.Equal(-usual.Turns, reverse.Turns, 1e-12);
        Assert.Equal(usual.ExpectedMm, reverse.ExpectedMm, 1e-9);
    }

    [Fact]
    public void Correct_LittleTravelLeft_StopsThereAndSaysWhatRemains()
    {
        var spec = With(Screw with { TurnsLeftIn = 0.6, TurnsLeftOut = 0.55 });
        var wider = GapCorrector.Correct(spec, 110, Gear, 5, 8);
        Assert.Equal(CorrectionStatus.OutOfTravel, wider.Status);
        Assert.Equal(0.5, wider.Turns, 1e-12);
        Assert.True(wider.ResidualMm > 0);
        var narrower = GapCorrector.Correct(spec, 110, Gear, 8, 5);
        Assert.Equal(CorrectionStatus.OutOfTravel, narrower.Status);
        Assert.Equal(-0.25, narrower.Turns, 1e-12);
        Assert.True(narrower.ResidualMm < 0);
    }

    /// <summary>The turns that are left count to where the screw leaves its thread: the last least turn is not used.</summary>
    [Fact]
    public void Correct_AllOfTheThread_KeepsOneLeastTurnAtTheOutEndOnly()
    {
        var free = GapCorrector.Correct(Spec, 110, Gear, 9.2, 7);
        Assert.True(free.Turns < 0);
        var left = -free.Turns;
        var toTheEnd = GapCorrector.Correct(
            With(Screw with { TurnsLeftOut = left }),
            110,
            Gear,
            9.2,
            7
        );
        Assert.Equal(CorrectionStatus.OutOfTravel, toTheEnd.Status);
        Assert.Equal(-(left - 0.25), toTheEnd.Turns, 1e-12);
        var reverse = Screw with { ClockwiseWidensGap = false, TurnsLeftIn = left };
        var inwards = GapCorrector.Correct(With(reverse), 110, Gear, 9.2, 7);
        Assert.Equal(CorrectionStatus.Turn, inwards.Status);
        Assert.Equal(left, inwards.Turns, 1e-12);
    }

    [Fact]
    public void Correct_TrialAtTheEndOfTheThread_IsNotMade()
    {
        var spec = With(Screw with { LeverRadiusMm = null, TurnsLeftOut = 0.25 });
        var found = GapCorrector.Correct(spec, 110, Gear, 9.2, 7);
        Assert.Equal(CorrectionStatus.OutOfTravel, found.Status);
        Assert.Equal(0, found.Turns);
        Assert.Equal(9.2, found.ExpectedMm);
    }

    [Fact]
    public void Correct_ReadingNearTheTarget_LeavesTheScrewAlone()
    {
        var correction = GapCorrector.Correct(Spec, 110, Gear, 7.02, 7.0);
        Assert.Equal(CorrectionStatus.LeaveAsIs, correction.Status);
        Assert.Equal(0, correction.Turns);
        Assert.Equal(7.02, correction.ExpectedMm, 1e-9);
    }

    [Theory]
    [InlineData(true, -0.7 / 13)]
    [InlineData(false, 0.7 / 13)]
    public void Correct_UnknownLever_TriesHalfATurnAndLearnsWhatItDid(
        bool clockwiseWidens,
        double trueRadPerTurn
    )
    {
        var spec = With(Screw with { LeverRadiusMm = null, ClockwiseWidensGap = clockwiseWidens });
        // The real screw stands one and a half degrees from the spec's.
        var real = Body - 0.026;
        var read = GapAt(Gear, real);
        var trial = GapCorrector.Correct(spec, 110, Gear, read, read + 1.5);
        Assert.Equal(CorrectionStatus.TryHalfTurn, trial.Status);
        Assert.Equal(clockwiseWidens ? 0.5 : -0.5, trial.Turns);
        Assert.Null(trial.After);

        var then = GapAt(Gear, real + (trial.Turns * trueRadPerTurn));
        Assert.True(then > read);
        var learnt = GapCorrector.Learn(spec, 110, Gear, read, then, trial.Turns);
        Assert.Equal(trueRadPerTurn, learnt!.Value, 1e-9);
        var next = GapCorrector.Correct(spec, 110, Gear, read, read + 1.5, learnt);
        Assert.Equal(
            read + 1.5,
            GapAt(Gear, real + (next.ExactTurns!.Value * trueRadPerTurn)),
            1e-6
        );
    }

    [Fact]
    public void Learn_NothingTurnedOrNothingChanged_SaysNothing()
    {
        Assert.Null(GapCorrector.Learn(Spec, 110, Gear, 7, 8, 0));
        Assert.Null(GapCorrector.Learn(Spec, 110, Gear, 7, 7, 0.5));
        Assert.Null(GapCorrector.Learn(Spec, 110, new(99, 34), 7, 8, 0.5));
    }

    [Fact]
    public void Correct_NoTautChain_HasNoGap()
    {
        Assert.Equal(CorrectionStatus.NoGap, GapCorrector.Correct(Spec, 160, Gear, 7, 8).Status);
        Assert.Equal(
            CorrectionStatus.NoGap,
            GapCorrector.Correct(Spec, 110, new(50, 99), 7, 8).Status
        );
    }

    [Fact]
    public void Correct_AGapOutOfThisWorld_HasNoSolution()
    {
        var correction = GapCorrector.Correct(Spec, 110, Gear, 7, 90);
        Assert.Equal(CorrectionStatus.NoSolution, correction.Status);
        Assert.Null(correction.After);
    }
}
