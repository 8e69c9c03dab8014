using System.Globalization;

namespace Cogwright.Storage;

/// <summary>Puts a backup in the place of the file in the data folder.</summary>
internal static class SqliteRestore
{
    internal static async Task<(string? SetAside, CarriedOver Carried)> RunAsync(
        RestorePlan plan,
        CancellationToken cancellation
    )
    {
        var options = plan.Into;
        await using var owner = SqliteFile.Own(options.DataFolder);
        var arriving = options.DatabasePath + ".restoring";
        // Left by a restore that was stopped: it would be taken for this one's.
        foreach (var ending in (string[])["-journal", "-wal", "-shm"])
        {
            File.Delete(arriving + ending);
        }
        File.Copy(Path.Combine(plan.BackupFolder, plan.Backup.DataFile), arriving, overwrite: true);
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(arriving, FolderSync.ForOwner);
        }
        var isReadable = plan.Present is not null;
        var carried = await BeginLifeAsync(
                options,
                arriving,
                isReadable ? options.DatabasePath : null,
                cancellation
            )
            .ConfigureAwait(false);
        FolderSync.File(arriving);
        var setAside = SetAside(options);
        // What lies beside a database belongs to it: left there, it would be taken for the new one's.
        File.Delete(options.DatabasePath + "-wal");
        File.Delete(options.DatabasePath + "-shm");
        File.Move(arriving, options.DatabasePath, overwrite: true);
        FolderSync.Folder(options.DataFolder);
        return (setAside, carried);
    }

    private static async Task<CarriedOver> BeginLifeAsync(
        StoreOptions options,
        string arriving,
        string? present,
        CancellationToken cancellation
    )
    {
        await using var database = SqliteDatabase.Arriving(options, arriving);
        await using var connection = await database
            .OpenForWritingAsync(cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        var carried = default(CarriedOver);
        if (present is not null)
        {
            await commands
                .RunAsync("""ATTACH @path AS "present" """, ("path", present))
                .ConfigureAwait(false);
            carried = await CarriedOver.RunAsync(commands, "present").ConfigureAwait(false);
            await commands.RunAsync("""DETACH "present" """).ConfigureAwait(false);
        }
        await Projection.ClearAsync(database, commands).ConfigureAwait(false);
        await CarriedOver.EndSessionsAsync(commands, options.NowTicks).ConfigureAwait(false);
        await Epochs.BeginAsync(commands, options.NowTicks).ConfigureAwait(false);
        return carried;
    }

    /// <summary>Copies what is there into a folder of its own; nothing is deleted.</summary>
    private static string? SetAside(StoreOptions options)
    {
        if (!File.Exists(options.DatabasePath))
        {
            return null;
        }
        var aside = Path.Combine(
            options.DataFolder,
            string.Create(CultureInfo.InvariantCulture, $"set-aside-{options.NowTicks}")
        );
        FolderSync.Make(aside);
        foreach (var ending in (string[])["", "-wal"])
        {
            var from = options.DatabasePath + ending;
            if (File.Exists(from))
            {
                var to = Path.Combine(aside, Path.GetFileName(from));
                File.Copy(from, to);
                FolderSync.File(to);
            }
        }
        FolderSync.Folder(aside);
        FolderSync.Folder(options.DataFolder);
        return aside;
    }
}
