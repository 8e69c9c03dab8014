using System.Net;
using System.Net.Http.Json;

namespace Cogwright.Server.Tests;

public sealed class ThrottleTests
{
    [Fact]
    public void Throttle_WrongAgainAndAgain_WaitsTwiceAsLongEachTime()
    {
        var clock = new FakeClock();
        var throttle = new Throttle(clock, free: 3);
        for (var i = 0; i < 3; i++)
        {
            Assert.Null(throttle.Begin("a"));
        }

        foreach (var seconds in new[] { 15, 30, 60, 120, 240, 480, 900, 900 })
        {
            Assert.Equal(TimeSpan.FromSeconds(seconds), throttle.Begin("a"));
            clock.Advance(TimeSpan.FromSeconds(seconds) - TimeSpan.FromTicks(1));
            Assert.Equal(TimeSpan.FromTicks(1), throttle.Begin("a"));
            clock.Advance(TimeSpan.FromTicks(1));
            Assert.Null(throttle.Begin("a"));
        }
        Assert.Null(throttle.Begin("b"));
    }

    [Fact]
    public void Throttle_AfterARightTry_OrALongTime_BeginsAnew()
    {
        var clock = new FakeClock();
        var throttle = new Throttle(clock, free: 1);
        Assert.Null(throttle.Begin("a"));
        Assert.NotNull(throttle.Begin("a"));

        throttle.Forgive("a");
        Assert.Null(throttle.Begin("a"));
        Assert.NotNull(throttle.Begin("a"));

        clock.Advance(Throttle.Forgotten);
        Assert.Null(throttle.Begin("a"));
    }

    [Fact]
    public async Task LogIn_WrongManyTimes_WaitsEvenWithTheRightPassword_AndThenWorks()
    {
        await using var running = await Running.StartAsync();
        await running.NewOwnerAsync();
        var browser = running.NewBrowser();
        for (var i = 0; i < 5; i++)
        {
            var wrong = await browser.PostAsJsonAsync(
                "api/v1/session",
                new LogIn("ines", "a guess that is wrong")
            );
            Assert.Equal("wrong-log-in", await Running.ProblemOfAsync(wrong));
        }

        var slowed = await browser.PostAsJsonAsync(
            "api/v1/session",
            new LogIn("ines", Running.Password)
        );
        Assert.Equal(HttpStatusCode.TooManyRequests, slowed.StatusCode);
        Assert.Equal("throttled", await Running.ProblemOfAsync(slowed));
        Assert.Equal(15, slowed.Headers.RetryAfter?.Delta?.TotalSeconds);

        running.Clock.Advance(TimeSpan.FromSeconds(15));
        var right = await browser.PostAsJsonAsync(
            "api/v1/session",
            new LogIn("INES", Running.Password)
        );
        Assert.Equal(HttpStatusCode.OK, right.StatusCode);
    }

    [Fact]
    public async Task LogIn_OfNobody_IsAnsweredAndSlowedAsThatOfSomebody()
    {
        await using var running = await Running.StartAsync();
        await running.NewOwnerAsync();
        var bodies = new List<string>[] { [], [] };
        foreach (var (name, told) in new[] { ("ines", bodies[0]), ("nobody", bodies[1]) })
        {
            for (var i = 0; i < 7; i++)
            {
                var answer = await running
                    .NewBrowser()
                    .PostAsJsonAsync("api/v1/session", new LogIn(name, "a guess that is wrong"));
                told.Add(await answer.Content.ReadAsStringAsync());
            }
        }

        Assert.Equal(bodies[0], bodies[1]);
    }

    [Fact]
    public async Task Pin_WrongManyTimes_Waits()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var id = (await Running.SessionOfAsync(owner)).Account!.Value;
        await Running.SetPinAsync(owner);
        var tablet = await running.LogInAsync("ines", trustDevice: true);
        for (var i = 0; i < 5; i++)
        {
            Assert.Equal(
                "wrong-pin",
                await Running.ProblemOfAsync(await SessionTests.ByPinAsync(tablet, id, "0000"))
            );
        }

        Assert.Equal(
            "throttled",
            await Running.ProblemOfAsync(await SessionTests.ByPinAsync(tablet, id))
        );
        running.Clock.Advance(TimeSpan.FromSeconds(15));
        Assert.Equal(HttpStatusCode.OK, (await SessionTests.ByPinAsync(tablet, id)).StatusCode);
    }

    [Fact]
    public async Task Requests_OverTheLimit_WaitAndGoOn()
    {
        await using var running = await Running.StartAsync(options =>
            options with
            {
                RequestsPerMinute = 60,
            }
        );
        var browser = running.NewBrowser();
        for (var i = 0; i < 10; i++)
        {
            Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("health")).StatusCode);
        }

        var over = await browser.GetAsync("health");
        Assert.Equal("too-many", await Running.ProblemOfAsync(over));
        Assert.Equal(1, over.Headers.RetryAfter?.Delta?.TotalSeconds);

        running.Clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("health")).StatusCode);
        Assert.Equal(HttpStatusCode.TooManyRequests, (await browser.GetAsync("health")).StatusCode);
    }
}
