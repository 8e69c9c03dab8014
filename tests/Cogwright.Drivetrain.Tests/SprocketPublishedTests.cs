namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// Sprocket geometry against published tables; each table names its source. The last tests hold errors found in
/// sources: agreeing with them would be wrong.
/// </summary>
public class SprocketPublishedTests
{
    public static TheoryData<double[]> UnitPitchFactors() =>
        TestData.Rows("published/pitch-diameter-table-a.csv");

    public static TheoryData<double[]> PitchDiametersOfOneInch() =>
        TestData.Rows("published/pitch-diameter-table-b.csv");

    public static TheoryData<double[]> ToothForm() =>
        TestData.Rows("published/iso606-tooth-form.csv");

    public static TheoryData<double[]> Variation() =>
        TestData.Rows("published/chordal-variation.csv");

    [Theory]
    [MemberData(nameof(UnitPitchFactors))]
    public void PitchRadius_TableA_AgreesAtItsRounding(double[] row)
    {
        // Three decimals; one entry of the table is rounded the other way.
        Assert.Equal(row[1], 2 * Sprocket.PitchRadiusMm((int)row[0], 1), 0.00051);
    }

    [Theory]
    [MemberData(nameof(PitchDiametersOfOneInch))]
    public void PitchRadius_TableB_AgreesAtItsRounding(double[] row)
    {
        Assert.Equal(row[1], 2 * Sprocket.PitchRadiusMm((int)row[0], 25.4), 0.005001);
    }

    [Theory]
    [MemberData(nameof(ToothForm))]
    public void ToothForm_Iso606_AgreesAtThreeDecimals(double[] row)
    {
        const double printed = 0.00051;
        var teeth = (int)row[0];
        Assert.Equal(row[1], 2 * Sprocket.PitchRadiusMm(teeth), printed);
        Assert.Equal(row[2], Sprocket.RootDiameterMm(teeth), printed);
        Assert.Equal(row[3], Sprocket.LeastTipDiameterMm(teeth), printed);
        Assert.Equal(row[4], Sprocket.GreatestTipDiameterMm(teeth), printed);
        Assert.Equal((row[3] + row[4]) / 4, Sprocket.TipRadiusMm(teeth), printed);
    }

    [Theory]
    [MemberData(nameof(Variation))]
    public void ChordalVariation_PublishedFigures_AgreeAtTheirRounding(double[] row)
    {
        // A figure cut instead of rounded is off by up to twice half a digit.
        Assert.Equal(row[1], 100 * Sprocket.ChordalVariation((int)row[0]), 1.01 * row[2]);
    }

    [Theory]
    [InlineData(9, 6.0307)]
    [InlineData(11, 4.0507)]
    [InlineData(17, 1.7027)]
    [InlineData(25, 0.7885)]
    public void ChordalVariation_ComputedApart_Agrees(int teeth, double percent)
    {
        Assert.Equal(percent, 100 * Sprocket.ChordalVariation(teeth), 0.00006);
    }

    /// <summary>ASME B29.1, catalogue example (read at wheelsprocket.xyz/xingyezixun/299.html).</summary>
    [Fact]
    public void PitchRadius_CatalogueExampleOf25Teeth_GivesItsPitchAndOutsideDiameter()
    {
        Assert.Equal(303.99, 2 * Sprocket.PitchRadiusMm(25, 38.1), 0.005);
        // Outside diameter p(0.6 + cot(180°/N)): "324".
        var cotangent = 1 / Math.Tan(Math.PI / 25);
        var pitchDiameter = 2 * Sprocket.PitchRadiusMm(25, 38.1);
        Assert.Equal(324, 38.1 * (0.6 + cotangent), 0.5);
        // cot² + 1 = 1/sin² ties the outside diameter to the pitch radius that the product computes.
        Assert.Equal(38.1 * Math.Sqrt(1 + (cotangent * cotangent)), pitchDiameter, 1e-9);
    }

    /// <summary>A slip of the same page: it prints 7.9789 where the factor is 7.97873.</summary>
    [Fact]
    public void PitchRadius_MisprintedFactorOf25Teeth_DoesNotAgree()
    {
        Assert.NotEqual(7.9789, 2 * Sprocket.PitchRadiusMm(25, 1), 0.00005);
    }

    /// <summary>A published slip: d + 1.25(p − d1) in place of ISO 606's d + 1.25p − d1, almost 2 mm less.</summary>
    [Theory]
    [InlineData(11)]
    [InlineData(34)]
    [InlineData(50)]
    public void GreatestTipDiameter_MisprintedForm_DoesNotAgree(int teeth)
    {
        var misprinted = (2 * Sprocket.PitchRadiusMm(teeth)) + (1.25 * (12.7 - 7.75));
        Assert.True(Sprocket.GreatestTipDiameterMm(teeth) - misprinted > 1.9);
    }

    /// <summary>Common practice: pitch diameters of pulleys, one decimal.</summary>
    [Theory]
    [InlineData(10, 41.1)]
    [InlineData(11, 45.1)]
    [InlineData(12, 49.1)]
    [InlineData(13, 53.1)]
    [InlineData(14, 57.1)]
    public void PitchRadius_Pulleys_AgreesWithCommonPractice(int teeth, double diameterMm)
    {
        Assert.Equal(diameterMm, 2 * Sprocket.PitchRadiusMm(teeth), 0.05);
    }
}
