namespace Cogwright.Drivetrain.Tests;

/// <summary>The chain path against the handbooks' length formula and the cases published with it.</summary>
public class ChainLengthPublishedTests
{
    public static TheoryData<double[]> Wraps() =>
        TestData.Rows("published/wraps-common-practice.csv");

    /// <summary>
    /// L = 2C + (N+n)/2 + ((N−n)/2π)²/C, all in pitches. Sources: ramseychain.com "Chain Length Calculations"; the
    /// same in an engineer's handbook.
    /// </summary>
    private static double Handbook(double centres, int large, int small)
    {
        var share = (large - small) / Math.Tau;
        return (2 * centres) + ((large + small) / 2.0) + (share * share / centres);
    }

    private static double Direct(double centresMm, int ring, int cog) =>
        ChainPath.Round([new(new(-centresMm, 0), cog, 1), new(new(0, 0), ring, 1)]).Pitches;

    /// <summary>Bicycle sizes: the formula lies within 0.005 pitches of a chain counted in teeth.</summary>
    [Theory]
    [InlineData(410, 52, 11, 97.3859, 97.3904)]
    [InlineData(415, 50, 34, 107.5528, 107.5529)]
    [InlineData(435, 32, 51, 110.2709, 110.2711)]
    [InlineData(410, 34, 34, 98.5669, 98.5669)]
    public void ChainPath_BicycleCases_LiesWithinATenthOfAPitchOfTheFormula(
        double centresMm,
        int ring,
        int cog,
        double formula,
        double teethCounted
    )
    {
        var handbook = Handbook(centresMm / 12.7, Math.Max(ring, cog), Math.Min(ring, cog));
        Assert.Equal(formula, handbook, 0.00006);
        var path = Direct(centresMm, ring, cog);
        Assert.Equal(handbook, path, 0.1);
        Assert.Equal(teethCounted, path, 0.001);
    }

    [Fact]
    public void ChainPath_EqualSprockets_IsTheFormulaExactly()
    {
        Assert.Equal((2 * 410 / 12.7) + 34, Direct(410, 34, 34), 1e-12);
    }

    /// <summary>
    /// 63 and 20 teeth (excerpt of a paper on the design of chain drives, read at th4.ilovetranslation.com): "114.8
    /// pitches" at a centre distance of 36; for 114 pitches "35.6". The paper's "exact" 114.305 and 35.8447 cannot be
    /// reproduced and must not be.
    /// </summary>
    [Fact]
    public void ChainPath_PublishedCase63And20_AgreesAndItsMisprintDoesNot()
    {
        Assert.Equal(114.80099, Handbook(36, 63, 20), 0.000005);
        var path = Direct(36 * 12.7, 63, 20);
        Assert.Equal(114.8, path, 0.05);
        Assert.NotEqual(114.305, path, 0.3);

        // Centre distance for 114 pitches: the formula's inverse, then the path's own.
        const double half = (63 + 20) / 2.0;
        var share = 43 / Math.Tau;
        var inverse =
            (114 - half + Math.Sqrt(((114 - half) * (114 - half)) - (8 * share * share))) / 4;
        Assert.Equal(35.59205, inverse, 0.000005);
        var centres = MathNet.Numerics.RootFinding.Brent.FindRoot(
            c => Direct(c * 12.7, 63, 20) - 114,
            30,
            40,
            1e-10
        );
        Assert.Equal(35.6, centres, 0.05);
        Assert.NotEqual(35.8447, centres, 0.2);
    }

    /// <summary>
    /// Common-practice table of wraps. It takes the chain along the arc of the pitch circle; a chain lies as a polygon,
    /// so the product's count of teeth is less, by 0.03 to 0.05 pitches.
    /// </summary>
    [Theory]
    [MemberData(nameof(Wraps))]
    public void ChainPath_CommonPracticeWraps_AgreeOnTheArcAndExceedTheTeeth(double[] row)
    {
        var (ring, cog) = ((int)row[1], (int)row[2]);
        var path = ChainPath.Round([new(new(-row[0], 0), cog, 1), new(new(0, 0), ring, 1)]);
        var arc =
            (path.Wraps[0].AngleRad * Sprocket.PitchRadiusMm(cog))
            + (path.Wraps[1].AngleRad * Sprocket.PitchRadiusMm(ring))
            + path.Runs.Sum(run => run.LengthMm);
        Assert.Equal(row[3], arc / 12.7, 0.0055);
        Assert.InRange(row[3] - path.Pitches, 0.03, 0.05);
    }

    /// <summary>
    /// The shops' equation 2C + F/4 + R/4 + 1 in inches (worked at contoursofacountry.com: 16.25 in, 52 and 28 teeth:
    /// 53.5 in): 107 pitches, so 108. The bench rule agrees.
    /// </summary>
    [Fact]
    public void BenchRule_ShopEquationExample_AgreesAfterRoundingUp()
    {
        const double inches = (2 * 16.25) + (52 / 4.0) + (28 / 4.0) + 1;
        Assert.Equal(53.5, inches);
        var direct = Direct(16.25 * 25.4, 52, 28);
        // The shops' equation leaves out the handbook's third term: by just that much it counts too few.
        var share = (52 - 28) / Math.Tau;
        Assert.Equal(((inches - 1) * 2) + (share * share / (16.25 * 2)), direct, 0.001);
        var spec = Example.Spec with
        {
            Frame = new() { ChainstayMm = 16.25 * 25.4, BottomBracketDropMm = 70 },
            Rings = [new(52, 47)],
            Cogs = Example.Spec.Cogs with { Teeth = [11, 28], SpacingMm = 3.6 },
        };
        Assert.Equal(108, ChainChooser.Choose(spec).Numbers.BenchRule);
    }

    /// <summary>Common practice: 32/51 on 435 mm, where the shops' equation says exactly 112 and the path 114.</summary>
    [Fact]
    public void BenchRule_NearTheRoundingEdge_SaysSoAndDoesNotFollowTheShortEquation()
    {
        Assert.Equal(112.0, (2 * 435 / 25.4 + (32 / 4.0) + (51 / 4.0) + 1) * 2, 0.01);
        var spec = Example.Spec with
        {
            Frame = new() { ChainstayMm = 435, BottomBracketDropMm = 40 },
            Rings = [new(32, 52)],
            Cogs = Example.Spec.Cogs with { Teeth = [10, 51] },
        };
        var choice = ChainChooser.Choose(spec);
        Assert.Equal(114, choice.Numbers.BenchRule);
        Assert.True(choice.RoundingEdgeIsBelow);
        Assert.Equal(0.271, choice.RoundingEdgePitches, 0.001);
    }

    /// <summary>Common practice: a chain of 116 pitches is 58 in long.</summary>
    [Fact]
    public void Pitch_HalfAnInch_Makes116PitchesFiftyEightInches()
    {
        Assert.Equal(58 * 25.4, 116 * Sprocket.PitchMm, 1e-9);
    }

    /// <summary>Common practice: chain angles, from lateral positions and the stay.</summary>
    [Theory]
    [InlineData(43.5, 61.4, 410, 2.5)]
    [InlineData(40, 61, 410, 2.9)]
    [InlineData(52, 29, 440, 3.0)]
    public void ChainAngle_CommonPractice_AgreesAtItsRounding(
        double ringMm,
        double cogMm,
        double stayMm,
        double degrees
    )
    {
        // Equal sprockets: the top run is as long as the stay, as the common figures take it.
        var spec = Example.Spec with
        {
            Frame = new() { ChainstayMm = stayMm, BottomBracketDropMm = 70 },
            Rings = [new(32, ringMm)],
            Cogs = new()
            {
                Teeth = [32],
                SmallestLateralMm = cogMm,
                SpacingMm = 0,
            },
            RearDerailleur = null,
            Hanger = null,
        };
        var gear = GearTableSolver.Solve(spec, 110).Gears[0];
        Assert.Equal(degrees, Example.Deg(gear.ChainAngleRad), 0.051);
    }
}
