namespace Cogwright.Measurement.Tests;

public sealed class StudentTests
{
    /// <summary>Published tables (bookdown.org, NIST/SEMATECH), three decimals.</summary>
    [Theory]
    [InlineData(0.975, 1, 12.706)]
    [InlineData(0.975, 2, 4.303)]
    [InlineData(0.975, 3, 3.182)]
    [InlineData(0.975, 4, 2.776)]
    [InlineData(0.975, 5, 2.571)]
    [InlineData(0.975, 6, 2.447)]
    [InlineData(0.975, 7, 2.365)]
    [InlineData(0.975, 8, 2.306)]
    [InlineData(0.975, 9, 2.262)]
    [InlineData(0.975, 10, 2.228)]
    [InlineData(0.975, 12, 2.179)]
    [InlineData(0.975, 15, 2.131)]
    [InlineData(0.975, 16, 2.120)]
    [InlineData(0.975, 18, 2.101)]
    [InlineData(0.975, 20, 2.086)]
    [InlineData(0.975, 24, 2.064)]
    [InlineData(0.975, 25, 2.060)]
    [InlineData(0.975, 30, 2.042)]
    [InlineData(0.975, 40, 2.021)]
    [InlineData(0.975, 10000, 1.960)]
    [InlineData(0.995, 5, 4.032)]
    [InlineData(0.995, 10, 3.169)]
    [InlineData(0.995, 16, 2.921)]
    [InlineData(0.995, 20, 2.845)]
    [InlineData(0.95, 5, 2.015)]
    [InlineData(0.95, 10, 1.812)]
    public void Quantile_IsThatOfTheTables(double probability, int degrees, double t) =>
        Assert.Equal(t, Student.Quantile(probability, degrees), 0.0005);

    /// <summary>One web table misprints ν = 3, 0.90 as 1.683.</summary>
    [Fact]
    public void Quantile_MisprintedRow_IsNotFollowed() =>
        Assert.Equal(1.638, Student.Quantile(0.90, 3), 0.0005);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(7)]
    [InlineData(34)]
    public void Cumulative_OfQuantile_IsTheProbability(int degrees)
    {
        foreach (var p in (double[])[0.001, 0.2, 0.5, 0.7, 0.9999])
        {
            Assert.Equal(p, Student.Cumulative(Student.Quantile(p, degrees), degrees), 1e-12);
        }
        Assert.Equal(0.75, Student.Cumulative(1, 1), 1e-14);
    }

    [Fact]
    public void Quantile_OutOfRange_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => Student.Quantile(0, 3));
        Assert.Throws<ArgumentException>(() => Student.Quantile(1, 3));
        Assert.Throws<ArgumentException>(() => Student.Quantile(double.NaN, 3));
        Assert.Throws<ArgumentException>(() => Student.Quantile(0.9, 0));
        Assert.Throws<ArgumentException>(() => Student.Cumulative(double.NaN, 3));
    }
}
