using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text.RegularExpressions;

namespace Cogwright.Server.Tests;

/// <summary>The real server in a process of its own, as ./run starts it.</summary>
internal sealed partial class ServerProcess : IAsyncDisposable
{
    private readonly Process process;
    private readonly Task<string> log;
    private readonly Task<string> rest;

    private ServerProcess(Process process, Uri address)
    {
        this.process = process;
        Address = address;
        log = process.StandardOutput.ReadToEndAsync();
        rest = process.StandardError.ReadToEndAsync();
    }

    internal Uri Address { get; }

    internal static async Task<ServerProcess> StartAsync(string folder)
    {
        var start = new ProcessStartInfo(
            "env",
            // Whoever runs the tests in the background has switched Ctrl-C off for all that they start.
            [
                "--default-signal=INT",
                Path.Combine(AppContext.BaseDirectory, "Cogwright.Server"),
                "--data",
                folder,
                "--port",
                "0",
                "--requests-per-minute",
                "6000000",
            ]
        )
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = folder,
        };
        // A native host searches for the runtime in fixed places only.
        start.Environment["DOTNET_ROOT"] = Path.GetFullPath(
            Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..")
        );
        var process = Process.Start(start)!;
        while (await process.StandardError.ReadLineAsync() is { } line)
        {
            if (AddressIn().Match(line) is { Success: true } found)
            {
                return new ServerProcess(process, new Uri(found.Value));
            }
            Assert.Fail(line);
        }
        throw new InvalidOperationException("The server ended before it said where it is.");
    }

    /// <summary>As if the plug were pulled.</summary>
    internal async Task KillAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
    }

    /// <summary>Stops it as Ctrl-C or a service manager does.</summary>
    /// <returns>Its exit code and all that it wrote.</returns>
    internal async Task<(int Code, string Log, string Errors)> StopAsync(string signal)
    {
        using var kill = Process.Start("/bin/sh", ["-c", $"kill -{signal} {process.Id}"]);
        await process.WaitForExitAsync();
        return (process.ExitCode, await log, await rest);
    }

    public async ValueTask DisposeAsync()
    {
        if (!process.HasExited)
        {
            await KillAsync();
        }
        process.Dispose();
    }

    [GeneratedRegex("http://localhost:[0-9]+/")]
    private static partial Regex AddressIn();
}
