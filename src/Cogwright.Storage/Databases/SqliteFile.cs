using Microsoft.Data.Sqlite;

namespace Cogwright.Storage;

/// <summary>The file of a SQLite database, looked at from outside before SQLite may touch it.</summary>
internal static class SqliteFile
{
    private const string OwnerFileName = "in-use";
    private const int HeaderBytes = 100;

    private static ReadOnlySpan<byte> Letters => "SQLite format 3\0"u8;

    /// <summary>Takes the data folder for this process; a stopped process lets it go, however it was stopped.</summary>
    internal static FileStream Own(string folder)
    {
        try
        {
            FolderSync.Make(folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Inaccessible,
                Texts.Get("folder.inaccessible", folder, e.Message),
                e
            );
        }
        try
        {
            return Open(Path.Combine(folder, OwnerFileName), FileShare.None);
        }
        catch (UnauthorizedAccessException e)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Inaccessible,
                Texts.Get("folder.inaccessible", folder, e.Message),
                e
            );
        }
        catch (IOException e)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.InUse,
                Texts.Get("folder.inUse", folder),
                e
            );
        }
    }

    /// <summary>Makes an empty file if there is none. What cannot be a database is refused here, unchanged.</summary>
    internal static void Look(string path)
    {
        try
        {
            using var file = Open(path, FileShare.ReadWrite);
            if (file.Length == 0)
            {
                return;
            }
            var header = new byte[HeaderBytes];
            var read = file.ReadAtLeast(header, HeaderBytes, throwOnEndOfStream: false);
            if (read < HeaderBytes || !header.AsSpan().StartsWith(Letters))
            {
                throw StoreFaultException.Of(
                    StoreFaultKind.Damaged,
                    Texts.Get("sqlite.header", path)
                );
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Inaccessible,
                Texts.Get("folder.inaccessible", path, e.Message),
                e
            );
        }
    }

    /// <summary>Opens a file; one that is not there is made for its owner alone, and SQLite makes those beside it likewise.</summary>
    private static FileStream Open(string path, FileShare share)
    {
        var how = new FileStreamOptions
        {
            Mode = FileMode.OpenOrCreate,
            Access = FileAccess.ReadWrite,
            Share = share,
        };
        if (!OperatingSystem.IsWindows())
        {
            how.UnixCreateMode = FolderSync.ForOwner;
        }
        return new FileStream(path, how);
    }

    /// <summary>Copies a database while it is written to, and puts the copy on the disk.</summary>
    internal static async Task CopyAsync(SqliteConnection from, string path)
    {
        var target = new SqliteConnection(
            new SqliteConnectionStringBuilder
            {
                DataSource = path,
                Pooling = false,
            }.ConnectionString
        );
        // Made here, for its owner alone; SQLite would let everybody read it.
        await Open(path, FileShare.ReadWrite).DisposeAsync().ConfigureAwait(false);
        await using (target.ConfigureAwait(false))
        {
            await target.OpenAsync().ConfigureAwait(false);
            await Task.Run(() => from.BackupDatabase(target)).ConfigureAwait(false);
            // The copy is one file: it says of itself that it has a write-ahead log, and must not need one.
            await using var command = target.CreateCommand();
            command.CommandText = "PRAGMA journal_mode = DELETE";
            await command.ExecuteNonQueryAsync().ConfigureAwait(false);
        }
        FolderSync.File(path);
    }

    internal static StoreFaultException? FaultOf(Exception exception, string place)
    {
        for (var e = exception; e is not null; e = e.InnerException)
        {
            if (e is SqliteException sqlite)
            {
                return Of(sqlite, place);
            }
        }
        return null;
    }

    // The numbers are SQLite's primary result codes (sqlite.org/rescode.html).
    private static StoreFaultException Of(SqliteException e, string place)
    {
        var (kind, text) = e.SqliteErrorCode switch
        {
            5 or 6 => (StoreFaultKind.Locked, Texts.Get("sqlite.locked", place)),
            8 or 14 or 3 => (
                StoreFaultKind.Inaccessible,
                Texts.Get("folder.inaccessible", place, e.Message)
            ),
            10 => (StoreFaultKind.Inaccessible, Texts.Get("sqlite.disk", place, e.Message)),
            // 1: a table or column that was there when the file was opened is not; our own statements are held by tests.
            1 or 11 or 26 => (
                StoreFaultKind.Damaged,
                Texts.Get("sqlite.damaged", place, e.Message)
            ),
            13 => (StoreFaultKind.Full, Texts.Get("sqlite.full", place)),
            _ => (StoreFaultKind.Unforeseen, Texts.Get("store.unforeseen", place, e.Message)),
        };
        return StoreFaultException.Of(kind, text, e);
    }
}
