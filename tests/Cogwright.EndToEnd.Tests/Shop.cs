using System.Diagnostics;
using System.Runtime.CompilerServices;
using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(Cogwright.EndToEnd.Tests.Shop))]
[assembly: Xunit.v3.Parallelization(MaxThreads = 2)]

namespace Cogwright.EndToEnd.Tests;

/// <summary>
/// The product as a mechanic gets it: started with <c>./run</c> on loopback with data of its own, and a real browser in front of it.
/// With <c>COGWRIGHT_ADDRESS</c> set, the server that runs there is used instead, which saves the build while a test is written.
/// </summary>
public sealed class Shop : IAsyncLifetime
{
    internal static readonly string[] Flags =
    [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ];

    private readonly string data = Directory.CreateTempSubdirectory("cogwright-shop-").FullName;
    private Process? server;
    private IPlaywright? playwright;
    private WarmContexts? warm;

    /// <summary>Where the shop's server is; ends in a slash.</summary>
    public string Address { get; private set; } = "";

    /// <summary>What browsers are started with.</summary>
    public IPlaywright Playwright => playwright!;

    /// <summary>Whether the long campaigns run.</summary>
    public static bool IsLong { get; } =
        Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1";

    /// <summary>The browser.</summary>
    public IBrowser Browser { get; private set; } = null!;

    internal static string Root { get; } =
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "..", ".."));

    /// <summary>Folder of the pictures that tests leave behind.</summary>
    public static string Pictures { get; } = Path.Combine(Root, "artifacts", "reports", "screens");

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        Address = Environment.GetEnvironmentVariable("COGWRIGHT_ADDRESS") is { Length: > 0 } running
            ? running
            : await StartAsync();
        playwright = await Microsoft.Playwright.Playwright.CreateAsync();
        Browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = "/usr/bin/chromium",
                Args = Flags,
                ChromiumSandbox = false,
            }
        );
        // 2 cores are shared by browser, server and whatever else runs.
        Assertions.SetDefaultExpectTimeout(60_000);
        warm = new(Browser, Address);
        Directory.CreateDirectory(Pictures);
    }

    /// <summary>Contexts in which the program is loaded.</summary>
    internal WarmContexts Warm => warm!;

    /// <summary>
    /// A page that holds nothing but the program, which perhaps an earlier test has loaded. Any error on its console or in a script
    /// fails the test when it is disposed of.
    /// </summary>
    /// <param name="size">How large the window is.</param>
    /// <param name="scheme">Light or dark.</param>
    public Task<Visit> VisitAsync(Size? size = null, ColorScheme scheme = ColorScheme.Light) =>
        Visit.BeginAsync(this, size ?? Size.Desk, scheme, isFirst: false);

    /// <summary>The same in a browser that was never here.</summary>
    /// <param name="size">How large the window is.</param>
    public Task<Visit> FirstVisitAsync(Size size) =>
        Visit.BeginAsync(this, size, ColorScheme.Light, isFirst: true);

    private async Task<string> StartAsync()
    {
        var start = new ProcessStartInfo(Path.Combine(Root, "run"))
        {
            ArgumentList = { "--data", data, "--port", "0" },
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        server = Process.Start(start)!;
        var told = new TaskCompletionSource<string>(
            TaskCreationOptions.RunContinuationsAsynchronously
        );
        var said = new List<string>();
        void Hear(string? line)
        {
            if (line is null)
            {
                return;
            }
            lock (said)
            {
                said.Add(line);
            }
            if (line.IndexOf("http://localhost:", StringComparison.Ordinal) is >= 0 and var at)
            {
                told.TrySetResult(line[at..].Split(' ')[0]);
            }
        }
        server.OutputDataReceived += (_, e) => Hear(e.Data);
        server.ErrorDataReceived += (_, e) => Hear(e.Data);
        server.EnableRaisingEvents = true;
        server.Exited += (_, _) =>
        {
            lock (said)
            {
                told.TrySetException(
                    new InvalidOperationException("./run ended: " + string.Join('\n', said))
                );
            }
        };
        server.BeginOutputReadLine();
        server.BeginErrorReadLine();
        return await told.Task;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (Browser is not null)
        {
            await Browser.DisposeAsync();
        }
        playwright?.Dispose();
        if (server is not null)
        {
            server.Kill(entireProcessTree: true);
            await server.WaitForExitAsync();
            server.Dispose();
        }
        Directory.Delete(data, recursive: true);
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
