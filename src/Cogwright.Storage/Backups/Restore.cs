using System.Collections.Immutable;

namespace Cogwright.Storage;

/// <summary>
/// Brings a backup back. The server must not run. Nothing that was there is deleted: it is set aside. A new epoch begins, so
/// that every device compares and sends again what the backup lacks; all sessions end, for one that was revoked since must
/// not come back.
/// </summary>
public static class Restore
{
    /// <summary>Looks at what a restore would do; changes nothing.</summary>
    /// <param name="backupFolder">The backup.</param>
    /// <param name="into">The store that it would go into.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="StoreFaultException">The backup is none, not whole, or of the other database.</exception>
    public static async Task<RestorePlan> PlanAsync(
        string backupFolder,
        StoreOptions into,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(into);
        var folder = Path.GetFullPath(backupFolder);
        var manifest = await BackupManifest.ReadAsync(folder, cancellation).ConfigureAwait(false);
        var kind = into.ConnectionString is null ? SqliteDatabase.Kind : PostgresDatabase.Kind;
        if (manifest.Database != kind)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.BadBackup,
                Texts.Get("restore.otherDatabase", folder, manifest.Database, kind)
            );
        }
        await ToldAsync(into, () => VerifyAsync(folder, manifest, cancellation))
            .ConfigureAwait(false);
        var (present, fault, beyond) = await ToldAsync(
                into,
                () => PresentAsync(into, manifest, cancellation)
            )
            .ConfigureAwait(false);
        CheckReport? check = null;
        if (into.ConnectionString is null)
        {
            await using var copy = SqliteDatabase.OfCopy(
                into,
                Path.Combine(folder, manifest.DataFile)
            );
            check = await new StoreCheck(copy, null).RunAsync(cancellation).ConfigureAwait(false);
        }
        return new RestorePlan(folder, into, manifest, check, present, fault, beyond);
    }

    /// <summary>Restores.</summary>
    /// <param name="plan">The plan; what it found is looked at again.</param>
    /// <param name="replace">Whether data that are there may be set aside.</param>
    /// <param name="cancellation">Gives up; the present data stay as they are.</param>
    /// <exception cref="StoreFaultException">
    /// Data are there and may not be replaced; the store is in use; the backup is damaged.
    /// </exception>
    public static async Task<RestoreReport> RunAsync(
        RestorePlan plan,
        bool replace,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(plan);
        var now = await PlanAsync(plan.BackupFolder, plan.Into, cancellation).ConfigureAwait(false);
        if (now.Replaces && !replace)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.WouldReplace,
                Texts.Get(
                    "restore.wouldReplace",
                    now.Into.DataFolder,
                    now.Present?.Entries ?? 0,
                    now.EntriesOnlyHere
                )
            );
        }
        if (now.Check is { IsSound: false })
        {
            throw StoreFaultException.Of(
                StoreFaultKind.BadBackup,
                Texts.Get("restore.unsound", now.BackupFolder, now.Findings[0].Text)
            );
        }
        var (setAside, carried) = await ToldAsync(
                plan.Into,
                () =>
                    plan.Into.ConnectionString is null
                        ? SqliteRestore.RunAsync(now, cancellation)
                        : PostgresRestore.RunAsync(now, cancellation)
            )
            .ConfigureAwait(false);
        await using var store = await ShopStore
            .OpenAsync(plan.Into, cancellation)
            .ConfigureAwait(false);
        return new RestoreReport(
            store.Epoch,
            setAside,
            carried.ErasedAgain,
            await store.CheckAsync(cancellation: cancellation).ConfigureAwait(false)
        )
        {
            ShutOutAgain = carried.ShutOutAgain,
        };
    }

    /// <summary>Whatever goes wrong is told as a fault.</summary>
    private static async Task<T> ToldAsync<T>(StoreOptions into, Func<Task<T>> run)
    {
        try
        {
            return await run().ConfigureAwait(false);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Inaccessible,
                Texts.Get("folder.inaccessible", into.DataFolder, e.Message),
                e
            );
        }
        catch (Exception e) when (e is not (StoreFaultException or OperationCanceledException))
        {
            await using var database = ShopDatabase.Beside(into);
            throw database.WritingFaultOf(e);
        }
    }

    private static async Task<bool> VerifyAsync(
        string folder,
        BackupManifest manifest,
        CancellationToken cancellation
    )
    {
        var path = Path.Combine(folder, manifest.DataFile);
        if (
            !File.Exists(path)
            || await Backup.HashAsync(path, cancellation).ConfigureAwait(false) != manifest.Sha256
        )
        {
            throw StoreFaultException.Of(
                StoreFaultKind.BadBackup,
                Texts.Get("backup.altered", path)
            );
        }
        return true;
    }

    private static async Task<(StoreCounts?, StoreFault?, long)> PresentAsync(
        StoreOptions into,
        BackupManifest manifest,
        CancellationToken cancellation
    )
    {
        if (into.ConnectionString is null && !File.Exists(into.DatabasePath))
        {
            return (null, null, 0);
        }
        await using var database = ShopDatabase.Beside(into);
        try
        {
            await using var connection = await database
                .OpenAsync(cancellation)
                .ConfigureAwait(false);
            using var commands = new CommandSet(database, connection);
            if (!await database.HasTablesAsync(commands).ConfigureAwait(false))
            {
                return (null, await ForeignAsync(into, commands).ConfigureAwait(false), 0);
            }
            var described = await Backup
                .DescribeAsync(database, connection, null, ("", 0))
                .ConfigureAwait(false);
            var beyond = described.Receipts.Sum(log =>
                Math.Max(0, log.Value - manifest.Receipts.GetValueOrDefault(log.Key))
            );
            return (described.Counts, null, beyond);
        }
        // Only what is wrong with the data themselves. What is locked or away may be whole: to put a backup in its place would
        // let come back what was erased, revoked and shut out since.
        catch (Exception e)
            when (database.ReadingFaultOf(e)
                    is {
                        Fault.Kind: StoreFaultKind.Damaged
                            or StoreFaultKind.NotOurs
                            or StoreFaultKind.FromLaterVersion
                    }
            )
        {
            return (null, database.ReadingFaultOf(e)!.Fault, 0);
        }
    }

    /// <summary>Tables of another program in the file; null: there are none, or it is a schema, which is ours by its name.</summary>
    private static async Task<StoreFault?> ForeignAsync(StoreOptions into, CommandSet commands) =>
        into.ConnectionString is null
        && await commands.ScalarAsync("SELECT 1 FROM sqlite_master LIMIT 1").ConfigureAwait(false)
            is not null
            ? new StoreFault(StoreFaultKind.NotOurs, Texts.Get("sqlite.notOurs", into.DatabasePath))
            : null;
}
