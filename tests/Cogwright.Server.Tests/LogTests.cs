using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Cogwright.Log;

namespace Cogwright.Server.Tests;

public sealed class LogTests
{
    private const string Name = "Zacharias-Invented";
    private const string Secret = "zx9 planted secret of this test";
    private const string Pin = "73519";
    private const string Customer = "Wilhelmina-Planted";

    [Theory]
    [InlineData("TERM")]
    [InlineData("INT")]
    public async Task WholeSession_LeavesNoSecretAndNoNameInTheLog_AndStopsCleanly(string signal)
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-log-").FullName;
        await using var server = await ServerProcess.StartAsync(folder);
        using var browser = new HttpClient { BaseAddress = server.Address };
        browser.DefaultRequestHeaders.Add(Door.Header, "1");

        var planted = await LiveThroughADayAsync(browser);
        var (code, log, rest) = await server.StopAsync(signal);

        Assert.Equal(0, code);
        var lines = log.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.True(lines.Length > 15, log);
        Assert.All(
            lines,
            line =>
                Assert.Equal(JsonValueKind.Object, JsonDocument.Parse(line).RootElement.ValueKind)
        );
        Assert.All(
            planted,
            each => Assert.DoesNotContain(each, log + rest, StringComparison.OrdinalIgnoreCase)
        );
        Directory.Delete(folder, recursive: true);
    }

    private static async Task<List<string>> LiveThroughADayAsync(HttpClient browser)
    {
        var job = Bench.Job(1);
        var planted = new List<string> { Name, Secret, Pin, Customer, "zacharias" };
        var made = await browser.PostAsJsonAsync(
            "api/v1/owner",
            new NewOwner("zacharias", Name, Secret, Name)
        );
        planted.Add(made.Headers.GetValues("Set-Cookie").First().Split('=', ';')[1]);
        await browser.PostAsJsonAsync("api/v1/session", new LogIn("zacharias", Secret + " wrong"));
        await browser.PostAsJsonAsync("api/v1/session", new LogIn(Customer, Secret));
        await browser.PutAsJsonAsync("api/v1/session/pin", new NewOwnPin(Secret, Pin));
        await browser.PostAsync(
            "api/v1/session",
            new StringContent($"{{\"userName\":\"{Name}\",", Encoding.UTF8, "application/json")
        );
        await browser.PostAsJsonAsync(
            "api/v1/people",
            new NewPerson("zacharias", Name, Secret, Roles.Guest)
        );
        await browser.PostAsJsonAsync(
            "api/v1/people",
            new NewPerson(Customer + " <>", Name, Secret, Roles.Guest)
        );
        await JobTests.SendAsync(
            browser,
            job,
            new Bench(1, job).Write($"{{\"by\":\"{Customer}\"}}")
        );
        var datum = new PersonalDatum(
            RandomNumberGenerator.GetBytes(32),
            Encoding.UTF8.GetBytes(Customer)
        );
        using var put = new HttpRequestMessage(
            HttpMethod.Put,
            $"api/v1/jobs/{job}/personal/{datum.Digest}"
        );
        put.Content = new ByteArrayContent(datum.Data.ToArray());
        put.Headers.Add(PersonalRoutes.SaltHeader, Convert.ToHexString(datum.Salt.Span));
        (await browser.SendAsync(put)).EnsureSuccessStatusCode();
        planted.Add(Convert.ToHexString(datum.Salt.Span));
        var link = await (
            await browser.PostAsJsonAsync($"api/v1/jobs/{job}/links", new NewLink())
        ).Content.ReadFromJsonAsync<NewLinkAnswer>();
        (await browser.GetAsync(link!.Address)).EnsureSuccessStatusCode();
        planted.Add(link.Address.Split('/')[^1]);
        await browser.GetAsync($"api/v1/jobs?customer={Customer}");
        await browser.GetAsync($"{Customer}/{Secret}");
        using var odd = new HttpRequestMessage(new HttpMethod(Customer), "health");
        await browser.SendAsync(odd);
        using var foreign = new HttpRequestMessage(HttpMethod.Get, "health");
        foreign.Headers.Host = Customer;
        await browser.SendAsync(foreign);
        await browser.DeleteAsync($"api/v1/jobs/{job}/personal/{datum.Digest}");
        await browser.PostAsync("api/v1/backups", null);
        await browser.DeleteAsync("api/v1/session");
        return planted;
    }
}
