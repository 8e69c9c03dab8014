namespace Cogwright.Fastening.Tests;

public sealed class ThreadTests
{
    // ISO 898-1 stress areas, as printed in two tables of fastener makers; they print three figures.
    [Theory]
    [InlineData(3, 0.5, 5.03)]
    [InlineData(4, 0.7, 8.78)]
    [InlineData(5, 0.8, 14.2)]
    [InlineData(6, 1, 20.1)]
    [InlineData(8, 1.25, 36.6)]
    [InlineData(8, 1, 39.2)]
    [InlineData(10, 1.5, 58.0)]
    [InlineData(10, 1.25, 61.2)]
    [InlineData(10, 1, 64.5)]
    public void StressArea_OfPublishedSizes_RoundsToThePrintedOne(
        double diameter,
        double pitch,
        double published
    ) =>
        Assert.Equal(published, new ScrewThread(diameter, pitch).StressAreaMm2, 0.0025 * published);

    // The same tables print 44.2, 72.7 and 98.0 mm² for these, which the standard's own formula does not give.
    [Theory]
    [InlineData(8, 0.75, 41.8, 44.2)]
    [InlineData(10, 0.75, 67.9, 72.7)]
    [InlineData(12, 1, 96.1, 98.0)]
    public void StressArea_WherePrintedTablesAreWrong_FollowsTheFormula(
        double diameter,
        double pitch,
        double right,
        double wrong
    )
    {
        var area = new ScrewThread(diameter, pitch).StressAreaMm2;
        Assert.Equal(right, area, 0.05);
        Assert.True(Math.Abs(area - wrong) > 1.5);
    }

    // The second form of the stress area, π/4·(d − 0.9382·P)².
    [Fact]
    public void StressArea_BothForms_Agree() =>
        Assert.All(
            new[] { (5.0, 0.8), (6.0, 1.0), (10.0, 1.0), (12.0, 1.75) },
            size =>
            {
                var (d, p) = size;
                var root = d - (0.9382 * p);
                Assert.Equal(Math.PI / 4 * root * root, new ScrewThread(d, p).StressAreaMm2, 1e-3);
            }
        );

    // ISO 724, fine series: d2, d3 and D1 as a table prints them.
    [Theory]
    [InlineData(8, 1, 7.35, 6.773, 6.917)]
    [InlineData(10, 1.25, 9.188, 8.466, 8.647)]
    [InlineData(10, 1, 9.35, 8.773, 8.917)]
    public void Diameters_OfFineThreads_AreThoseOfIso724(
        double diameter,
        double pitch,
        double d2,
        double d3,
        double d1
    )
    {
        var thread = new ScrewThread(diameter, pitch);
        Assert.Equal(d2, thread.PitchDiameterMm, 6e-4);
        Assert.Equal(d3, thread.RootDiameterMm, 6e-4);
        Assert.Equal(d1, thread.NutMinorDiameterMm, 6e-4);
    }

    [Theory]
    [InlineData("M5", 5, 0.8)]
    [InlineData("m10x1", 10, 1)]
    [InlineData("M8×0.75", 8, 0.75)]
    [InlineData("M10x1,25", 10, 1.25)]
    public void Parse_AsMechanicsWriteIt_IsTheThread(string written, double diameter, double pitch)
    {
        var thread = ScrewThread.Parse(written)!;
        Assert.Equal(new(diameter, pitch), thread);
        Assert.Equal(thread, ScrewThread.Parse(thread.ToString()));
    }

    // A pedal's thread, 9/16 in × 20 (14.29 × 1.27 mm).
    [Fact]
    public void Thread_OfInches_HasItsSizesInMillimetresAndItsOwnName()
    {
        var thread = ScrewThread.OfInch(9, 16, 20);
        Assert.Equal(14.2875, thread.DiameterMm, 1e-12);
        Assert.Equal(1.27, thread.PitchMm, 1e-12);
        Assert.Equal("9/16 in × 20", thread.ToString());
    }

    [Theory]
    [InlineData("")]
    [InlineData("M")]
    [InlineData("5")]
    [InlineData("M5x")]
    [InlineData("M5x3")]
    [InlineData("M7.3")]
    [InlineData("M10x1x1")]
    [InlineData("M900x2")]
    public void Parse_WhatIsNoThread_IsNull(string written) =>
        Assert.Null(ScrewThread.Parse(written));

    [Theory]
    [InlineData(double.NaN, 1)]
    [InlineData(5, double.NaN)]
    [InlineData(5, 0)]
    [InlineData(5, 2)]
    [InlineData(0, 0.2)]
    public void Thread_ThatCannotBe_IsRefused(double diameter, double pitch) =>
        Assert.Throws<ArgumentException>(() => new ScrewThread(diameter, pitch));

    // ISO 898-1 proof loads (N), as a table of a fastener maker prints them; rounded there to three figures from printed areas.
    [Theory]
    [InlineData(3, 2920, 4180, 4880)]
    [InlineData(4, 5100, 7290, 8520)]
    [InlineData(5, 8230, 11800, 13800)]
    [InlineData(6, 11600, 16700, 19500)]
    [InlineData(8, 21200, 30400, 35500)]
    [InlineData(10, 33700, 48100, 56300)]
    public void ProofLoad_OfClasses_IsThatOfIso898(double d, double c88, double c109, double c129)
    {
        var thread = ScrewThread.OfCoarse(d);
        Assert.Equal(c88, BoltMaterial.Class88.ProofLoadN(thread), 0.007 * c88);
        Assert.Equal(c109, BoltMaterial.Class109.ProofLoadN(thread), 0.007 * c109);
        Assert.Equal(c129, BoltMaterial.Class129.ProofLoadN(thread), 0.007 * c129);
    }

    // ISO 898-1 breaking loads (N). One page prints 91 130 N for M4 of class 10.9, a misprint of 9 130.
    [Theory]
    [InlineData(3, 4020, 5230, 6140)]
    [InlineData(4, 7020, 9130, 10700)]
    [InlineData(5, 11350, 14800, 17300)]
    [InlineData(6, 16100, 20900, 24500)]
    [InlineData(8, 29200, 38100, 44600)]
    [InlineData(10, 46400, 60300, 70800)]
    public void BreakingLoad_OfClasses_IsThatOfIso898(
        double d,
        double c88,
        double c109,
        double c129
    )
    {
        var thread = ScrewThread.OfCoarse(d);
        Assert.Equal(c88, BoltMaterial.Class88.BreakingLoadN(thread), 0.007 * c88);
        Assert.Equal(c109, BoltMaterial.Class109.BreakingLoadN(thread), 0.007 * c109);
        Assert.Equal(c129, BoltMaterial.Class129.BreakingLoadN(thread), 0.007 * c129);
    }

    // Pages that take 600 MPa for class 8.8 come to 34.8 kN for M10; that figure belongs to sizes above 16 mm.
    [Fact]
    public void ProofLoad_OfM10InClass88_IsNotTheOneOfLargeBolts()
    {
        var load = BoltMaterial.Class88.ProofLoadN(ScrewThread.OfCoarse(10));
        Assert.Equal(33_700, load, 100.0);
        Assert.True(load < 34_300);
        Assert.Equal(600, BoltMaterial.Class88.At(20).ProofMPa);
        Assert.Equal(580, BoltMaterial.Class88.At(16).ProofMPa);
    }
}
