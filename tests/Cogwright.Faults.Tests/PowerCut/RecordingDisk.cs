namespace Cogwright.Faults.Tests;

/// <summary>
/// Remembers of every file what is surely on the disk, and every change since: what a power cut may take. A change is on the
/// disk when its file was synced after it. A file that was made or deleted is so for good at the next sync of it, or of its
/// folder.
/// </summary>
/// <param name="folder">The folder whose files are recorded.</param>
internal sealed class RecordingDisk(string folder)
{
    private readonly Dictionary<string, RecordedFile> files = [];
    private readonly Lock gate = new();
    private long operations;

    internal string Folder { get; } = folder;

    /// <summary>Called before each change, with its number: the moment for a cut.</summary>
    internal Action<long>? BeforeChange { get; set; }

    internal void Opened(string path)
    {
        lock (gate)
        {
            FileAt(path);
        }
    }

    internal void Writing(string path, ReadOnlySpan<byte> data, long offset) =>
        Change(path, new DiskChange(offset, data.ToArray()));

    internal void Truncating(string path, long length) =>
        Change(path, new DiskChange(length, null));

    internal void Deleting(string path, bool syncsFolder)
    {
        BeforeChange?.Invoke(Interlocked.Increment(ref operations));
        lock (gate)
        {
            FileAt(path).Delete();
            if (syncsFolder)
            {
                FileAt(path).Sync();
            }
        }
    }

    internal void Synced(string path)
    {
        BeforeChange?.Invoke(Interlocked.Increment(ref operations));
        lock (gate)
        {
            FileAt(path).Sync();
        }
    }

    /// <summary>Takes the files into the recording as they are, all of it surely on the disk.</summary>
    internal void Load()
    {
        lock (gate)
        {
            foreach (var path in Directory.GetFiles(Folder, "shop.db*").Where(IsData))
            {
                files[path] = new RecordedFile(File.ReadAllBytes(path));
            }
        }
    }

    /// <summary>The files as they would be found after a power cut now.</summary>
    /// <param name="survives">What becomes of a change that was not synced, oldest first.</param>
    internal Dictionary<string, byte[]> Cut(Func<DiskChange, DiskChange?> survives)
    {
        lock (gate)
        {
            return files
                .Select(file => (Path.GetFileName(file.Key), Content: file.Value.After(survives)))
                .Where(file => file.Content is not null)
                .ToDictionary(file => file.Item1, file => file.Content!);
        }
    }

    private void Change(string path, DiskChange change)
    {
        BeforeChange?.Invoke(Interlocked.Increment(ref operations));
        lock (gate)
        {
            FileAt(path).Pending.Add(change);
        }
    }

    private RecordedFile FileAt(string path)
    {
        if (!files.TryGetValue(path, out var file))
        {
            file = new RecordedFile(null);
            files.Add(path, file);
        }
        return file;
    }

    // The index of the write-ahead log lives in memory only and is made anew.
    private static bool IsData(string path) => !path.EndsWith("-shm", StringComparison.Ordinal);
}
