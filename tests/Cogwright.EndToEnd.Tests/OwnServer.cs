using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>
/// A server of a test's own, open to the shop over HTTPS, that can be killed and started again on the same ports and data. With
/// <c>COGWRIGHT_SERVER</c> set to the folder of a published server that one is started, which saves the build while a test is
/// written.
/// </summary>
public sealed class OwnServer : IAsyncDisposable
{
    /// <summary>The name by which the tests' browser reaches it; no name of loopback, so that HTTPS is what makes it secure.</summary>
    public const string Name = "stand.test";

    /// <summary>Who owns the shop.</summary>
    public const string UserName = "ines";

    /// <summary>Her password.</summary>
    public const string Password = "a long winter road";

    private readonly string data = Directory.CreateTempSubdirectory("cogwright-own-").FullName;
    private readonly int port = FreePort();
    private readonly int shopPort = FreePort();
    private readonly HttpClient http;
    private Process? process;

    private OwnServer()
    {
        http = new HttpClient { BaseAddress = new($"http://localhost:{port}/") };
        http.DefaultRequestHeaders.Add("X-Cogwright", "1");
    }

    /// <summary>Where the stand's tablet finds it.</summary>
    public string Address => $"https://{Name}:{shopPort}/";

    /// <summary>Starts a server that somebody owns.</summary>
    public static async Task<OwnServer> StartAsync()
    {
        var server = new OwnServer();
        await server.StartAgainAsync();
        using var made = await server.http.PostAsJsonAsync(
            "api/v1/owner",
            new
            {
                userName = UserName,
                displayName = "Ines",
                password = Password,
            }
        );
        made.EnsureSuccessStatusCode();
        return server;
    }

    /// <summary>Starts it on the same ports and data, and waits until it answers.</summary>
    public async Task StartAgainAsync()
    {
        var published = Environment.GetEnvironmentVariable("COGWRIGHT_SERVER");
        var start = new ProcessStartInfo(
            published is { Length: > 0 } ? "dotnet" : Path.Combine(Shop.Root, "run")
        )
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        if (published is { Length: > 0 })
        {
            start.ArgumentList.Add(Path.Combine(published, "Cogwright.Server.dll"));
        }
        string[] options =
        [
            "--data",
            data,
            "--port",
            $"{port}",
            "--shop",
            "--shop-port",
            $"{shopPort}",
            "--shop-name",
            Name,
        ];
        foreach (var option in options)
        {
            start.ArgumentList.Add(option);
        }
        process = Process.Start(start)!;
        var told = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        void Hear(string? line)
        {
            if (line?.Contains("http://localhost:", StringComparison.Ordinal) is true)
            {
                told.TrySetResult();
            }
        }
        process.OutputDataReceived += (_, e) => Hear(e.Data);
        process.ErrorDataReceived += (_, e) => Hear(e.Data);
        process.EnableRaisingEvents = true;
        process.Exited += (_, _) =>
            told.TrySetException(new InvalidOperationException("The server ended."));
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        await told.Task;
    }

    /// <summary>As if the plug were pulled.</summary>
    public async Task KillAsync()
    {
        process!.Kill(entireProcessTree: true);
        await process.WaitForExitAsync();
        process.Dispose();
        process = null;
    }

    /// <summary>How many entries it holds of a job.</summary>
    public async Task<int> CountAsync(string job)
    {
        using var page = JsonDocument.Parse(
            await http.GetStringAsync($"api/v1/jobs/{job}/entries")
        );
        return page.RootElement.GetProperty("entries").GetArrayLength();
    }

    /// <summary>What a browser gets for a path: status, headers.</summary>
    public Task<HttpResponseMessage> GetAsync(string path) => http.GetAsync(path);

    /// <summary>A browser in which somebody has trusted this shop's authority.</summary>
    public async Task<IBrowser> BrowserAsync(IPlaywright playwright)
    {
        using var authority = X509CertificateLoader.LoadCertificate(
            await http.GetByteArrayAsync("trust/ca.crt")
        );
        // The server's own key, as it shows it: Kestrel does not send the authority along.
        using var socket = new TcpClient();
        await socket.ConnectAsync(IPAddress.Loopback, shopPort);
        await using var secure = new SslStream(socket.GetStream());
        await secure.AuthenticateAsClientAsync(
            new SslClientAuthenticationOptions
            {
                TargetHost = Name,
                CertificateChainPolicy = new()
                {
                    TrustMode = X509ChainTrustMode.CustomRootTrust,
                    CustomTrustStore = { authority },
                    RevocationMode = X509RevocationMode.NoCheck,
                },
            }
        );
        using var shown = X509CertificateLoader.LoadCertificate(
            secure.RemoteCertificate!.GetRawCertData()
        );
        var pin = Convert.ToBase64String(
            SHA256.HashData(shown.PublicKey.ExportSubjectPublicKeyInfo())
        );
        return await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = "/usr/bin/chromium",
                ChromiumSandbox = false,
                Args =
                [
                    .. Shop.Flags,
                    $"--host-resolver-rules=MAP {Name} 127.0.0.1",
                    $"--ignore-certificate-errors-spki-list={pin}",
                ],
            }
        );
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        http.Dispose();
        if (process is not null)
        {
            await KillAsync();
        }
        Directory.Delete(data, recursive: true);
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
