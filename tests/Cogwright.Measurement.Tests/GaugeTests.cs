using CsCheck;

namespace Cogwright.Measurement.Tests;

public sealed class GaugeTests
{
    // JCGM 100:2008 (GUM) H.1, end gauge: components in nm, u_c = 32 nm (31.7 before rounding).
    [Fact]
    public void Combine_GumH1Components_GiveItsStandardUncertainty()
    {
        var uc = Quadrature.Combine(25, 16.599, 6.7, 5.8, 3.9, 2.887);
        Assert.Equal(31.67, uc, 0.02);
        Assert.Equal(32, Math.Round(uc));
    }

    // The same example: the difference's own components, 5.8, 3.9 and 6.7 nm, give 9.7 nm.
    [Fact]
    public void Combine_GumH1Difference_GivesItsUncertainty() =>
        Assert.Equal(9.682, Quadrature.Combine(5.8, 3.9, 6.7), 0.001);

    // GUM F.2.2.1: a display that steps by δx has the variance δx²/12, u = 0.29 δx.
    [Fact]
    public void OfResolution_GumF221_IsPoint29OfTheStep() =>
        Assert.Equal(0.29, Quadrature.OfResolution(1), 0.005);

    [Fact]
    public void FromExpanded_CertificateWithK2_HalvesIt()
    {
        var gauge = Gauge.FromExpanded("caliper", 0.04, 2, 0.01);
        Assert.Equal(0.02, gauge.StandardUncertainty);
        Assert.Equal(
            Math.Sqrt((0.02 * 0.02) + (0.01 * 0.01 / 12)),
            gauge.ReadingUncertainty,
            1e-15
        );
    }

    [Fact]
    public void Read_WithFurtherComponents_AddsThemInQuadrature()
    {
        var reading = new Gauge("caliper", null, 0.3).Read(7, 0.4);
        Assert.Equal(7, reading.Value);
        Assert.Equal(0.5, reading.StandardUncertainty, 1e-15);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-0.1)]
    [InlineData(double.PositiveInfinity)]
    public void Uncertainty_ThatCannotBe_IsRefusedInWords(double u)
    {
        var errors = new[]
        {
            Assert.Throws<ArgumentException>(() => new Reading(1, u)),
            Assert.Throws<ArgumentException>(() => new Gauge("g", null, u)),
            Assert.Throws<ArgumentException>(() => new Gauge("g", u, 0.1)),
            Assert.Throws<ArgumentException>(() => Gauge.FromExpanded("g", u, 2)),
            Assert.Throws<ArgumentException>(() => Quadrature.Combine(0.1, u)),
        };
        Assert.All(
            errors,
            e => Assert.Contains("0 or greater", e.Message, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Value_ThatIsNoNumber_IsRefused() =>
        Assert.Throws<ArgumentException>(() => new Reading(double.NaN, 0.1));

    [Theory]
    [InlineData(0.0)]
    [InlineData(-2.0)]
    [InlineData(double.NaN)]
    public void CoverageFactor_ThatCannotBe_IsRefused(double k) =>
        Assert.Throws<ArgumentException>(() => Gauge.FromExpanded("g", 0.1, k));

    [Fact]
    public void Name_Empty_IsRefused() =>
        Assert.Throws<ArgumentException>(() => new Gauge(" ", null, 0.1));

    [Fact]
    public void Combine_MoreComponents_NeverLess() =>
        Gen.Select(Gen.Double[0, 1e6], Gen.Double[0, 1e6], Gen.Double[0, 1e6])
            .Sample(
                (a, b, c) =>
                {
                    var two = Quadrature.Combine(a, b);
                    Assert.True(two >= Math.Max(a, b) * (1 - 1e-15));
                    Assert.True(two <= a + b + (1e-15 * (a + b)));
                    Assert.True(Quadrature.Combine(a, b, c) >= two * (1 - 1e-15));
                }
            );
}
