using Cogwright.Measurement;
using static Cogwright.Care.Tests.ElongationTests;

namespace Cogwright.Care.Tests;

public sealed class WearJudgementTests
{
    [Theory]
    [InlineData(305.3, 0.5, Verdict.Within)]
    [InlineData(306.3, 0.5, Verdict.TooCloseToCall)]
    [InlineData(307.0, 0.5, Verdict.Outside)]
    [InlineData(307.0, 0.75, Verdict.TooCloseToCall)]
    public void Ruler_AgainstLimit_KnowsItsGauge(double mm, double limit, Verdict expected) =>
        Assert.Equal(expected, WearJudgement.Of(Ruler(24, mm), limit).Verdict);

    [Theory]
    [InlineData(null, 0.5, 0.5, Verdict.Within)]
    [InlineData(0.5, 0.75, 0.5, Verdict.TooCloseToCall)]
    [InlineData(0.5, 0.75, 0.75, Verdict.TooCloseToCall)]
    [InlineData(0.5, 0.75, 1.0, Verdict.Within)]
    [InlineData(1.0, null, 0.75, Verdict.Outside)]
    [InlineData(1.0, null, 1.0, Verdict.TooCloseToCall)]
    [InlineData(0.75, 1.0, 0.5, Verdict.Outside)]
    public void Class_AgainstLimit_IsCalledOnlyWhenProven(
        double? goes,
        double? stops,
        double limit,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            WearJudgement.Of(Class(WearWay.ThreePointClass, 8, goes, stops), limit).Verdict
        );

    /// <summary>
    /// The same class is "outside" by a gauge that is free of play and not proven by one that is not: two-point gauges over-report.
    /// </summary>
    [Fact]
    public void Class_TwoPoint_DoesNotCondemnWhatOnlyItsPlayWouldExplain()
    {
        var free = Class(WearWay.ThreePointClass, 12, 0.75, 1.0);
        var playful = Class(WearWay.TwoPointClass, 12, 0.75, 1.0);

        Assert.Equal(Verdict.Outside, WearJudgement.Of(free, 0.65).Verdict);
        Assert.Equal(Verdict.TooCloseToCall, WearJudgement.Of(playful, 0.65).Verdict);
    }

    /// <summary>The closed form of a class with blurred edges against drawing them.</summary>
    [Theory]
    [InlineData(0.5, 0.06)]
    [InlineData(0.6, 0.06)]
    [InlineData(0.8, 0.06)]
    [InlineData(0.55, 0.0)]
    public void Class_Probability_AgreesWithDrawing(double limit, double u)
    {
        var random = new Random(7);
        const int Draws = 200_000;
        var inside = 0;
        for (var i = 0; i < Draws; i++)
        {
            var gauss =
                Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()))
                * Math.Cos(2 * Math.PI * random.NextDouble());
            inside += 0.5 + 0.25 * random.NextDouble() + u * gauss <= limit ? 1 : 0;
        }

        var judged = WearJudgement.Of(Elongation.Between(0.5, 0.75, u), limit);

        // Four standard deviations of so many draws.
        Assert.Equal((double)inside / Draws, judged.ConformanceProbability!.Value, 0.0045);
    }

    [Fact]
    public void Spots_OneFarBeyond_IsEnough()
    {
        var judged = WearJudgement.Of(Ruler(24, 305.2, 305.2, 305.2, 307.9), 0.75);

        Assert.Equal(Verdict.Outside, judged.Verdict);
        Assert.True(judged.BySpot);
    }

    [Fact]
    public void Spots_AllJustBelow_AreNotCondemnedByChance()
    {
        var judged = WearJudgement.Of(Ruler(24, 306.2, 306.4, 306.3, 306.5), 0.5);

        Assert.NotEqual(Verdict.Outside, judged.Verdict);
        Assert.False(judged.BySpot);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(5.0)]
    [InlineData(double.NaN)]
    public void Limit_OutOfRange_IsRefused(double limit) =>
        Assert.Throws<ArgumentException>(() => WearJudgement.Of(Ruler(24, 306), limit));

    /// <summary>Common practice by number of cogs; for 10 its sources disagree and that is told.</summary>
    [Theory]
    [InlineData(7, 0.75)]
    [InlineData(8, 0.75)]
    [InlineData(9, 0.75)]
    [InlineData(10, 0.5)]
    [InlineData(11, 0.5)]
    [InlineData(12, 0.5)]
    [InlineData(13, 0.5)]
    public void Limits_CommonPractice_ByCogs(int cogs, double percent)
    {
        var limit = WearLimits.CommonPractice.For(cogs);

        Assert.Equal(percent, limit.Percent);
        Assert.Contains("common practice", limit.From, StringComparison.Ordinal);
        Assert.Equal(cogs == 10, limit.From.Contains("does not agree", StringComparison.Ordinal));
    }

    [Fact]
    public void Limits_OfTheShop_Win()
    {
        var limits = new WearLimits { Own = WearLimits.CommonPractice.Own.Add(10, 0.75) };

        Assert.Equal(0.75, limits.For(10).Percent);
        Assert.Contains("own limit", limits.For(10).From, StringComparison.Ordinal);
        Assert.Equal(0.5, limits.For(11).Percent);
        Assert.Equal(0.5, limits.For(null).Percent);
        Assert.NotNull(WearLimits.Problem(10, 7.5));
        Assert.NotNull(WearLimits.Problem(40, 0.5));
        Assert.Null(WearLimits.Problem(10, 0.5));
    }
}
