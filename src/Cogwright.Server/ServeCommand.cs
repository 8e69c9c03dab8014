using Cogwright.Storage;
using Spectre.Console.Cli;

namespace Cogwright.Server;

/// <summary>Runs the server until it is told to stop.</summary>
internal sealed class ServeCommand : AsyncCommand<ServeSettings>
{
    private const int CannotStart = 2;

    public override async Task<int> ExecuteAsync(
        CommandContext context,
        ServeSettings settings,
        CancellationToken cancellationToken
    )
    {
        try
        {
            if (settings.NewPasswordFor is { } userName)
            {
                return await SetPasswordAsync(Of(settings), userName).ConfigureAwait(false);
            }
            await using var server = await ShopServer
                .StartAsync(Of(settings))
                .ConfigureAwait(false);
            Say("start.here", server.Address);
            if (server.Fingerprint is { } fingerprint)
            {
                foreach (var address in server.ShopAddresses)
                {
                    Say("start.shop", address);
                }
                Say(
                    server.Certificate!.Authority is null ? "start.ownCertificate" : "start.trust",
                    fingerprint
                );
            }
            Say("start.stop");
            await server.WaitForEndAsync().ConfigureAwait(false);
            return 0;
        }
        catch (Exception e) when (e is StoreFaultException or ServerFaultException)
        {
            await Console.Error.WriteLineAsync(e.Message).ConfigureAwait(false);
            return CannotStart;
        }
    }

    private static async Task<int> SetPasswordAsync(ServerOptions options, string userName)
    {
        if (!Console.IsInputRedirected)
        {
            Say("password.ask", userName);
        }
        var password = await Console.In.ReadLineAsync().ConfigureAwait(false);
        try
        {
            await ShopServer
                .SetPasswordAsync(options, userName, password ?? "")
                .ConfigureAwait(false);
        }
        catch (ProblemException e)
        {
            await Console
                .Error.WriteLineAsync($"{e.Problem.Detail(e.About)} {e.Problem.Next}")
                .ConfigureAwait(false);
            return CannotStart;
        }
        Say("password.set", userName);
        return 0;
    }

    private static ServerOptions Of(ServeSettings settings) =>
        new(
            new StoreOptions(Path.GetFullPath(settings.Data))
            {
                ConnectionString = Environment.GetEnvironmentVariable(
                    ServeSettings.PostgresVariable
                ),
            }
        )
        {
            Port = settings.Port,
            IsOpenToShop = settings.Shop || settings.Certificate is not null,
            ShopPort = settings.ShopPort,
            ShopNames = settings.ShopNames,
            CertificateFile = settings.Certificate,
            CertificateKeyFile = settings.CertificateKey,
            RequestsPerMinute = settings.RequestsPerMinute,
        };

    private static void Say(string key, params ReadOnlySpan<object?> values) =>
        Console.Error.WriteLine(Texts.Get(key, values));
}
