namespace Cogwright.Measurement.Tests;

/// <summary>The shop's gauges and how long their calibration serves.</summary>
public sealed class ShopGaugeTests
{
    private static readonly ShopGauge Caliper = new("1", "caliper 2", "mm")
    {
        Resolution = 0.01,
        StandardUncertainty = 0.03,
    };

    [Fact]
    public void Read_CombinesDisplayAndGauge_AsGum512()
    {
        var reading = Caliper.Read(11.2);

        Assert.Equal(11.2, reading.Value);
        Assert.Equal(
            Math.Sqrt((0.03 * 0.03) + (0.01 * 0.01 / 12)),
            reading.StandardUncertainty,
            1e-12
        );
    }

    /// <summary>Whoever writes 99999 months for "ever" must still see the list of the gauges.</summary>
    [Fact]
    public void DueOn_BeyondTheLastDay_IsTheLastDay()
    {
        var gauge = Caliper with { CalibratedOn = new(2026, 1, 31), MonthsValid = 99_999 };

        Assert.Equal(DateOnly.MaxValue, gauge.DueOn);
        Assert.Equal(CalibrationState.Good, gauge.StateOn(new(2026, 11, 30)));
        Assert.Equal(
            new DateOnly(9999, 12, 31),
            (Caliper with { CalibratedOn = new(9999, 11, 30), MonthsValid = 12 }).DueOn
        );
    }

    [Fact]
    public void Read_DeviationInPercent_IsARectangleAboutTheReading()
    {
        // A setting wrench of ±4 % (ISO 6789-1, Type II class A above 10 N·m) at 40 N·m: a = 1.6, u = a/√3 (GUM 4.3.7).
        var wrench = new ShopGauge("2", "wrench 1", "N·m") { DeviationPercent = 4 };

        Assert.Equal(1.6 / Math.Sqrt(3), wrench.Read(40).StandardUncertainty, 1e-12);
        Assert.Equal(1.6 / Math.Sqrt(3), wrench.Read(-40).StandardUncertainty, 1e-12);
    }

    [Theory]
    [InlineData(null, 12, "2026-11-30", CalibrationState.Unknown)]
    [InlineData("2025-12-01", 12, "2026-11-30", CalibrationState.Good)]
    [InlineData("2025-11-30", 12, "2026-11-30", CalibrationState.Overdue)]
    [InlineData("2001-01-01", 0, "2026-11-30", CalibrationState.Good)]
    // The last day of a shorter month.
    [InlineData("2026-08-31", 6, "2027-02-27", CalibrationState.Good)]
    [InlineData("2026-08-31", 6, "2027-02-28", CalibrationState.Overdue)]
    public void StateOn_CountsWholeMonths(
        string? calibrated,
        int months,
        string day,
        CalibrationState state
    )
    {
        var gauge = Caliper with
        {
            CalibratedOn = calibrated is null ? null : DateOnly.Parse(calibrated, null),
            MonthsValid = months,
        };

        Assert.Equal(state, gauge.StateOn(DateOnly.Parse(day, null)));
    }

    [Fact]
    public void Read_NegativeUncertainty_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            (Caliper with { StandardUncertainty = -0.1 }).Read(1)
        );
}
