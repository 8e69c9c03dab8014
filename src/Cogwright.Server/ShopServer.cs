using System.Net;
using System.Text.Json.Serialization;
using Cogwright.Storage;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using Scalar.AspNetCore;

namespace Cogwright.Server;

/// <summary>A server that runs.</summary>
internal sealed class ShopServer : IAsyncDisposable
{
    private const int PortsTried = 10;
    private const int FewestPasswordCharacters = 12;

    private readonly WebApplication app;
    private readonly ShopStore store;
    private readonly ShopCertificate? certificate;
    private int isClosed;

    private ShopServer(WebApplication app, ShopStore store, ShopCertificate? certificate)
    {
        this.app = app;
        this.store = store;
        this.certificate = certificate;
    }

    /// <summary>Where a browser on this machine finds it.</summary>
    internal Uri Address { get; private set; } = null!;

    /// <summary>Where other devices find it; empty if they may not.</summary>
    internal IReadOnlyList<Uri> ShopAddresses { get; private set; } = [];

    /// <summary>What to compare before trusting it; null: other devices may not reach it.</summary>
    internal string? Fingerprint => certificate?.Fingerprint;

    internal ShopCertificate? Certificate => certificate;

    internal ShopStore Store => store;

    internal StatementKey Key => app.Services.GetRequiredService<StatementKey>();

    internal JobFolding Folding => app.Services.GetRequiredService<JobFolding>();

    internal IEnumerable<Endpoint> Endpoints =>
        app.Services.GetRequiredService<EndpointDataSource>().Endpoints;

    internal Task WaitForEndAsync() => app.WaitForShutdownAsync();

    /// <summary>Opens the store and begins to listen.</summary>
    /// <exception cref="StoreFaultException">The store cannot be opened.</exception>
    /// <exception cref="ServerFaultException">The server cannot start.</exception>
    internal static async Task<ShopServer> StartAsync(ServerOptions options)
    {
        var store = await ShopStore.OpenAsync(options.Store).ConfigureAwait(false);
        ShopCertificate? certificate = null;
        try
        {
            if (await store.PartsRevisionAsync().ConfigureAwait(false) == 0)
            {
                await store
                    .PutDemoPartsAsync(options.DemoParts(), onlyIfNew: true)
                    .ConfigureAwait(false);
            }
            certificate = options.IsOpenToShop ? ShopCertificate.Open(options) : null;
            return await ListenAsync(options, store, certificate).ConfigureAwait(false);
        }
        catch
        {
            certificate?.Dispose();
            await store.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <summary>
    /// Sets an account's password without being asked by anybody who is logged in: whoever has the data folder has everything
    /// in it anyway. Its sessions end; nothing is served meanwhile.
    /// </summary>
    /// <exception cref="ProblemException">There is no such account, or the password will not do.</exception>
    /// <exception cref="StoreFaultException">The store cannot be opened.</exception>
    internal static async Task SetPasswordAsync(
        ServerOptions options,
        string userName,
        string password
    )
    {
        await using var store = await ShopStore.OpenAsync(options.Store).ConfigureAwait(false);
        await using var app = await BuildAsync(options, store, null, 0).ConfigureAwait(false);
        await using var scope = app.Services.CreateAsyncScope();
        var people = scope.ServiceProvider.GetRequiredService<People>();
        var account = await people.FindAsync(userName).ConfigureAwait(false);
        await people.SetPasswordAsync(account, password).ConfigureAwait(false);
        await app
            .Services.GetRequiredService<Sessions>()
            .RevokeAsync(open => open.Where(each => each.AccountId == account.Id))
            .ConfigureAwait(false);
    }

    private static async Task<ShopServer> ListenAsync(
        ServerOptions options,
        ShopStore store,
        ShopCertificate? certificate
    )
    {
        int[] ports = options.Port is { } fixedPort
            ? [fixedPort]
            :
            [
                .. Enumerable
                    .Range(ServerOptions.UsualPort, PortsTried)
                    .Where(port => port != options.ShopPort),
            ];
        foreach (var port in ports)
        {
            var app = await BuildAsync(options, store, certificate, port).ConfigureAwait(false);
            try
            {
                await app.StartAsync().ConfigureAwait(false);
            }
            catch (IOException e)
            {
                await app.DisposeAsync().ConfigureAwait(false);
                if (port == ports[^1])
                {
                    throw new ServerFaultException(Texts.Get("start.noPort", e.Message), e);
                }
                continue;
            }
            var server = new ShopServer(app, store, certificate);
            server.FindAddresses();
            return server;
        }
        throw new ServerFaultException(Texts.Get("start.noPort", options.ShopPort));
    }

    private static async Task<WebApplication> BuildAsync(
        ServerOptions options,
        ShopStore store,
        ShopCertificate? certificate,
        int port
    )
    {
        // No files and no environment variables set this server up: only its options do.
        var builder = WebApplication.CreateEmptyBuilder(
            new WebApplicationOptions
            {
                ContentRootPath = AppContext.BaseDirectory,
                WebRootPath = WebClient.IsThere ? WebClient.Folder : null,
            }
        );
        builder.WebHost.UseKestrelCore().UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel => Configure(kestrel, options, certificate, port));
        builder.Logging.SetMinimumLevel(LogLevel.Information);
        // These quote paths, queries and statements.
        builder.Logging.AddFilter("Microsoft", LogLevel.None);
        builder.Logging.AddFilter("Microsoft.Hosting.Lifetime", LogLevel.Warning);
        builder.Logging.AddFilter("Npgsql", LogLevel.None);
        if (!options.IsSilent)
        {
            builder.Logging.AddJsonConsole(console => console.UseUtcTimestamp = true);
        }
        await AddServicesAsync(builder.Services, options, store, certificate).ConfigureAwait(false);

        var app = builder.Build();
        if (options.Pretend is { } pretend)
        {
            app.Use(
                (context, next) =>
                {
                    pretend(context);
                    return next(context);
                }
            );
        }
        app.UseMiddleware<SecurityHeaders>();
        app.UseMiddleware<RequestLog>();
        app.UseMiddleware<ProblemAnswers>();
        app.UseMiddleware<RateLimit>();
        app.UseMiddleware<Door>();
        app.UseRouting();
        app.UseMiddleware<Gate>();
        Map(app, options, certificate);
        var missing = Permissions.Missing(
            ((IEndpointRouteBuilder)app).DataSources.SelectMany(each => each.Endpoints)
        );
        return missing.Any()
            ? throw new ServerFaultException(
                Texts.Get("start.noPermission", string.Join(", ", missing))
            )
            : app;
    }

    private static void Configure(
        KestrelServerOptions kestrel,
        ServerOptions options,
        ShopCertificate? certificate,
        int port
    )
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = BodyLimit.Usual;
        kestrel.Limits.MaxConcurrentConnections = 2000;
        kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
        kestrel.Listen(IPAddress.Loopback, port);
        if (certificate is not null)
        {
            kestrel.ListenAnyIP(
                options.ShopPort,
                listen =>
                    listen.UseHttps(
                        new HttpsConnectionAdapterOptions
                        {
                            ServerCertificate = certificate.Own,
                            ServerCertificateChain = [.. certificate.Chain.Skip(1)],
                            SslProtocols =
                                System.Security.Authentication.SslProtocols.Tls12
                                | System.Security.Authentication.SslProtocols.Tls13,
                        }
                    )
            );
        }
    }

    private static async Task AddServicesAsync(
        IServiceCollection services,
        ServerOptions options,
        ShopStore store,
        ShopCertificate? certificate
    )
    {
        services.AddRoutingCore();
        services.AddSingleton(options);
        services.AddSingleton(options.Clock);
        services.AddSingleton(store);
        services.AddSingleton(await StatementKey.OpenAsync(store, options).ConfigureAwait(false));
        services.AddSingleton(
            await ServerSecrets.OpenAsync(store, options.Clock).ConfigureAwait(false)
        );
        services.AddSingleton(new HostNames(certificate?.Names ?? []));
        services.AddSingleton<Ownership>();
        services.AddSingleton<Throttles>();
        services.AddSingleton<Sessions>();
        services.AddSingleton<ChangeStream>();
        services.AddSingleton<PartShelf>();
        services.AddSingleton<RunningSearches>();
        services.AddSingleton<JobFolding>();
        services.AddHostedService(each => each.GetRequiredService<JobFolding>());
        services.AddScoped(_ => store.NewContext());
        services.AddScoped<People>();
        services
            .AddIdentityCore<Account>(identity =>
            {
                // Length is what counts; rules about signs make people write passwords down.
                identity.Password.RequiredLength = FewestPasswordCharacters;
                identity.Password.RequiredUniqueChars = 4;
                identity.Password.RequireDigit = false;
                identity.Password.RequireLowercase = false;
                identity.Password.RequireUppercase = false;
                identity.Password.RequireNonAlphanumeric = false;
            })
            .AddRoles<IdentityRole<Guid>>()
            .AddEntityFrameworkStores<StoreContext>();
        services.AddOpenApi(
            "v1",
            openApi =>
                openApi
                    .AddDocumentTransformer(
                        (document, _, _) =>
                        {
                            document.Info.Title = Texts.Get("api.title");
                            document.Info.Description = Texts.Get("api.description", Door.Header);
                            // Its own address and no other.
                            document.Servers = [];
                            return Task.CompletedTask;
                        }
                    )
                    .AddOperationTransformer(OpenApiWords.CompleteAsync)
        );
        services.Configure<RouteHandlerOptions>(route => route.ThrowOnBadRequest = true);
        services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
            json.SerializerOptions.AllowDuplicateProperties = false;
            json.SerializerOptions.RespectNullableAnnotations = true;
            json.SerializerOptions.RespectRequiredConstructorParameters = true;
            json.SerializerOptions.NumberHandling = JsonNumberHandling.Strict;
        });
        services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(10));
    }

    private static void Map(WebApplication app, ServerOptions options, ShopCertificate? certificate)
    {
        app.MapOpenApi();
        app.MapScalarApiReference(
            "/api",
            (scalar, context) =>
                scalar
                    .WithTitle(Texts.Get("api.title"))
                    .WithNonce(SecurityHeaders.NonceOf(context))
                    .DisableDefaultFonts()
                    .DisableTelemetry()
                    .DisableAgent()
                    .DisableMcp()
                    .HideDeveloperTools()
                    .HideClientButton()
        );
        app.MapPages(certificate);
        app.MapWebClient();
        app.MapRecord();
        var api = app.MapGroup("/api/v1");
        api.MapSessions();
        api.MapPeople();
        api.MapJobs();
        api.MapRecords();
        api.MapPersonal(options.Store);
        api.MapLinks();
        api.MapShop();
        api.MapParts();
        api.MapOptions();
        api.MapOverview();
    }

    private void FindAddresses()
    {
        var listening = app
            .Services.GetRequiredService<IServer>()
            .Features.Get<IServerAddressesFeature>()!
            .Addresses.Select(each => new Uri(
                each.Replace("[::]", "any", StringComparison.Ordinal)
            ))
            .ToList();
        var here = listening.First(each => each.Scheme == Uri.UriSchemeHttp);
        Address = new Uri($"http://localhost:{here.Port}/");
        var shop = listening.FirstOrDefault(each => each.Scheme == Uri.UriSchemeHttps);
        ShopAddresses =
            shop is null || certificate is null
                ? []
                :
                [
                    .. certificate.Names.Select(name =>
                        new UriBuilder(Uri.UriSchemeHttps, name, shop.Port).Uri
                    ),
                ];
    }

    /// <summary>Ends open requests, writes what is in the queue, and closes.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref isClosed, 1) != 0)
        {
            return;
        }
        await app.StopAsync().ConfigureAwait(false);
        await app.DisposeAsync().ConfigureAwait(false);
        await store.DisposeAsync().ConfigureAwait(false);
        certificate?.Dispose();
    }
}
