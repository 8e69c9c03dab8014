namespace Cogwright.Fastening.Tests;

public sealed class JointTests
{
    private static readonly BoltedJoint Anchor = new()
    {
        Thread = ScrewThread.OfCoarse(5),
        Head = HeadBearing.Socket(5),
        Treatment = ThreadTreatment.Greased,
        Bolt = BoltMaterial.Class88,
    };

    // VDI 2230: an M5 of class 8.8 at μ 0.12 takes 5.8 N·m; with less friction less.
    [Theory]
    [InlineData(4, false)]
    [InlineData(7, true)]
    public void Joint_SmallBolt_IsWarnedOfAboveWhatItsClassBears(double torque, bool isTooMuch)
    {
        var result = JointReview.Of(Anchor, torque, torque);
        Assert.Equal(
            isTooMuch,
            result.Warnings.Any(warning => warning.Kind == JointWarningKind.BoltYields)
        );
        Assert.Equal(isTooMuch, result.YieldUtilisation > 1);
    }

    [Fact]
    public void Joint_WarningOfABolt_SaysWhatItBears()
    {
        var result = JointReview.Of(Anchor, 7, 7);
        var bearable = result.BearableNm!.Value;
        Assert.InRange(bearable, 4, 6);
        Assert.Empty(JointReview.Of(Anchor, bearable * 0.999, bearable * 0.999).Warnings);
        Assert.NotEmpty(JointReview.Of(Anchor, bearable * 1.001, bearable * 1.001).Warnings);
    }

    /// <summary>The same torque on a greased thread pulls harder than on a dry one: the figure goes with the treatment.</summary>
    [Fact]
    public void Joint_GreasedInsteadOfDry_PullsHarder()
    {
        var dry = JointReview.Of(Anchor with { Treatment = ThreadTreatment.Dry }, 5, 6);
        var greased = JointReview.Of(Anchor, 5, 6);
        Assert.True(greased.GreatestPreloadN > 1.4 * dry.GreatestPreloadN);
        Assert.True(greased.LeastPreloadN > dry.LeastPreloadN);
    }

    // Common practice: 15 N·m or more with a 5 mm hexagon strips the M10×1 thread of a thin aluminium hanger; 8 to 10 N·m does not.
    [Theory]
    [InlineData(8, 10, false)]
    [InlineData(22, 25, true)]
    public void Joint_HangerOfAluminium_StripsAboveWhatTheTradeGives(
        double least,
        double most,
        bool strips
    )
    {
        var hanger = new BoltedJoint
        {
            Thread = new(10, 1),
            Head = HeadBearing.Socket(10),
            Treatment = ThreadTreatment.Greased,
            Nut = NutMaterial.Aluminium6061,
            EngagementMm = 6,
        };
        var result = JointReview.Of(hanger, least, most);
        Assert.Equal(
            strips,
            result.Warnings.Any(warning => warning.Kind == JointWarningKind.ThreadStrips)
        );
    }

    /// <summary>An independent way: the sheared teeth added up one by one along the helix.</summary>
    [Fact]
    public void ShearArea_AgainstTeethAddedUp_IsTheSame()
    {
        var thread = new ScrewThread(10, 1);
        const double engagement = 7;
        var bearing = engagement - (JointReview.IdlePitches * thread.PitchMm);
        // At the crest of the bolt a nut's tooth is as thick as half a pitch and what its two 30° flanks have opened since d2.
        var flank = (thread.DiameterMm - thread.PitchDiameterMm) / 2 * Math.Tan(Math.PI / 6);
        var tooth = (thread.PitchMm / 2) + (2 * flank);
        var area = 0.0;
        const int steps = 10_000;
        for (var i = 0; i < steps; i++)
        {
            area += Math.PI * thread.DiameterMm / thread.PitchMm * tooth * bearing / steps;
        }
        Assert.Equal(area, JointReview.ShearAreaMm2(thread, engagement), 1e-6 * area);
        Assert.Equal(0, JointReview.ShearAreaMm2(thread, 0.5));
    }

    [Fact]
    public void Joint_ThreadThatHardlyEngages_BearsNothing()
    {
        var result = JointReview.Of(
            Anchor with
            {
                Nut = NutMaterial.Steel,
                EngagementMm = 0.5,
            },
            1,
            1
        );
        Assert.Equal(0, result.BearableNm);
        Assert.Equal(JointWarningKind.ThreadStrips, result.Warnings[0].Kind);
    }

    [Fact]
    public void Joint_PrintedMaximum_IsHeldWithTheDeviationOfTheTool()
    {
        var clamp = Anchor with { Bolt = null, PrintedMaxNm = 5 };
        Assert.Empty(JointReview.Of(clamp, 4, 5).Warnings);
        var over = JointReview.Of(clamp, 4.8, ToolDeviation.MostNm(5, 0.04));
        Assert.Equal(JointWarningKind.PrintedMaximum, Assert.Single(over.Warnings).Kind);
    }

    [Fact]
    public void Joint_HeadOnCarbon_IsWarnedOf()
    {
        var result = JointReview.Of(Anchor with { Under = NutMaterial.Carbon }, 5, 5);
        Assert.Contains(result.Warnings, each => each.Kind == JointWarningKind.HeadPressure);
        Assert.DoesNotContain(
            JointReview.Of(Anchor with { Under = NutMaterial.Steel }, 4, 4).Warnings,
            each => each.Kind == JointWarningKind.HeadPressure
        );
    }

    [Fact]
    public void Joint_ThreadInCarbon_IsRefusedInWords() =>
        Assert.Contains(
            JointReview
                .Of(Anchor with { Nut = NutMaterial.Carbon, EngagementMm = 8 }, 1, 1)
                .Warnings,
            each => each.Kind == JointWarningKind.NoThreadInMaterial
        );

    /// <summary>Whatever the bolt would bear: a thread that is not there bears nothing.</summary>
    [Fact]
    public void Joint_ThreadInCarbon_BearsNothing() =>
        Assert.Equal(
            0,
            JointReview
                .Of(Anchor with { Nut = NutMaterial.Carbon, EngagementMm = 8 }, 1, 1)
                .BearableNm
        );

    [Fact]
    public void Joint_NothingSaid_LimitsNothing()
    {
        var result = JointReview.Of(Anchor with { Bolt = null }, 5, 7);
        Assert.Null(result.BearableNm);
        Assert.Empty(result.Warnings);
        Assert.True(result.LeastPreloadN < result.GreatestPreloadN);
    }

    [Theory]
    [InlineData(double.NaN, 5)]
    [InlineData(7, 5)]
    [InlineData(0, 5)]
    public void Joint_TorqueThatCannotBe_IsRefused(double least, double most) =>
        Assert.Throws<ArgumentException>(() => JointReview.Of(Anchor, least, most));
}
