namespace Cogwright.Gearing.Tests;

/// <summary>Measures of gears against published examples; each source stands beside its values.</summary>
public class GearMeasuresTests
{
    private const double MPerInch = 0.0254;

    /// <summary>Source: worked examples of "Calculating gear inches" (liquisearch.com) and a shop's page (52/11, 27 in).</summary>
    [Theory]
    [InlineData(26, 48, 24, 52, 0.05)]
    [InlineData(26, 48, 34, 36.7, 0.05)]
    [InlineData(26, 48, 11, 113, 0.5)]
    [InlineData(27, 48, 18, 72, 0.05)]
    [InlineData(27, 52, 11, 127.6, 0.05)]
    public void GearInches_PublishedExamples_Agree(
        double wheelInches,
        int ring,
        int cog,
        double published,
        double rounding
    ) =>
        Assert.Equal(
            published,
            GearMeasures.GearInches(new GearTeeth(ring, cog).Ratio, wheelInches * MPerInch),
            rounding
        );

    /// <summary>
    /// One page calls 127.6 in the distance of one turn of the cranks. It is a diameter: the distance is π times as much, 10.185 m.
    /// </summary>
    [Fact]
    public void GearInches_AreADiameterAndNoDistance()
    {
        var wheel = 27 * MPerInch;
        var ratio = new GearTeeth(52, 11).Ratio;
        var inches = GearMeasures.GearInches(ratio, wheel);
        var development = GearMeasures.DevelopmentM(ratio, Math.PI * wheel);

        Assert.Equal(10.185, development, 0.001);
        Assert.Equal(Math.PI, development / (inches * MPerInch), 1e-12);
    }

    /// <summary>Source: an encyclopaedia's range of gear inches: 20 about 1.6 m, 70 about 5.6 m, 125 about 10 m.</summary>
    [Theory]
    [InlineData(20, 1.6)]
    [InlineData(70, 5.6)]
    [InlineData(125, 10)]
    public void Development_OfGearInches_AgreesWithThePublishedRange(
        double gearInches,
        double developmentM
    ) =>
        Assert.Equal(
            developmentM,
            GearMeasures.DevelopmentM(1, Math.PI * gearInches * MPerInch),
            0.05
        );

    /// <summary>Computed apart from the product: 50/17 with a roll-out of 2105 mm.</summary>
    [Fact]
    public void Development_OfARollOut_IsRatioTimesIt() =>
        Assert.Equal(
            6.1912,
            GearMeasures.DevelopmentM(new GearTeeth(50, 17).Ratio, 2.105),
            0.00005
        );

    /// <summary>From the definition: while the pedal goes once round its circle, the bike goes its development.</summary>
    [Fact]
    public void Gain_IsTheBikesWayOverThePedals() =>
        Assert.Equal(
            6.1912 / (2 * Math.PI * 0.170),
            GearMeasures.Gain(new GearTeeth(50, 17).Ratio, 2.105, 170),
            0.0001
        );

    [Fact]
    public void Speed_AndCadence_AreInverse()
    {
        var speed = GearMeasures.SpeedMs(6.1912, 90);

        // 6.1912 m × 90 × 60 / 1000 = 33.43 km/h.
        Assert.Equal(33.43, speed * 3.6, 0.01);
        Assert.Equal(90, GearMeasures.CadenceRpm(6.1912, speed), 1e-9);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-1)]
    [InlineData(301)]
    [InlineData(double.PositiveInfinity)]
    public void Speed_AtACadenceNobodyHas_IsRefusedWithTheRange(double rpm)
    {
        var refused = Assert.Throws<ImpossibleInputException>(() => GearMeasures.SpeedMs(6, rpm));

        Assert.Equal("cadence", refused.Input);
        Assert.Contains("0 to 300", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Development_OfNoRatio_IsRefused(double ratio) =>
        Assert.Throws<ImpossibleInputException>(() => GearMeasures.DevelopmentM(ratio, 2.1));

    [Fact]
    public void Gain_WithoutACrank_IsRefused() =>
        Assert.Throws<ImpossibleInputException>(() => GearMeasures.Gain(2, 2.1, 0));
}
