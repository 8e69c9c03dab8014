using System.Globalization;

namespace Cogwright.Storage;

/// <summary>
/// Puts a backup in the place of the schema. It arrives beside the present data, in a transaction of its own; what must not come
/// back, the new life and the change of places are one more. Stopped anywhere, the present data are as they were.
/// </summary>
internal static class PostgresRestore
{
    private const string Schema = PostgresStoreContext.Schema;
    private const string Arriving = Schema + "_arriving";
    private const string Stepped = Schema + "_stepped_aside";

    internal static async Task<(string? SetAside, CarriedOver Carried)> RunAsync(
        RestorePlan plan,
        CancellationToken cancellation
    )
    {
        var options = plan.Into;
        await using var database = ShopDatabase.Beside(options);
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        await KeepOthersOutAsync(database, commands, cancellation).ConfigureAwait(false);
        await ArriveAsync(plan, commands, cancellation).ConfigureAwait(false);
        var hadTables = await database.HasTablesAsync(commands).ConfigureAwait(false);
        var aside = string.Create(
            CultureInfo.InvariantCulture,
            $"{Schema}_set_aside_{options.NowTicks}"
        );
        await using var transaction = await database
            .BeginWritingAsync(connection)
            .ConfigureAwait(false);
        commands.Transaction = transaction;
        await commands.RunAsync($"SET LOCAL search_path TO {Arriving}").ConfigureAwait(false);
        var carried = hadTables
            ? await CarriedOver.RunAsync(commands, Schema).ConfigureAwait(false)
            : default;
        await CarriedOver.EndSessionsAsync(commands, options.NowTicks).ConfigureAwait(false);
        await Epochs.BeginAsync(commands, options.NowTicks).ConfigureAwait(false);
        // Without tables: an empty schema of that name, left by whoever made the database, would be in the way.
        await commands
            .RunAsync(
                hadTables
                    ? $"ALTER SCHEMA {Schema} RENAME TO {aside}"
                    : $"DROP SCHEMA IF EXISTS {Schema}"
            )
            .ConfigureAwait(false);
        await commands
            .RunAsync($"ALTER SCHEMA {Arriving} RENAME TO {Schema}")
            .ConfigureAwait(false);
        await transaction.CommitAsync(cancellation).ConfigureAwait(false);
        return (hadTables ? aside : null, carried);
    }

    /// <summary>Brings the backup in beside the present data. Its own name is the only one it comes under, so those step aside.</summary>
    private static async Task ArriveAsync(
        RestorePlan plan,
        CommandSet commands,
        CancellationToken cancellation
    )
    {
        // Left by a restore that was stopped.
        await commands.RunAsync($"DROP SCHEMA IF EXISTS {Arriving} CASCADE").ConfigureAwait(false);
        var isThere =
            await commands
                .ScalarAsync("SELECT to_regnamespace(@name)::text", ("name", Schema))
                .ConfigureAwait(false) is string;
        await PostgresPrograms
            .RestoreAsync(
                plan.Into.ConnectionString!,
                Path.Combine(plan.BackupFolder, plan.Backup.DataFile),
                (
                    $"BEGIN;\n{(isThere ? $"ALTER SCHEMA {Schema} RENAME TO {Stepped};\n" : "")}",
                    $"\nALTER SCHEMA {Schema} RENAME TO {Arriving};\n"
                        + $"{(isThere ? $"ALTER SCHEMA {Stepped} RENAME TO {Schema};\n" : "")}COMMIT;\n"
                ),
                cancellation
            )
            .ConfigureAwait(false);
    }

    /// <summary>Keeps every server out; ones that are just being closed are waited for.</summary>
    private static async Task KeepOthersOutAsync(
        ShopDatabase database,
        CommandSet commands,
        CancellationToken cancellation
    )
    {
        const int Looks = 20;
        var pause = TimeSpan.FromMilliseconds(100);
        for (var look = 1; ; look++)
        {
            var others = await PostgresDatabase.KeepOthersOutAsync(commands).ConfigureAwait(false);
            if (others == 0)
            {
                return;
            }
            if (look == Looks)
            {
                throw StoreFaultException.Of(
                    StoreFaultKind.InUse,
                    Texts.Get("postgres.inUse", database.Place, others)
                );
            }
            await Task.Delay(pause, cancellation).ConfigureAwait(false);
        }
    }
}
