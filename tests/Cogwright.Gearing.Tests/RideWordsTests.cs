namespace Cogwright.Gearing.Tests;

/// <summary>A ride told: the same sentences and figures wherever, each figure with its difference from now.</summary>
public class RideWordsTests
{
    private static readonly GearSet Now = new("now", [34, 50], [11, 13, 15, 17, 19, 21, 24, 28]);
    private static readonly GearSet Lower = new(
        "lower",
        [30, 46],
        [11, 13, 15, 17, 20, 24, 28, 34]
    );

    private static readonly Route Road = Route.OfProfile(
        "hill",
        [new(3000, 0.01), new(2000, 0.09)]
    );

    private static readonly RideResult Ride = RideStudy.Of(
        new()
        {
            Route = Road,
            Rider = new()
            {
                Load = new()
                {
                    MassKg = 85,
                    DragAreaM2 = 0.4,
                    RollingCoefficient = 0.0045,
                },
                Power = PowerPlan.Steady(180),
            },
            Tyre = Tyre.OfRollOut(2105),
            Present = Now,
            Candidates = [new("lower", Lower)],
        },
        null,
        TestContext.Current.CancellationToken
    );

    [Fact]
    public void Figures_OfOtherGears_LessTheirChange_AreThoseOfNow()
    {
        var now = RideFigure.Of(Ride.Present);
        var other = RideFigure.Of(Ride.Candidates[0]);

        Assert.Equal(now.Select(figure => figure.Title), other.Select(figure => figure.Title));
        Assert.All(now, figure => Assert.Null(figure.Change));
        Assert.All(
            now.Zip(other),
            pair =>
                Assert.Equal(
                    pair.First.Value!.Value,
                    (pair.Second.Value - pair.Second.Change)!.Value,
                    1e-9
                )
        );
        // 30/34 gives a cadence higher by (34/28)/(30/34) at the same speed.
        Assert.Equal(now[3].Value!.Value * 34 / 28 / (30 / 34.0), other[3].Value!.Value, 1e-9);
    }

    [Fact]
    public void Suits_OfLowerGearsOnASteepRoad_SaysBetter() =>
        Assert.Equal("✓ better", RideWords.Suits(Ride.Candidates[0]));

    [Fact]
    public void Road_Typed_HasNoElevationToSmooth()
    {
        Assert.Equal("5.00 km, 209 m up, 0 m down.", Assert.Single(RideWords.Road(Ride, Road)));
        Assert.StartsWith(
            "Steepest minute: 9.0 %",
            RideWords.Steepest(Ride),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(59.6, "0:01:00")]
    [InlineData(3725, "1:02:05")]
    [InlineData(360_000, "100:00:00")]
    public void Clock_Seconds_AreHoursMinutesSeconds(double seconds, string expected) =>
        Assert.Equal(expected, RideWords.Clock(seconds));
}
