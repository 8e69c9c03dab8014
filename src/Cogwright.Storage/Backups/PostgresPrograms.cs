using System.Diagnostics;
using System.Globalization;
using Npgsql;

namespace Cogwright.Storage;

/// <summary>Runs PostgreSQL's own programs.</summary>
internal static class PostgresPrograms
{
    // Where Linux keeps the authorities that the driver believes by itself and PostgreSQL's programs only if told.
    private const string Authorities = "/etc/ssl/certs/ca-certificates.crt";

    /// <summary>Runs pg_dump.</summary>
    internal static async Task DumpAsync(
        string connectionString,
        IReadOnlyList<string> arguments,
        CancellationToken cancellation
    )
    {
        using var dump = Start("pg_dump", connectionString, arguments);
        await RunAsync(
                [dump],
                async () =>
                {
                    var said = dump.StandardError.ReadToEndAsync(cancellation);
                    dump.StandardInput.Close();
                    await dump.StandardOutput.ReadToEndAsync(cancellation).ConfigureAwait(false);
                    await EndAsync(dump, said, cancellation).ConfigureAwait(false);
                }
            )
            .ConfigureAwait(false);
    }

    /// <summary>Runs a dump in the custom format as statements in one session, between others.</summary>
    /// <param name="connectionString">The database.</param>
    /// <param name="dump">The file.</param>
    /// <param name="around">The statements before it, which begin a transaction, and after it, which commit.</param>
    /// <param name="cancellation">Gives up; nothing is committed.</param>
    internal static async Task RestoreAsync(
        string connectionString,
        string dump,
        (string Before, string After) around,
        CancellationToken cancellation
    )
    {
        using var restore = Start(
            "pg_restore",
            connectionString,
            ["--file=-", "--exit-on-error", "--no-owner", "--no-privileges", dump]
        );
        using var session = Start(
            "psql",
            connectionString,
            ["--no-psqlrc", "--quiet", "--no-password", "--set=ON_ERROR_STOP=1", "--file=-"]
        );
        await RunAsync(
                [restore, session],
                async () =>
                {
                    var restoreSaid = restore.StandardError.ReadToEndAsync(cancellation);
                    var sessionSaid = session.StandardError.ReadToEndAsync(cancellation);
                    var answers = session.StandardOutput.ReadToEndAsync(cancellation);
                    restore.StandardInput.Close();
                    try
                    {
                        var into = session.StandardInput;
                        await into.WriteAsync(around.Before.AsMemory(), cancellation)
                            .ConfigureAwait(false);
                        await into.FlushAsync(cancellation).ConfigureAwait(false);
                        await restore
                            .StandardOutput.BaseStream.CopyToAsync(into.BaseStream, cancellation)
                            .ConfigureAwait(false);
                        await EndAsync(restore, restoreSaid, cancellation).ConfigureAwait(false);
                        // Only now: a session whose input ends without this commits nothing.
                        await into.WriteAsync(around.After.AsMemory(), cancellation)
                            .ConfigureAwait(false);
                        into.Close();
                    }
                    catch (IOException)
                    {
                        // It has ended before it had read all, and says why.
                        restore.Kill();
                    }
                    await answers.ConfigureAwait(false);
                    await EndAsync(session, sessionSaid, cancellation).ConfigureAwait(false);
                }
            )
            .ConfigureAwait(false);
    }

    /// <summary>What the programs must know of the connection: a password is not for arguments, which every user can read.</summary>
    internal static IEnumerable<(string Name, string Value)> Settings(string connectionString)
    {
        var connection = new NpgsqlConnectionStringBuilder(connectionString);
        var authorities = connection.RootCertificate;
        if (connection.SslMode is SslMode.VerifyCA or SslMode.VerifyFull)
        {
            authorities ??=
                Environment.GetEnvironmentVariable("PGSSLROOTCERT")
                ?? (File.Exists(Authorities) ? Authorities : null);
        }
        (string Name, string? Value)[] settings =
        [
            ("PGHOST", connection.Host),
            ("PGPORT", connection.Port.ToString(CultureInfo.InvariantCulture)),
            ("PGDATABASE", connection.Database),
            ("PGUSER", connection.Username),
            ("PGPASSWORD", connection.Password),
            ("PGPASSFILE", connection.Passfile),
            ("PGOPTIONS", connection.Options),
            (
                "PGSSLMODE",
                connection.SslMode switch
                {
                    SslMode.Disable => "disable",
                    SslMode.Allow => "allow",
                    SslMode.Prefer => "prefer",
                    SslMode.Require => "require",
                    SslMode.VerifyCA => "verify-ca",
                    // Also what is not known here: nothing less than the driver asks for.
                    _ => "verify-full",
                }
            ),
            ("PGSSLROOTCERT", authorities),
            ("PGSSLCERT", connection.SslCertificate),
            ("PGSSLKEY", connection.SslKey),
        ];
        return settings
            .Where(each => each.Value is not null)
            .Select(each => (each.Name, each.Value!));
    }

    private static Process Start(
        string program,
        string connectionString,
        IReadOnlyList<string> arguments
    )
    {
        var start = new ProcessStartInfo(Find(program), arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        foreach (var (name, value) in Settings(connectionString))
        {
            start.Environment[name] = value;
        }
        return Process.Start(start)!;
    }

    /// <summary>Whatever happens, none of the programs is left running.</summary>
    private static async Task RunAsync(Process[] processes, Func<Task> run)
    {
        try
        {
            await run().ConfigureAwait(false);
        }
        finally
        {
            foreach (var process in processes.Where(each => !each.HasExited))
            {
                process.Kill(entireProcessTree: true);
            }
        }
    }

    private static async Task EndAsync(
        Process process,
        Task<string> said,
        CancellationToken cancellation
    )
    {
        await process.WaitForExitAsync(cancellation).ConfigureAwait(false);
        if (process.ExitCode != 0)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.BadBackup,
                Texts.Get(
                    "postgres.program",
                    Path.GetFileName(process.StartInfo.FileName),
                    process.ExitCode,
                    (await said.ConfigureAwait(false)).Trim()
                )
            );
        }
    }

    /// <summary>On the path, or where Debian keeps them: the newest, for an older one refuses a newer server.</summary>
    private static string Find(string program)
    {
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        var debian = Directory.Exists("/usr/lib/postgresql")
            ? Directory
                .GetDirectories("/usr/lib/postgresql")
                .OrderByDescending(each =>
                    int.TryParse(Path.GetFileName(each), out var version) ? version : 0
                )
                .Select(each => Path.Combine(each, "bin"))
            : [];
        return debian
                .Concat(folders)
                .Select(folder => Path.Combine(folder, program))
                .FirstOrDefault(File.Exists)
            ?? throw StoreFaultException.Of(
                StoreFaultKind.Nothing,
                Texts.Get("postgres.noProgram", program)
            );
    }
}
