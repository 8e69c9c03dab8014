using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>From a reading to turns: by hand, against the model's own swing, and by what must hold for every adjuster.</summary>
public sealed class AdjusterCorrectorTests
{
    private static Adjuster Barrel { get; } =
        new()
        {
            Name = "barrel adjuster",
            Moves = Moves.CableLength,
            ThreadPitchMm = 0.8,
        };

    private static Adjuster Stop(Moves moves) =>
        new()
        {
            Name = "stop screw",
            Moves = moves,
            ThreadPitchMm = 0.7,
            LeverRadiusMm = 15,
        };

    private static DrivetrainSpec Cable(double ratio) =>
        Example.Spec with
        {
            Shifting = new() { PullMm = [3.3], ShiftRatio = ratio },
        };

    /// <summary>Common practice: a quarter turn of M5 × 0.8 moves the pulley by 0.22 mm (ratio 1.1) to 0.34 mm (1.7).</summary>
    [Theory]
    [InlineData(1.1, 0.22)]
    [InlineData(1.7, 0.34)]
    public void Rate_OfTheBarrel_IsPitchTimesRatio(double ratio, double quarterMm) =>
        Assert.Equal(
            quarterMm,
            AdjusterRate.MmPerTurn(Cable(ratio), Moves.CableLength, Barrel)!.Value / 4,
            9
        );

    /// <summary>Common practice: a stop screw's advance arrives at the pulley 1.5 to 3 times larger.</summary>
    [Fact]
    public void Rate_OfAStopScrew_IsLargerThanItsPitch()
    {
        var rate = AdjusterRate
            .MmPerTurn(Example.Spec, Moves.RearInboardStop, Stop(Moves.RearInboardStop))!
            .Value;
        Assert.InRange(rate / 0.7, 1.5, 3);
    }

    /// <summary>The rate is the derivative of where the swing takes the pulley, by a central difference.</summary>
    [Theory]
    [InlineData(Moves.RearOutboardStop, 0, -1)]
    [InlineData(Moves.RearInboardStop, 11, 1)]
    public void Rate_OfAStopScrew_IsTheSlopeOfTheSwing(Moves moves, int cog, int sign)
    {
        var derailleur = Example.Spec.RearDerailleur!;
        var reach = derailleur.LinkLengthMm * Math.Cos(derailleur.SlantRad);
        double Lateral(double swing) => derailleur.GuideLateralAtZeroMm - (reach * Math.Sin(swing));
        var swing = Math.Asin(
            (derailleur.GuideLateralAtZeroMm - Example.Spec.Cogs.LateralMm(cog)) / reach
        );
        const double h = 1e-5;
        var slope = Math.Abs(Lateral(swing + h) - Lateral(swing - h)) / (2 * h);
        Assert.Equal(
            sign * slope * 0.7 / 15,
            AdjusterRate.MmPerTurn(Example.Spec, moves, Stop(moves))!.Value,
            6
        );
    }

    [Fact]
    public void Correct_BarrelHalfAMillimetreOutboard_TurnsOutToTighten()
    {
        var found = AdjusterCorrector.Correct(
            Moves.CableLength,
            Barrel,
            0.5,
            0,
            AdjusterRate.MmPerTurn(Cable(1.25), Moves.CableLength, Barrel)
        );
        Assert.Equal(CorrectionStatus.Turn, found.Status);
        Assert.Equal(-0.5, found.Turns);
        Assert.Equal(0, found.ExpectedMm!.Value, 9);
    }

    [Fact]
    public void Correct_ReverseActing_TurnsTheOtherWay()
    {
        var reverse = Stop(Moves.RearOutboardStop) with { ClockwiseOutboard = true };
        double Turns(Adjuster screw) =>
            AdjusterCorrector
                .Correct(
                    screw.Moves,
                    screw,
                    1.5,
                    0.5,
                    AdjusterRate.MmPerTurn(Example.Spec, screw.Moves, screw)
                )
                .Turns;
        Assert.True(Turns(Stop(Moves.RearOutboardStop)) > 0);
        Assert.Equal(Turns(Stop(Moves.RearOutboardStop)), -Turns(reverse));
    }

    [Fact]
    public void Correct_ClicksAndSteps_AreWhole()
    {
        var clicked = Barrel with { ClicksPerTurn = 6 };
        var found = AdjusterCorrector.Correct(Moves.CableLength, clicked, 0.31, 0, 0.8);
        Assert.Equal(-2 / 6.0, found.Turns, 9);
        var steps = AdjusterCorrector.Correct(Moves.OffsetStep, null, 0.9, 0, 0.25);
        Assert.Equal(-4, steps.Turns);
        Assert.Equal(-0.1, steps.ExpectedMm!.Value, 9);
    }

    [Fact]
    public void Correct_OutOfTravel_GoesAsFarAsItCan()
    {
        var found = AdjusterCorrector.Correct(
            Moves.CableLength,
            Barrel with
            {
                TurnsLeftOut = 1.1,
            },
            3,
            0,
            1
        );
        Assert.Equal(CorrectionStatus.OutOfTravel, found.Status);
        Assert.Equal(-0.75, found.Turns);
        Assert.Equal(2.25, found.ExpectedMm);
        Assert.Equal(-2.25, found.ResidualMm);
    }

    /// <summary>A screw that has three turns of thread left is not turned out by three; at the in end it may.</summary>
    [Fact]
    public void Correct_AllOfTheThread_KeepsOneLeastTurnAtTheOutEndOnly()
    {
        var barrel = Barrel with { TurnsLeftOut = 3, TurnsLeftIn = 3 };
        var outwards = AdjusterCorrector.Correct(Moves.CableLength, barrel, 3, 0, 1);
        Assert.Equal(CorrectionStatus.OutOfTravel, outwards.Status);
        Assert.Equal(-2.75, outwards.Turns);
        var inwards = AdjusterCorrector.Correct(Moves.CableLength, barrel, 0, 3, 1);
        Assert.Equal(CorrectionStatus.Turn, inwards.Status);
        Assert.Equal(3, inwards.Turns);
        var steps = AdjusterCorrector.Correct(Moves.OffsetStep, barrel, 3, 0, 1);
        Assert.Equal(CorrectionStatus.Turn, steps.Status);
        Assert.Equal(-3, steps.Turns);
    }

    /// <summary>Nor does a trial of half a turn take the last thread.</summary>
    [Theory]
    [InlineData(0.5, CorrectionStatus.TryHalfTurn, -0.25)]
    [InlineData(0.25, CorrectionStatus.OutOfTravel, 0)]
    public void Correct_TrialAtTheEndOfTheThread_IsShorter(
        double left,
        CorrectionStatus status,
        double turns
    )
    {
        var found = AdjusterCorrector.Correct(
            Moves.CableLength,
            Barrel with
            {
                TurnsLeftOut = left,
            },
            1,
            0,
            null
        );
        Assert.Equal(status, found.Status);
        Assert.Equal(turns, found.Turns);
    }

    [Fact]
    public void Correct_EffectUnknown_TriesHalfATurnTheUsualWay()
    {
        var found = AdjusterCorrector.Correct(Moves.RearInboardStop, null, -1.2, -0.5, null);
        Assert.Equal(CorrectionStatus.TryHalfTurn, found.Status);
        Assert.Equal(0.5, found.Turns);
        Assert.Null(found.ExpectedMm);
    }

    [Fact]
    public void Learn_TurnThatMovedNothing_IsNoEffect()
    {
        var learnt = AdjusterCorrector.Learn(1.0, 1.1, 0.5, 0.14);
        Assert.Equal(CorrectionStatus.NoEffect, learnt.Status);
        var found = AdjusterCorrector.Correct(Moves.RearInboardStop, null, 1.1, 0.5, null, learnt);
        Assert.Equal(CorrectionStatus.NoEffect, found.Status);
        Assert.Equal(0, found.Turns);
    }

    [Fact]
    public void Learn_TurnTheOtherWay_IsToldAndUsed()
    {
        var learnt = AdjusterCorrector.Learn(1.5, 2.0, 0.5, 0.05);
        var found = AdjusterCorrector.Correct(
            Moves.RearOutboardStop,
            Stop(Moves.RearOutboardStop),
            2.0,
            0.5,
            -1.6,
            learnt
        );
        Assert.True(found.ActsOtherWay);
        Assert.Equal(-1.5, found.Turns);
    }

    /// <summary>A correction carried out lands within half of the least turn of what was wanted, unless travel ends.</summary>
    [Fact]
    public void Correct_Applied_HitsWhatIsWanted() =>
        Gen.Select(
                Gen.Double[-3, 3],
                Gen.Double[-3, 3],
                Gen.Double[0.2, 3],
                Gen.Bool,
                Gen.Int[0, 12]
            )
            .Sample(
                (read, wanted, size, clockwiseOutboard, clicks) =>
                {
                    var adjuster = Barrel with { ClicksPerTurn = clicks == 0 ? null : clicks };
                    var rate = clockwiseOutboard ? size : -size;
                    var found = AdjusterCorrector.Correct(
                        Moves.CableLength,
                        adjuster,
                        read,
                        wanted,
                        rate
                    );
                    var landed = read + (found.Turns * rate);
                    Assert.Equal(landed, found.ExpectedMm!.Value, 9);
                    Assert.True(Math.Abs(landed - wanted) <= (size * found.LeastTurn / 2) + 1e-9);
                    var learnt = AdjusterCorrector.Learn(read, landed, found.Turns, 0);
                    Assert.True(
                        found.Turns == 0 || Math.Abs(learnt.MmPerTurn - rate) < 1e-9,
                        "What a turn did is learnt from the readings before and after it."
                    );
                }
            );
}
