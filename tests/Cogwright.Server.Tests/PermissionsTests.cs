using System.Net.Http.Headers;

namespace Cogwright.Server.Tests;

public sealed class PermissionsTests
{
    [Fact]
    public async Task Table_HoldsTheServersRoutes_AllAndNoOthers()
    {
        await using var running = await Running.StartAsync();

        Assert.Equal(
            Permissions.Table.Keys.Order(StringComparer.Ordinal),
            Permissions.RoutesOf(running.Server.Endpoints).Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public void Route_OutsideTheTable_IsNobodys() =>
        Assert.Equal(Who.None, Permissions.Of("POST", "/api/v1/forgotten"));

    [Theory]
    [InlineData("/api/v1/jobs/{job:guid}/entries", "/api/v1/jobs/{job}/entries")]
    [InlineData("/api/{documentName?}", "/api/{documentName}")]
    [InlineData("/openapi/{documentName}.json", "/openapi/{documentName}.json")]
    [InlineData("api/", "/api")]
    [InlineData("/", "/")]
    public void Route_AsMapped_IsWrittenAsInTheTable(string mapped, string written) =>
        Assert.Equal(written, Permissions.Canonical(mapped));

    [Fact]
    public async Task EveryRoute_ForEveryRole_AnswersAsTheTableSays()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        var wrong = new List<string>();
        foreach (var (who, browser) in await EverybodyAsync(running, owner))
        {
            // What ends the person's stay and then the session goes last.
            string[] last = ["DELETE /api/v1/session/person", "DELETE /api/v1/session"];
            foreach (
                var (route, allowed) in Permissions.Table.OrderBy(each =>
                    Array.IndexOf(last, each.Key)
                )
            )
            {
                var code = await AnswerAsync(browser, route);
                var expected =
                    (allowed & who.Rights) != 0 ? ""
                    : who.Rights == Who.Anonymous ? "not-logged-in"
                    : "not-allowed";
                if (code != expected)
                {
                    wrong.Add($"{who.Name}: {route}: \"{code}\" instead of \"{expected}\"");
                }
            }
        }

        Assert.Empty(wrong);
    }

    private static async Task<
        List<((string Name, Who Rights) Who, HttpClient Browser)>
    > EverybodyAsync(Running running, HttpClient owner)
    {
        var everybody = new List<((string, Who), HttpClient)>
        {
            (("anonymous", Who.Anonymous), running.NewBrowser()),
        };
        foreach (var role in Roles.All.Where(role => role != Roles.Owner))
        {
            await Running.MakePersonAsync(owner, role, role);
            everybody.Add(((role, Roles.Of(role)), await running.LogInAsync(role)));
        }
        // At a tablet: nobody, and then the owner by PIN, who is a mechanic there.
        var ownerId = (await Running.SessionOfAsync(owner)).Account!.Value;
        await Running.SetPinAsync(owner);
        everybody.Add(
            (("trusted device", Who.Guest), await running.LogInAsync("ines", trustDevice: true))
        );
        var tablet = await running.LogInAsync("ines", trustDevice: true);
        (await SessionTests.ByPinAsync(tablet, ownerId)).EnsureSuccessStatusCode();
        everybody.Add((("owner by PIN", Who.Mechanic), tablet));
        everybody.Add((("owner", Who.Owner), owner));
        return everybody;
    }

    /// <summary>The code with which the table refused; empty if it let the request through, whatever came of it then.</summary>
    private static async Task<string> AnswerAsync(HttpClient browser, string route)
    {
        var parts = route.Split(' ');
        var path = parts[1]
            .Replace("{documentName}.json", "v1.json", StringComparison.Ordinal)
            .Replace("{documentName}", "", StringComparison.Ordinal)
            .Replace("{digest}", new string('0', 64), StringComparison.Ordinal)
            .Replace("{token}", "none", StringComparison.Ordinal)
            .Replace("{job}", Guid.Empty.ToString(), StringComparison.Ordinal)
            .Replace("{id}", Guid.Empty.ToString(), StringComparison.Ordinal);
        using var request = new HttpRequestMessage(new HttpMethod(parts[0]), path);
        if (parts[0] is not ("GET" or "DELETE"))
        {
            request.Content = new StringContent("{}", new MediaTypeHeaderValue("application/json"));
        }
        // Streams do not end: their head is enough.
        using var response = await browser.SendAsync(
            request,
            HttpCompletionOption.ResponseHeadersRead
        );
        if ((int)response.StatusCode is not (401 or 403))
        {
            return "";
        }
        return await Running.ProblemOfAsync(response);
    }
}
