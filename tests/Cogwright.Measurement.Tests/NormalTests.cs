using CsCheck;
using MathNet.Numerics;

namespace Cogwright.Measurement.Tests;

public sealed class NormalTests
{
    // ISO 14253-1 default (95 % one-sided) and JCGM 106 r = 1: values of the normal distribution, NIST Handbook 1.3.6.7.1.
    [Theory]
    [InlineData(1.645, 0.95002, 1e-5)]
    [InlineData(2.0, 0.97725, 1e-5)]
    [InlineData(1.959964, 0.975, 1e-6)]
    [InlineData(0.0, 0.5, 0.0)]
    [InlineData(-2.0, 0.02275, 1e-5)]
    public void Cumulative_TableValues_Agree(double z, double expected, double within) =>
        Assert.InRange(Normal.Cumulative(z), expected - within, expected + within);

    // NIST DLMF / Abramowitz and Stegun table 7.1 (erf 0.5, 1, 2 to ten figures).
    [Theory]
    [InlineData(0.5, 0.5204998778)]
    [InlineData(1.0, 0.8427007929)]
    [InlineData(2.0, 0.9953222650)]
    public void ComplementaryError_TableValues_Agree(double x, double erf) =>
        Assert.Equal(1 - erf, Normal.ComplementaryError(x), 1e-10);

    // 1.0 is the seam between series and continued fraction.
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.999999)]
    [InlineData(1.0)]
    [InlineData(1.000001)]
    public void ComplementaryError_AtTheSeam_AgreesWithGeneralLibrary(double x) =>
        AssertRelative(SpecialFunctions.Erfc(x), Normal.ComplementaryError(x), 1e-14);

    // Computed apart from the product: the continued fraction of DLMF 7.9.1 in 50 decimal digits.
    [Theory]
    [InlineData(1.5, 3.38948535246892738e-02)]
    [InlineData(5.5, 7.35784791797439829e-15)]
    [InlineData(10.25, 1.29001389050429044e-47)]
    [InlineData(19.918260221741413, 1.41546448163370403e-174)]
    [InlineData(26.0, 5.66319240885614319e-296)]
    public void ComplementaryError_FiftyDigitValues_AgreeTo1e15(double x, double expected) =>
        AssertRelative(expected, Normal.ComplementaryError(x), 1e-15);

    // The library rounds x² before it takes the exponential, which costs it x² units in the last place.
    [Fact]
    public void ComplementaryError_AnyArgument_AgreesWithGeneralLibrary() =>
        Gen.Double[-6, 26]
            .Sample(x =>
                AssertRelative(
                    SpecialFunctions.Erfc(x),
                    Normal.ComplementaryError(x),
                    1e-14 + (x * x * 2.3e-16)
                )
            );

    [Fact]
    public void Cumulative_BothTails_SumToOne() =>
        Gen.Double[-30, 30]
            .Sample(z =>
                Assert.Equal(1, Normal.Cumulative(z) + Normal.Cumulative(-z), tolerance: 4e-16)
            );

    [Fact]
    public void Cumulative_FarTail_IsZeroNotANumberLost()
    {
        Assert.Equal(0, Normal.Cumulative(double.NegativeInfinity));
        Assert.Equal(1, Normal.Cumulative(double.PositiveInfinity));
    }

    [Fact]
    public void Cumulative_NotANumber_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Normal.Cumulative(double.NaN));

    private static void AssertRelative(double expected, double actual, double within) =>
        Assert.True(
            Math.Abs(actual - expected) <= within * Math.Abs(expected),
            $"expected {expected:R}, was {actual:R}, relative {Math.Abs(actual / expected - 1):E1}"
        );
}
