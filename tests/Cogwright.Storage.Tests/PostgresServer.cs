using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Cogwright.Storage.Tests;

/// <summary>
/// A PostgreSQL of the tests' own, on loopback, in a folder of its own. It ends with the tests: by disposal, and if the test
/// process is killed by a watcher that waits for that.
/// </summary>
public sealed class PostgresServer : IAsyncDisposable
{
    private readonly string folder = Path.Combine(
        Path.GetTempPath(),
        "cogwright-pg-" + Guid.NewGuid().ToString("N")[..12]
    );
    private readonly string bin = Bin();
    private Process? watcher;
    private int databases;

    /// <summary>The port it listens on.</summary>
    public int Port { get; } = FreePort();

    /// <summary>A folder that its user may write to.</summary>
    public string Folder => folder;

    /// <summary>Makes and starts it.</summary>
    public static PostgresServer Start()
    {
        var server = new PostgresServer();
        Directory.CreateDirectory(server.folder);
        // Its input ends with this process, however that ends; in a session of its own it is not stopped together with it.
        server.watcher = Process.Start(
            new ProcessStartInfo(
                "setsid",
                [
                    "/bin/sh",
                    "-c",
                    "exec >/dev/null 2>&1; cat; "
                        + $"kill -QUIT $(head -1 '{server.Data}/postmaster.pid'); sleep 1; rm -rf '{server.folder}'",
                ]
            )
            {
                RedirectStandardInput = true,
            }
        );
        if (IsRoot)
        {
            Run("chown", "postgres", server.folder);
        }
        server.AsPostgres(
            "initdb",
            "-A",
            "trust",
            "-U",
            "postgres",
            "-E",
            "UTF8",
            "--locale=C",
            "-D",
            server.Data
        );
        File.AppendAllText(
            Path.Combine(server.Data, "postgresql.conf"),
            string.Create(
                CultureInfo.InvariantCulture,
                $"""

                listen_addresses = '127.0.0.1'
                port = {server.Port}
                unix_socket_directories = ''
                max_connections = 300
                shared_buffers = 32MB
                """
            )
        );
        server.Resume();
        return server;
    }

    /// <summary>Starts it again after a stop.</summary>
    public void Resume() =>
        AsPostgres(
            "pg_ctl",
            "-D",
            Data,
            "-w",
            "-t",
            "60",
            "-l",
            Path.Combine(folder, "server.log"),
            "start"
        );

    /// <summary>Stops it as if it had been killed: no checkpoint, no goodbye.</summary>
    public void Kill() => AsPostgres("pg_ctl", "-D", Data, "-w", "-m", "immediate", "stop");

    /// <summary>Makes an empty database.</summary>
    /// <returns>Its connection string.</returns>
    public string NewDatabase(string? template = null)
    {
        var name = string.Create(
            CultureInfo.InvariantCulture,
            $"shop{Interlocked.Increment(ref databases)}"
        );
        Run(
            Path.Combine(bin, "createdb"),
            [
                "-h",
                "127.0.0.1",
                "-p",
                Text(Port),
                "-U",
                "postgres",
                .. template is null ? (string[])[] : ["-T", template],
                name,
            ]
        );
        return ConnectionStringTo(name);
    }

    /// <summary>The connection string to a database with that name.</summary>
    public string ConnectionStringTo(string name) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"Host=127.0.0.1;Port={Port};Username=postgres;Database={name};Include Error Detail=true"
        );

    public async ValueTask DisposeAsync()
    {
        try
        {
            Kill();
        }
        finally
        {
            if (watcher is not null)
            {
                watcher.Kill(entireProcessTree: true);
                await watcher.WaitForExitAsync();
                watcher.Dispose();
            }
            Directory.Delete(folder, recursive: true);
        }
    }

    private static bool IsRoot => Environment.IsPrivilegedProcess;

    private string Data => Path.Combine(folder, "data");

    private static string Bin()
    {
        var versions = Directory.Exists("/usr/lib/postgresql")
            ? Directory
                .GetDirectories("/usr/lib/postgresql")
                .OrderByDescending(each =>
                    int.Parse(Path.GetFileName(each), CultureInfo.InvariantCulture)
                )
            : Enumerable.Empty<string>();
        return versions
                .Select(each => Path.Combine(each, "bin"))
                .FirstOrDefault(each => File.Exists(Path.Combine(each, "initdb")))
            ?? throw new InvalidOperationException(
                "These tests need PostgreSQL's programs: apt-get install postgresql (./test does it)."
            );
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>PostgreSQL refuses to run as root.</summary>
    private void AsPostgres(string program, params string[] arguments)
    {
        var path = Path.Combine(bin, program);
        if (IsRoot)
        {
            Run("runuser", ["-u", "postgres", "--", path, .. arguments]);
        }
        else
        {
            Run(path, arguments);
        }
    }

    private static void Run(string program, params string[] arguments)
    {
        // Output goes to a file: the server that pg_ctl starts would keep a pipe open.
        var log = Path.GetTempFileName();
        try
        {
            using var process = Process.Start(
                new ProcessStartInfo(
                    "/bin/sh",
                    [
                        "-c",
                        "log=$1; shift; exec \"$@\" >\"$log\" 2>&1 </dev/null",
                        "sh",
                        log,
                        program,
                        .. arguments,
                    ]
                )
                {
                    WorkingDirectory = "/",
                }
            )!;
            process.WaitForExit();
            if (process.ExitCode != 0)
            {
                throw new InvalidOperationException(
                    $"{program} {string.Join(' ', arguments)}: {File.ReadAllText(log)}"
                );
            }
        }
        finally
        {
            File.Delete(log);
        }
    }
}
