namespace Cogwright.Faults.Tests;

/// <summary>A change of a file that may not be on the disk yet.</summary>
/// <param name="Offset">Where it writes; without data, the length that the file is cut to, or −1: it is deleted.</param>
/// <param name="Data">What it writes; null: nothing.</param>
internal sealed record DiskChange(long Offset, byte[]? Data)
{
    internal const long Deleted = -1;
}
