using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Cogwright.Storage;

namespace Cogwright.Server.Tests;

/// <summary>A server on loopback, in a folder of its own, gone after the test.</summary>
internal sealed class Running : IAsyncDisposable
{
    internal const string Password = "an invented long one";
    internal const string Pin = "2580";

    /// <summary>Makes a request come from another machine.</summary>
    internal const string FromHeader = "Test-From";

    /// <summary>Makes a request count as encrypted.</summary>
    internal const string HttpsHeader = "Test-Https";

    private readonly List<HttpClient> clients = [];

    private Running(ServerOptions options, FakeClock clock)
    {
        Options = options;
        Clock = clock;
    }

    internal ServerOptions Options { get; }

    internal FakeClock Clock { get; }

    internal ShopServer Server { get; private set; } = null!;

    internal static async Task<Running> StartAsync(
        Func<ServerOptions, ServerOptions>? set = null,
        string? postgres = null
    )
    {
        var clock = new FakeClock();
        var folder = Directory.CreateTempSubdirectory("cogwright-server-").FullName;
        var options = new ServerOptions(
            new StoreOptions(folder) { Clock = clock, ConnectionString = postgres }
        )
        {
            Port = 0,
            ShopPort = 0,
            IsSilent = true,
            RequestsPerMinute = 600_000,
            Pretend = context =>
            {
                if (context.Request.Headers.TryGetValue(FromHeader, out var from))
                {
                    context.Connection.RemoteIpAddress = IPAddress.Parse(from.ToString());
                    context.Connection.LocalIpAddress = IPAddress.Parse("192.0.2.1");
                }
                if (context.Request.Headers.ContainsKey(HttpsHeader))
                {
                    context.Request.IsHttps = true;
                }
            },
        };
        var running = new Running(set is null ? options : set(options), clock);
        running.Server = await ShopServer.StartAsync(running.Options);
        return running;
    }

    /// <summary>Starts the server anew on the same data, after it was disposed of.</summary>
    internal async Task StartAgainAsync() => Server = await ShopServer.StartAsync(Options);

    /// <summary>A browser: it keeps cookies and sends the header that the door asks for.</summary>
    internal HttpClient NewBrowser(bool sendsHeader = true)
    {
        var client = new HttpClient(
            new SocketsHttpHandler
            {
                CookieContainer = new CookieContainer(),
                AllowAutoRedirect = false,
            }
        )
        {
            BaseAddress = Server.Address,
        };
        if (sendsHeader)
        {
            client.DefaultRequestHeaders.Add(Door.Header, "1");
        }
        clients.Add(client);
        return client;
    }

    /// <summary>A browser whose person has just become the owner.</summary>
    internal async Task<HttpClient> NewOwnerAsync()
    {
        var browser = NewBrowser();
        var made = await browser.PostAsJsonAsync(
            "api/v1/owner",
            new NewOwner("ines", "Ines Invented", Password)
        );
        Assert.Equal(HttpStatusCode.Created, made.StatusCode);
        return browser;
    }

    /// <summary>Has the owner make an account.</summary>
    internal static async Task<Guid> MakePersonAsync(HttpClient owner, string name, string role)
    {
        var made = await owner.PostAsJsonAsync(
            "api/v1/people",
            new NewPerson(name, $"{name} Invented", Password, role)
        );
        Assert.Equal(HttpStatusCode.Created, made.StatusCode);
        return (await made.Content.ReadFromJsonAsync<MadeAnswer>())!.Id;
    }

    /// <summary>A browser that logs in.</summary>
    internal async Task<HttpClient> LogInAsync(string name, bool trustDevice = false)
    {
        var browser = NewBrowser();
        var answer = await browser.PostAsJsonAsync(
            "api/v1/session",
            new LogIn(name, Password, trustDevice)
        );
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return browser;
    }

    /// <summary>Sets one's own PIN.</summary>
    internal static async Task SetPinAsync(HttpClient person, string? pin = Pin) =>
        Assert.Equal(
            HttpStatusCode.NoContent,
            (
                await person.PutAsJsonAsync("api/v1/session/pin", new NewOwnPin(Password, pin))
            ).StatusCode
        );

    internal static async Task<SessionAnswer> SessionOfAsync(HttpClient browser) =>
        (await browser.GetFromJsonAsync<SessionAnswer>("api/v1/session"))!;

    /// <summary>The code of a problem, after a look at its shape (RFC 9457 and what is added here).</summary>
    internal static async Task<string> ProblemOfAsync(HttpResponseMessage response)
    {
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        var problem = await response.Content.ReadFromJsonAsync<JsonElement>();
        var code = problem.GetProperty("code").GetString()!;
        Assert.Equal((int)response.StatusCode, problem.GetProperty("status").GetInt32());
        Assert.Equal("urn:cogwright:problem:" + code, problem.GetProperty("type").GetString());
        Assert.False(string.IsNullOrWhiteSpace(problem.GetProperty("title").GetString()));
        Assert.False(string.IsNullOrWhiteSpace(problem.GetProperty("detail").GetString()));
        Assert.False(string.IsNullOrWhiteSpace(problem.GetProperty("next").GetString()));
        return code;
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var client in clients)
        {
            client.Dispose();
        }
        await Server.DisposeAsync();
        Directory.Delete(Options.Store.DataFolder, recursive: true);
    }
}
