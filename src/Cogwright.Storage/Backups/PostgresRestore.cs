using System.Globalization;

namespace Cogwright.Storage;

/// <summary>Puts a backup in the place of the schema.</summary>
internal static class PostgresRestore
{
    internal static async Task<(string? SetAside, long ErasedAgain)> RunAsync(
        RestorePlan plan,
        CancellationToken cancellation
    )
    {
        var options = plan.Into;
        await using var database = ShopDatabase.Beside(options);
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        var others = await OthersAsync(commands, cancellation).ConfigureAwait(false);
        if (others > 0)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.InUse,
                Texts.Get("postgres.inUse", database.Place, others)
            );
        }
        var aside = string.Create(
            CultureInfo.InvariantCulture,
            $"{PostgresStoreContext.Schema}_set_aside_{options.NowTicks}"
        );
        var hadTables = await database.HasTablesAsync(commands).ConfigureAwait(false);
        if (hadTables)
        {
            await commands
                .RunAsync($"ALTER SCHEMA {PostgresStoreContext.Schema} RENAME TO {aside}")
                .ConfigureAwait(false);
        }
        try
        {
            // An empty schema of that name, left by whoever made the database, would be in the way.
            await commands
                .RunAsync($"DROP SCHEMA IF EXISTS {PostgresStoreContext.Schema}")
                .ConfigureAwait(false);
            await PostgresPrograms
                .RunAsync(
                    "pg_restore",
                    options.ConnectionString!,
                    [
                        "--single-transaction",
                        "--exit-on-error",
                        "--no-owner",
                        "--no-privileges",
                        "--dbname",
                        new Npgsql.NpgsqlConnectionStringBuilder(
                            options.ConnectionString
                        ).Database!,
                        Path.Combine(plan.BackupFolder, plan.Backup.DataFile),
                    ],
                    cancellation
                )
                .ConfigureAwait(false);
        }
        catch when (hadTables)
        {
            await commands
                .RunAsync($"ALTER SCHEMA {aside} RENAME TO {PostgresStoreContext.Schema}")
                .ConfigureAwait(false);
            throw;
        }
        var erased = hadTables
            ? await CarriedOver.RunAsync(commands, aside).ConfigureAwait(false)
            : 0;
        await CarriedOver.EndSessionsAsync(commands, options.NowTicks).ConfigureAwait(false);
        await Epochs.BeginAsync(database, connection, options.NowTicks).ConfigureAwait(false);
        return (hadTables ? aside : null, erased);
    }

    /// <summary>How many other connections there are; ones that are just being closed are waited for.</summary>
    private static async Task<long> OthersAsync(CommandSet commands, CancellationToken cancellation)
    {
        const int Looks = 20;
        var pause = TimeSpan.FromMilliseconds(100);
        for (var look = 1; ; look++)
        {
            var others = (long)
                (
                    await commands
                        .ScalarAsync(
                            """
                            SELECT COUNT(*) FROM pg_stat_activity
                            WHERE datname = current_database() AND pid <> pg_backend_pid()
                            AND application_name = current_setting('application_name')
                            """
                        )
                        .ConfigureAwait(false)
                )!;
            if (others == 0 || look == Looks)
            {
                return others;
            }
            await Task.Delay(pause, cancellation).ConfigureAwait(false);
        }
    }
}
