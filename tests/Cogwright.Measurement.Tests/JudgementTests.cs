using CsCheck;

namespace Cogwright.Measurement.Tests;

public sealed class JudgementTests
{
    private static readonly Gen<(double Value, double U, double Lower, double Upper)> Cases =
        Gen.Select(
            Gen.Double[-20, 20],
            Gen.Double[0.001, 5],
            Gen.Double[-10, 10],
            Gen.Double[0, 10],
            (value, u, lower, width) => (value, u, lower, lower + width)
        );

    // JCGM 106:2012 7.4: y 13.6, u 1.8, limits 12.5 and 16.3; the text gives 0.66.
    [Fact]
    public void ConformanceProbability_Jcgm106Section74_Is066()
    {
        var p = Conformance.Probability(new(13.6, 1.8), new(12.5, 16.3));
        Assert.Equal(0.66263, p, 5e-6);
        Assert.Equal(0.66, Math.Round(p, 2));
    }

    // ISO 14253-1: at a guard band of 1.645 u one-sided the risk left is 5 %; JCGM 106 with w = U = 2u leaves 2.3 %.
    [Theory]
    [InlineData(1.645, 0.95002)]
    [InlineData(2.0, 0.97725)]
    public void ConformanceProbability_OneSidedAtTheGuardBand_IsPhi(
        double guards,
        double expected
    ) =>
        Assert.Equal(
            expected,
            Conformance.Probability(new(10 - (guards * 0.1), 0.1), new(null, 10)),
            5e-6
        );

    [Theory]
    [InlineData(7.0, Verdict.Within)]
    [InlineData(7.83, Verdict.Within)] // 8 − 1.645 × 0.1 = 7.8355
    [InlineData(7.84, Verdict.TooCloseToCall)]
    [InlineData(8.0, Verdict.TooCloseToCall)]
    [InlineData(8.16, Verdict.TooCloseToCall)]
    [InlineData(8.17, Verdict.Outside)] // 8 + 1.645 × 0.1 = 8.1645
    [InlineData(6.16, Verdict.TooCloseToCall)]
    [InlineData(6.17, Verdict.Within)]
    [InlineData(5.83, Verdict.Outside)]
    public void Of_BandSixToEight_FollowsTheGuardBand(double value, Verdict expected) =>
        Assert.Equal(expected, Judgement.Of(new(value, 0.1), new(6, 8)).Verdict);

    [Fact]
    public void Of_CountWithoutUncertainty_IsDecidedOnTheLimitToo()
    {
        Assert.Equal(Verdict.Within, Judgement.Of(new(110, 0), new(110, 110)).Verdict);
        Assert.Equal(Verdict.Outside, Judgement.Of(new(108, 0), new(110, 110)).Verdict);
    }

    [Fact]
    public void DecidingUncertainty_OnTheLimit_IsNone()
    {
        var judgement = Judgement.Of(new(8, 0.1), new(6, 8));
        Assert.Null(judgement.DecidingUncertainty);
        Assert.Equal(0.5, judgement.ConformanceProbability, 1e-12);
    }

    [Fact]
    public void BandNarrowerThanGuards_WideUncertainty_IsSaid()
    {
        Assert.True(Judgement.Of(new(7, 1), new(6, 8)).BandNarrowerThanGuards);
        Assert.False(Judgement.Of(new(7, 0.6), new(6, 8)).BandNarrowerThanGuards);
        Assert.False(Judgement.Of(new(7, 1), new(6, null)).BandNarrowerThanGuards);
    }

    [Fact]
    public void BandNarrowerThanGuards_AnyReading_IsNeverWithin() =>
        Cases.Sample(c =>
        {
            var judgement = Judgement.Of(new(c.Value, c.U), new(c.Lower, c.Upper));
            Assert.False(judgement is { BandNarrowerThanGuards: true, Verdict: Verdict.Within });
        });

    [Fact]
    public void DecidingUncertainty_AnyReading_DecidesAndTwiceItDoesNot() =>
        Cases.Sample(c =>
        {
            var band = new ToleranceBand(c.Lower, c.Upper);
            if (Judgement.Of(new(c.Value, c.U), band).DecidingUncertainty is not { } u)
            {
                return;
            }
            var decided = Judgement.Of(new(c.Value, u), band).Verdict;
            Assert.Equal(band.Contains(c.Value) ? Verdict.Within : Verdict.Outside, decided);
            Assert.Equal(Verdict.TooCloseToCall, Judgement.Of(new(c.Value, 2 * u), band).Verdict);
        });

    [Fact]
    public void Of_SmallerUncertainty_NeverUndoesADecision() =>
        Cases.Sample(c =>
        {
            var band = new ToleranceBand(c.Lower, c.Upper);
            var wide = Judgement.Of(new(c.Value, c.U), band).Verdict;
            var narrow = Judgement.Of(new(c.Value, c.U / 2), band).Verdict;
            Assert.True(wide == Verdict.TooCloseToCall || wide == narrow);
        });

    [Fact]
    public void Probability_InsideAndOutside_SumToOne() =>
        Cases.Sample(c =>
        {
            var reading = new Reading(c.Value, c.U);
            var band = new ToleranceBand(c.Lower, c.Upper);
            Assert.Equal(
                1,
                Conformance.Probability(reading, band)
                    + Conformance.OutsideProbability(reading, band),
                1e-14
            );
        });

    [Fact]
    public void Probability_ValueInTheMiddle_FallsWithUncertainty() =>
        Gen.Select(Gen.Double[0.1, 10], Gen.Double[0.01, 5])
            .Sample(
                (half, u) =>
                    Assert.True(
                        Conformance.Probability(new(0, u), new(-half, half))
                            >= Conformance.Probability(new(0, 1.1 * u), new(-half, half))
                    )
            );

    // The standard's rule and the probability are two roads to one answer: proven within means at least 90 % (two-sided
    // worst case of 95 % one-sided), proven outside at most 5 %.
    [Fact]
    public void Verdict_AnyReading_AgreesWithProbability() =>
        Cases.Sample(c =>
        {
            var judgement = Judgement.Of(new(c.Value, c.U), new(c.Lower, c.Upper));
            var p = judgement.ConformanceProbability;
            Assert.True(judgement.Verdict != Verdict.Within || p >= 0.9);
            Assert.True(judgement.Verdict != Verdict.Outside || p <= 0.05);
        });

    [Fact]
    public void Band_WithoutLimitOrTurnedRound_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new ToleranceBand(null, null));
        Assert.Throws<ArgumentException>(() => new ToleranceBand(double.NaN, 1));
        var error = Assert.Throws<ArgumentException>(() => new ToleranceBand(2, 1));
        Assert.Contains("exchange", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Probability_LimitsFarInOneTail_KeepsItsDigits()
    {
        // Both limits 20 to 21 u above: 1 − Φ(20) = 2.7536e-89 (Abramowitz and Stegun 26.2.12, leading term and two corrections).
        var p = Conformance.Probability(new(0, 1), new(20, 21));
        Assert.InRange(p, 2.75e-89, 2.76e-89);
    }
}
