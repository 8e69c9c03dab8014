using System.Net;
using System.Net.Http.Json;
using System.Text.Json;

namespace Cogwright.Server.Tests;

public sealed class LostPasswordTests
{
    private const string Another = "another invented one";

    [Fact]
    public async Task SetPassword_OfAnOwnerWhoLostIt_OpensTheDoorAndEndsTheSessions()
    {
        await using var running = await Running.StartAsync();
        await running.NewOwnerAsync();
        await running.Server.DisposeAsync();

        await ShopServer.SetPasswordAsync(running.Options, "ines", Another);

        await running.StartAgainAsync();
        using var owner = running.NewBrowser();
        var old = new LogIn("ines", Running.Password, false);
        Assert.Equal(
            HttpStatusCode.Unauthorized,
            (await owner.PostAsJsonAsync("api/v1/session", old)).StatusCode
        );
        var answer = await owner.PostAsJsonAsync("api/v1/session", old with { Password = Another });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        var sessions = await owner.GetFromJsonAsync<JsonElement>("api/v1/sessions");
        Assert.Equal(1, sessions.GetArrayLength());
    }

    [Fact]
    public async Task SetPassword_OfNobody_SaysSo()
    {
        await using var running = await Running.StartAsync();
        await running.Server.DisposeAsync();

        var told = await Assert.ThrowsAsync<ProblemException>(() =>
            ShopServer.SetPasswordAsync(running.Options, "nobody", Running.Password)
        );

        Assert.Equal(Problem.NotFound, told.Problem);
    }

    [Fact]
    public async Task OpenApi_EveryOperation_TellsHowItFailsAndWhatADatumIs()
    {
        await using var running = await Running.StartAsync();
        using var client = running.NewBrowser();

        var document = await client.GetFromJsonAsync<JsonElement>("/openapi/v1.json");

        var operations = document
            .GetProperty("paths")
            .EnumerateObject()
            .SelectMany(path => path.Value.EnumerateObject())
            .ToList();
        Assert.NotEmpty(operations);
        Assert.All(
            operations,
            operation =>
                Assert.True(
                    operation
                        .Value.GetProperty("responses")
                        .GetProperty("default")
                        .GetProperty("content")
                        .TryGetProperty("application/problem+json", out _)
                )
        );
        var put = document
            .GetProperty("paths")
            .GetProperty("/api/v1/jobs/{job}/personal/{digest}")
            .GetProperty("put");
        Assert.True(
            put.GetProperty("requestBody")
                .GetProperty("content")
                .TryGetProperty("application/octet-stream", out _)
        );
    }
}
