namespace Cogwright.Faults.Tests;

/// <summary>One file: what is surely on the disk, and what is not.</summary>
/// <param name="durable">What is on the disk; null: the file is not there.</param>
internal sealed class RecordedFile(byte[]? durable)
{
    private byte[]? durable = durable;

    internal List<DiskChange> Pending { get; } = [];

    internal void Delete() => Pending.Add(new DiskChange(DiskChange.Deleted, null));

    internal void Sync()
    {
        durable = After(change => change);
        Pending.Clear();
    }

    internal byte[]? After(Func<DiskChange, DiskChange?> survives)
    {
        if (Pending.Count == 0)
        {
            return durable;
        }
        var content = new MemoryStream();
        var exists = durable is not null;
        content.Write(durable ?? []);
        foreach (var change in Pending.Select(survives).OfType<DiskChange>())
        {
            exists = change.Offset != DiskChange.Deleted;
            if (change.Data is null)
            {
                content.SetLength(Math.Max(change.Offset, 0));
                continue;
            }
            // What a write leaves out before it reads as zeros, as in a file.
            content.SetLength(Math.Max(content.Length, change.Offset));
            content.Position = change.Offset;
            content.Write(change.Data);
        }
        return exists ? content.ToArray() : null;
    }
}
