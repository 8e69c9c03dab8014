using System.Net;
using System.Net.Http.Json;

namespace Cogwright.Server.Tests;

public sealed class DoorTests
{
    private const string Elsewhere = "192.0.2.9";

    [Theory]
    [InlineData("localhost")]
    [InlineData("127.0.0.1")]
    [InlineData("[::1]")]
    [InlineData("LocalHost")]
    public async Task FreshInstall_OnThisMachine_WorksWithoutLogIn(string host)
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        browser.DefaultRequestHeaders.Host = $"{host}:{running.Server.Address.Port}";

        Assert.Equal("owner", (await Running.SessionOfAsync(browser)).Role);
    }

    [Theory]
    [InlineData("shop.example")]
    [InlineData("localhost.example")]
    [InlineData("127.0.0.1.example")]
    [InlineData("192.0.2.1")]
    public async Task Host_ThatWasRebound_IsRefused(string host)
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        browser.DefaultRequestHeaders.Host = $"{host}:{running.Server.Address.Port}";

        var response = await browser.GetAsync("api/v1/jobs");

        Assert.Equal(HttpStatusCode.Forbidden, response.StatusCode);
        Assert.Equal("unknown-host", await Running.ProblemOfAsync(response));
    }

    [Theory]
    [InlineData("Origin", "https://elsewhere.example")]
    [InlineData("Origin", "null")]
    [InlineData("Origin", "http://localhost:1")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    public async Task Post_FromAnotherSite_IsRefused(string header, string value)
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        browser.DefaultRequestHeaders.Add(header, value);

        var response = await browser.PostAsJsonAsync(
            "api/v1/owner",
            new NewOwner("eve", "Eve", Running.Password)
        );

        Assert.Equal(HttpStatusCode.Forbidden, response.StatusCode);
        Assert.Equal("cross-origin", await Running.ProblemOfAsync(response));
    }

    [Fact]
    public async Task Post_FromItsOwnPage_IsTakenIn()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        browser.DefaultRequestHeaders.Add(
            "Origin",
            $"http://localhost:{running.Server.Address.Port}"
        );
        browser.DefaultRequestHeaders.Add("Sec-Fetch-Site", "same-origin");

        var response = await browser.PostAsJsonAsync(
            "api/v1/owner",
            new NewOwner("ines", "Ines", Running.Password)
        );

        Assert.Equal(HttpStatusCode.Created, response.StatusCode);
    }

    [Fact]
    public async Task Post_WithoutTheHeader_IsRefused()
    {
        await using var running = await Running.StartAsync();

        var response = await running
            .NewBrowser(sendsHeader: false)
            .PostAsync("api/v1/checks", null);

        Assert.Equal("missing-header", await Running.ProblemOfAsync(response));
    }

    [Fact]
    public async Task AnotherMachine_OverHttp_IsRefused()
    {
        await using var running = await Running.StartAsync();
        await running.NewOwnerAsync();
        var browser = running.NewBrowser();
        browser.DefaultRequestHeaders.Add(Running.FromHeader, Elsewhere);

        var response = await browser.GetAsync("health");

        Assert.Equal("not-encrypted", await Running.ProblemOfAsync(response));
    }

    [Fact]
    public async Task AnotherMachine_BeforeThereIsAnOwner_IsRefused_AndAfterwardsHasToLogIn()
    {
        await using var running = await Running.StartAsync(options =>
            options with
            {
                IsOpenToShop = true,
                ShopNames = ["shop.example"],
            }
        );
        var browser = running.NewBrowser();
        browser.DefaultRequestHeaders.Add(Running.FromHeader, Elsewhere);
        browser.DefaultRequestHeaders.Add(Running.HttpsHeader, "1");
        browser.DefaultRequestHeaders.Host = "shop.example";

        Assert.Equal("no-owner", await Running.ProblemOfAsync(await browser.GetAsync("health")));
        Assert.Equal(
            "no-owner",
            await Running.ProblemOfAsync(
                await browser.PostAsJsonAsync(
                    "api/v1/owner",
                    new NewOwner("eve", "Eve", Running.Password)
                )
            )
        );

        await running.NewOwnerAsync();

        Assert.Equal(
            "not-logged-in",
            await Running.ProblemOfAsync(await browser.GetAsync("api/v1/jobs"))
        );
        var answer = await browser.PostAsJsonAsync(
            "api/v1/session",
            new LogIn("ines", Running.Password)
        );
        var cookie = Assert.Single(
            answer.Headers.GetValues("Set-Cookie"),
            each => each.Contains("session", StringComparison.Ordinal)
        );
        Assert.StartsWith("__Host-cogwright-session=", cookie, StringComparison.Ordinal);
        Assert.Contains("secure", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(
            "max-age=31536000",
            Assert.Single(answer.Headers.GetValues("Strict-Transport-Security"))
        );
    }

    [Fact]
    public async Task Proxy_BeforeAServerWithoutOwner_IsRefused()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        browser.DefaultRequestHeaders.Add("X-Forwarded-For", Elsewhere);

        Assert.Equal(
            "proxied",
            await Running.ProblemOfAsync(await browser.GetAsync("api/v1/jobs"))
        );
    }

    [Fact]
    public async Task ThisMachine_OnceThereIsAnOwner_HasToLogIn()
    {
        await using var running = await Running.StartAsync();
        await running.NewOwnerAsync();
        var other = running.NewBrowser();

        Assert.Equal(
            "not-logged-in",
            await Running.ProblemOfAsync(await other.GetAsync("api/v1/jobs"))
        );
        Assert.Equal(
            "not-logged-in",
            await Running.ProblemOfAsync(
                await other.PostAsJsonAsync(
                    "api/v1/owner",
                    new NewOwner("eve", "Eve", Running.Password)
                )
            )
        );
    }

    [Fact]
    public async Task Owner_MadeByManyAtOnce_IsOne()
    {
        await using var running = await Running.StartAsync();

        var answers = await Task.WhenAll(
            Enumerable
                .Range(1, 6)
                .Select(each =>
                    running
                        .NewBrowser()
                        .PostAsJsonAsync(
                            "api/v1/owner",
                            new NewOwner($"person{each}", "One", Running.Password)
                        )
                )
        );

        Assert.Single(answers, each => each.StatusCode == HttpStatusCode.Created);
        await using var data = running.Server.Store.NewContext();
        Assert.Single(data.Users);
    }

    [Theory]
    [InlineData("")]
    [InlineData("api/")]
    [InlineData("api/v1/session")]
    [InlineData("nowhere")]
    public async Task EveryAnswer_CarriesTheSecurityHeaders(string path)
    {
        await using var running = await Running.StartAsync();

        var headers = (await running.NewBrowser().GetAsync(path)).Headers;

        Assert.Contains(
            "default-src 'none'",
            headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "frame-ancestors 'none'",
            headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
        Assert.Equal("nosniff", headers.GetValues("X-Content-Type-Options").Single());
        Assert.Equal("no-referrer", headers.GetValues("Referrer-Policy").Single());
        Assert.False(headers.Contains("Server"));
        Assert.False(headers.Contains("Access-Control-Allow-Origin"));
    }

    [Fact]
    public async Task ApiPage_TakesNothingFromOutside()
    {
        await using var running = await Running.StartAsync();

        var page = await running.NewBrowser().GetStringAsync("api/");

        Assert.Contains("<script", page, StringComparison.Ordinal);
        Assert.DoesNotContain("src=\"http", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("src=\"//", page, StringComparison.Ordinal);
        Assert.DoesNotContain("cdn", page, StringComparison.OrdinalIgnoreCase);
    }
}
