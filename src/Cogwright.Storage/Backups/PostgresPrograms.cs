using System.Diagnostics;
using System.Globalization;
using Npgsql;

namespace Cogwright.Storage;

/// <summary>Runs PostgreSQL's own programs.</summary>
internal static class PostgresPrograms
{
    internal static async Task RunAsync(
        string program,
        string connectionString,
        IReadOnlyList<string> arguments,
        CancellationToken cancellation
    )
    {
        var connection = new NpgsqlConnectionStringBuilder(connectionString);
        var start = new ProcessStartInfo(Find(program), arguments)
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        // Not among the arguments, where every user of the machine could read the password.
        start.Environment["PGHOST"] = connection.Host;
        start.Environment["PGPORT"] = connection.Port.ToString(CultureInfo.InvariantCulture);
        start.Environment["PGDATABASE"] = connection.Database;
        start.Environment["PGUSER"] = connection.Username;
        if (connection.Password is { } password)
        {
            start.Environment["PGPASSWORD"] = password;
        }
        using var process = Process.Start(start)!;
        try
        {
            var said = process.StandardError.ReadToEndAsync(cancellation);
            await process.StandardOutput.ReadToEndAsync(cancellation).ConfigureAwait(false);
            await process.WaitForExitAsync(cancellation).ConfigureAwait(false);
            if (process.ExitCode != 0)
            {
                throw StoreFaultException.Of(
                    StoreFaultKind.BadBackup,
                    Texts.Get(
                        "postgres.program",
                        program,
                        process.ExitCode,
                        (await said.ConfigureAwait(false)).Trim()
                    )
                );
            }
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
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
