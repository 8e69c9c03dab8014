namespace Cogwright.Drivetrain.Tests;

/// <summary>Lateral positions against figures from outside the product.</summary>
public class LateralPublishedTests
{
    /// <summary>The trade's table is printed to a tenth of a millimetre.</summary>
    private const double Printed = 0.051;

    /// <summary>
    /// Rear chainline by the published workshop method (half the hub spacing less the gap to the locknut less half the
    /// stack), with a gap of 2.8 mm: common practice.
    /// </summary>
    [Theory]
    [InlineData(130, 36.5, 44.0)]
    [InlineData(130, 37.2, 43.6)]
    [InlineData(130, 39.0, 42.7)]
    [InlineData(130, 41.3, 41.6)]
    [InlineData(135, 36.5, 46.5)]
    [InlineData(135, 37.2, 46.1)]
    [InlineData(135, 39.0, 45.2)]
    [InlineData(135, 41.3, 44.1)]
    [InlineData(142, 36.5, 46.5)]
    [InlineData(142, 41.3, 44.1)]
    [InlineData(148, 36.5, 49.5)]
    [InlineData(148, 37.2, 49.1)]
    [InlineData(148, 39.0, 48.2)]
    [InlineData(148, 41.3, 47.1)]
    public void RearChainline_HubAndStack_AgreesWithCommonPractice(
        double hub,
        double stack,
        double chainline
    ) =>
        Assert.Equal(
            chainline,
            MiddleOfTheCogs(
                LateralPractice.HalfWidthMm(hub, LateralPractice.RecessMm(hub)),
                stack,
                10
            ),
            Printed
        );

    /// <summary>The middle between the end cogs, which is what a rear chainline tells, however many cogs fill the stack (mm).</summary>
    private static double MiddleOfTheCogs(double halfWidth, double stack, int cogs)
    {
        const double thickness = 1.6;
        var first = LateralPractice.SmallestCogLateralMm(halfWidth, 2.8, thickness);
        var spacing = LateralPractice.SpacingFromStackMm(stack, cogs, thickness);
        return first - ((cogs - 1) * spacing / 2);
    }

    /// <summary>Smallest and largest cog of a wide twelve-cog stack: common practice.</summary>
    [Theory]
    [InlineData(130, 61.4, 21.7)]
    [InlineData(135, 63.9, 24.2)]
    [InlineData(142, 63.9, 24.2)]
    [InlineData(148, 66.9, 27.2)]
    public void EndCogs_WideTwelve_AgreeWithCommonPractice(
        double hub,
        double smallest,
        double largest
    )
    {
        const double thickness = 1.6;
        var first = LateralPractice.SmallestCogLateralMm(
            LateralPractice.HalfWidthMm(hub, LateralPractice.RecessMm(hub)),
            2.8,
            thickness
        );
        Assert.Equal(smallest, first, Printed);
        var spacing = LateralPractice.SpacingFromStackMm(41.3, 12, thickness);
        Assert.Equal(largest, first - (11 * spacing), Printed);
    }

    /// <summary>
    /// A published hand measurement of a ten-cog wheel with 130 mm spacing: cogs from 61.2 to 25.65, centre 43.4 mm.
    /// A hub's own locknut gap differs by some tenths from the usual one.
    /// </summary>
    [Fact]
    public void EndCogs_TenOn130_AgreeWithAPublishedHandMeasurement()
    {
        const double withinMm = 0.25;
        var first = LateralPractice.SmallestCogLateralMm(65, 2.8, 1.6);
        var spacing = LateralPractice.SpacingFromStackMm(37.2, 10, 1.6);
        Assert.Equal(61.2, first, withinMm);
        Assert.Equal(25.65, first - (9 * spacing), withinMm);
        Assert.Equal(43.4, MiddleOfTheCogs(65, 37.2, 10), withinMm);
        // Cogs and spacers of that family, 1.6 + 2.35 mm, against the measured distance of the end cogs.
        Assert.Equal((61.2 - 25.65) / 9, 1.6 + 2.35, 0.01);
    }

    /// <summary>Chain angles told by common practice: 2.5° and 2.9° on the road, 3.0° on a wide hub.</summary>
    [Theory]
    [InlineData(43.5, 61.4, 410, 2.5)]
    [InlineData(40, 61, 410, 2.9)]
    [InlineData(52, 29, 440, 3.0)]
    public void ChainAngle_PlainStay_AgreesWithCommonPractice(
        double ring,
        double cog,
        double stay,
        double degrees
    )
    {
        var spec = Example.Spec with
        {
            Frame = new() { ChainstayMm = stay, BottomBracketDropMm = 70 },
            Rings = [new(34, ring)],
            // Ring and cog alike: the top run is then as long as the stay.
            Cogs = new()
            {
                Teeth = [34],
                SmallestLateralMm = cog,
                SpacingMm = 0,
            },
            RearDerailleur = null,
            Hanger = null,
        };
        var gear = GearTableSolver.Solve(spec, 110).Gears[0];
        Assert.Equal(degrees, Example.Deg(gear.ChainAngleRad), 0.06);
    }

    [Fact]
    public void RingLaterals_ClassicDouble_StandHalfTheSpacingEitherSide()
    {
        Assert.Equal(47, LateralPractice.RingLateralMm(43.5, 7, 2, 0), 12);
        Assert.Equal(40, LateralPractice.RingLateralMm(43.5, 7, 2, 1), 12);
        Assert.Equal(52, LateralPractice.RingLateralMm(52, 0, 1, 0), 12);
        Assert.Equal(47.5, LateralPractice.RingLateralMm(47.5, 6.5, 3, 1), 12);
    }
}
