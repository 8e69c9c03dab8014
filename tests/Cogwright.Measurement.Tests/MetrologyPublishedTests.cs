namespace Cogwright.Measurement.Tests;

/// <summary>The end gauge of the GUM from its inputs to its interval, and the guard bands of the standards.</summary>
public sealed class MetrologyPublishedTests
{
    // JCGM 100:2008 (GUM) H.1.3: l_s = 50 000 623 nm, α_s = 11.5e-6 /°C, mean deviation of temperature −0.1 °C.
    private const double LengthNm = 50_000_623;
    private const double Expansion = 11.5e-6;

    // H.1.3.3 and H.1.3.4: δα within ±1e-6 /°C and δθ within ±0.05 °C, both rectangular, give 2.9 and 16.6 nm.
    [Fact]
    public void Rectangle_OfGumH1_GivesItsComponents()
    {
        Assert.Equal(2.887, LengthNm * 0.1 * Quadrature.OfResolution(2 * 1e-6), 0.0005);
        Assert.Equal(16.599, LengthNm * Expansion * Quadrature.OfResolution(2 * 0.05), 0.0005);
    }

    // H.1.6: ν_eff 16 (16.7 cut off), t99(16) = 2.92, U99 = 93 nm (from memory; 2.921 × 31.66 = 92.5 computed apart, 93 with the
    // 32 nm that the example rounds to).
    [Fact]
    public void Interval_OfGumH1_Is93NanometresAt99Percent()
    {
        var uc = Quadrature.Combine(
            25,
            LengthNm * Expansion * Quadrature.OfResolution(0.1),
            6.7,
            5.8,
            3.9,
            LengthNm * 0.1 * Quadrature.OfResolution(2e-6)
        );
        var t99 = Student.Quantile(0.995, 16);
        Assert.Equal(31.664, uc, 0.001);
        Assert.Equal(2.92, t99, 0.005);
        Assert.Equal(93, t99 * Math.Round(uc), 0.5);
        Assert.Equal(92.5, t99 * uc, 0.05);
    }

    // ISO 14253-1: 95 % one-sided; the guard factor is 1.65 there (from memory), Φ(1.645) = 0.95002 computed apart.
    [Fact]
    public void GuardFactor_OfIso14253_Leaves95PercentOneSided()
    {
        Assert.Equal(1.65, Judgement.GuardFactor, 0.0051);
        Assert.Equal(0.95002, Normal.Cumulative(Judgement.GuardFactor), 5e-6);
    }

    // JCGM 106:2012, guard band w = U = 2u: a risk of at most 2.3 %, 1 − Φ(2) = 0.02275 computed apart.
    [Fact]
    public void Risk_AtAGuardBandOfU_IsTwoPointThreePercent()
    {
        var risk = Conformance.OutsideProbability(new(9.8, 0.1), new(null, 10));
        Assert.Equal(0.02275, risk, 5e-6);
        Assert.Equal(0.023, risk, 0.0005);
    }

    // JCGM 106:2012 7.4 again by its two tails: Φ(1.5) and Φ(−0.6111), computed apart; the item conforms with 0.66 and so fails
    // 95 % by far, though the value itself lies well inside the limits.
    [Fact]
    public void Judgement_OfJcgm106Section74_IsTooCloseToCall()
    {
        var judged = Judgement.Of(new(13.6, 1.8), new(12.5, 16.3));
        Assert.Equal(Verdict.TooCloseToCall, judged.Verdict);
        Assert.Equal(0.66263, judged.ConformanceProbability, 5e-6);
        Assert.Equal(0.93319, Normal.Cumulative(1.5), 5e-6);
        Assert.Equal(0.93319 - 0.66263, Normal.Cumulative(-1.1 / 1.8), 1e-5);
    }
}
