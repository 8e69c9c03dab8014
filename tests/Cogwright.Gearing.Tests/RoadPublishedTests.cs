namespace Cogwright.Gearing.Tests;

/// <summary>What the road takes, held to what was published of it.</summary>
public class RoadPublishedTests
{
    private const double MPerInch = 0.0254;

    /// <summary>
    /// Source: worked examples of "Calculating gear inches" and a shop's page, to the digit as computed apart from their definition;
    /// the pages cut them to 36.7, 113, 72 and 127.6.
    /// </summary>
    [Theory]
    [InlineData(26, 48, 24, 52)]
    [InlineData(26, 48, 34, 36.706)]
    [InlineData(26, 48, 11, 113.455)]
    [InlineData(27, 48, 18, 72.0)]
    [InlineData(27, 52, 11, 127.636)]
    public void GearInches_ComputedApart_Agree(
        double wheelInches,
        int ring,
        int cog,
        double gearInches
    ) =>
        Assert.Equal(
            gearInches,
            GearMeasures.GearInches(new GearTeeth(ring, cog).Ratio, wheelInches * MPerInch),
            0.0005
        );

    /// <summary>
    /// A shop's page calls 127.6 in the distance of one turn of the cranks with 52/11 on 27 in. That would be 3.24 m; it is
    /// π × 127.636 = 400.98 in = 10.185 m, computed apart.
    /// </summary>
    [Fact]
    public void Development_IsNotTheGearInchesOfThePage()
    {
        var development = GearMeasures.DevelopmentM(
            new GearTeeth(52, 11).Ratio,
            Math.PI * 27 * MPerInch
        );

        Assert.Equal(400.98, development / MPerInch, 0.005);
        Assert.Equal(10.185, development, 0.0005);
        Assert.True(development > 3 * 127.6 * MPerInch);
    }

    /// <summary>An encyclopaedia's range, 20, 70 and 125 gear inches: about 1.6, 5.6 and 10 m; computed apart to the millimetre.</summary>
    [Theory]
    [InlineData(20, 1.596)]
    [InlineData(70, 5.586)]
    [InlineData(125, 9.975)]
    public void Development_OfGearInches_IsPiTimesAsMuch(double gearInches, double developmentM) =>
        Assert.Equal(
            developmentM,
            GearMeasures.DevelopmentM(1, Math.PI * gearInches * MPerInch),
            0.00051
        );

    /// <summary>
    /// Source: a training page's drag coefficients 1.15 (tops) and 1.00 (hoods) with a coach's frontal areas 0.55 and 0.40 m²; drag
    /// areas 0.30 (drops) and 0.23 m² (time trial) as measured and published (jitetan.com).
    /// </summary>
    [Fact]
    public void DragArea_OfAPosition_IsThePublishedOne()
    {
        Assert.Equal(1.15 * 0.55, RoadPractice.DragAreaM2(RidingPosition.Tops), 0.001);
        Assert.Equal(1.00 * 0.40, RoadPractice.DragAreaM2(RidingPosition.Hoods), 1e-12);
        Assert.Equal(0.30, RoadPractice.DragAreaM2(RidingPosition.Drops), 1e-12);
        Assert.Equal(0.23, RoadPractice.DragAreaM2(RidingPosition.AeroBar), 1e-12);
    }

    /// <summary>
    /// What is taken unless told is that of the worked example of Martin et al. 1998: its figures from memory, its results
    /// reproduced by a computation apart (<see cref="RoadPowerTests"/>). Its rolling resistance of 0.0032 lies in the spread of asphalt.
    /// </summary>
    [Fact]
    public void Load_UnlessTold_IsThatOfMartin1998()
    {
        var load = new RoadLoad
        {
            MassKg = 90,
            DragAreaM2 = 0.2565,
            RollingCoefficient = 0.0032,
            AirDensity = 1.2234,
            Gravity = 9.81,
        };
        var parts = RoadPower.At(
            load,
            471.8 / 56.42,
            0.003,
            2.5461,
            RoadPower.KineticW(load, 8.28, 8.45, 56.42)
        );
        var (least, most) = RoadPractice.RollingSpread(RoadSurface.SmoothAsphalt);

        Assert.Equal(208.252, parts.Net, 0.1);
        Assert.Equal(213.373, parts.Pedals, 0.1);
        Assert.InRange(0.0032, least, most);
    }

    /// <summary>
    /// Source: derailleur drives 95 to 98 % (jitetan.com); the best that was measured is 98.6 %, the worst 81 % (Spicer et al., ASME
    /// J. Mech. Des. 123(4), 2001, and its university's account of 1999). One figure is taken here for every gear.
    /// </summary>
    [Fact]
    public void Efficiency_UnlessTold_IsThatOfADerailleurDrive()
    {
        var efficiency = new RoadLoad
        {
            MassKg = 90,
            DragAreaM2 = 0.4,
            RollingCoefficient = 0.0045,
        }.DriveEfficiency;

        Assert.InRange(efficiency, 0.95, 0.98);
        Assert.InRange(efficiency, 0.81, 0.986);
    }
}
