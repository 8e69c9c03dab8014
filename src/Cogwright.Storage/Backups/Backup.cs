using System.Collections.Immutable;
using System.Data.Common;
using System.Security.Cryptography;

namespace Cogwright.Storage;

/// <summary>
/// Makes a backup while the server runs: SQLite by its online backup, PostgreSQL by pg_dump, each of one moment. Everything
/// is in it: entries, statements, personal data, photos, accounts.
/// </summary>
public static class Backup
{
    /// <summary>Backs up a store that another process may have open.</summary>
    /// <param name="options">The store.</param>
    /// <param name="targetFolder">Made by this; must not exist. It is there only when the backup is whole.</param>
    /// <param name="cancellation">Gives up; nothing is left.</param>
    public static async Task<BackupManifest> RunAsync(
        StoreOptions options,
        string targetFolder,
        CancellationToken cancellation = default
    )
    {
        await using var database = ShopDatabase.Beside(options);
        return await RunAsync(database, options.NowTicks, targetFolder, cancellation)
            .ConfigureAwait(false);
    }

    internal static async Task<BackupManifest> RunAsync(
        ShopDatabase database,
        long nowTicks,
        string targetFolder,
        CancellationToken cancellation
    )
    {
        var target = await WholeFolder
            .MakeAsync(
                database,
                targetFolder,
                async part =>
                {
                    var made = await database
                        .BackUpAsync(part, nowTicks, cancellation)
                        .ConfigureAwait(false);
                    await made.WriteAsync(part, cancellation).ConfigureAwait(false);
                    return made;
                }
            )
            .ConfigureAwait(false);
        return target.Made;
    }

    /// <summary>Describes a finished data file; the connection sees what is in it.</summary>
    internal static async Task<BackupManifest> DescribeAsync(
        ShopDatabase database,
        DbConnection connection,
        DbTransaction? transaction,
        (string Kind, long NowTicks) about
    )
    {
        using var commands = new CommandSet(database, connection) { Transaction = transaction };
        var receipts = ImmutableSortedDictionary.CreateBuilder<Guid, long>();
        using (
            var reader = await commands
                .ReadAsync("""SELECT "Id", "LastReceipt" FROM "Logs" """)
                .ConfigureAwait(false)
        )
        {
            while (await reader.ReadAsync().ConfigureAwait(false))
            {
                receipts.Add(database.GuidAt(reader, 0), reader.GetInt64(1));
            }
        }
        return new BackupManifest(
            BackupManifest.FormatName,
            BackupManifest.PresentVersion,
            about.Kind,
            "",
            "",
            await Epochs.ReadAsync(database, commands).ConfigureAwait(false),
            about.NowTicks,
            await StoreCounts.ReadAsync(database, commands).ConfigureAwait(false),
            receipts.ToImmutable()
        );
    }

    /// <summary>Names the data file and takes its hash.</summary>
    internal static async Task<BackupManifest> SealAsync(
        BackupManifest described,
        string dataPath,
        CancellationToken cancellation
    )
    {
        return described with
        {
            DataFile = Path.GetFileName(dataPath),
            Sha256 = await HashAsync(dataPath, cancellation).ConfigureAwait(false),
        };
    }

    internal static async Task<string> HashAsync(string path, CancellationToken cancellation)
    {
        await using var file = File.OpenRead(path);
        return Convert.ToHexStringLower(
            await SHA256.HashDataAsync(file, cancellation).ConfigureAwait(false)
        );
    }
}
