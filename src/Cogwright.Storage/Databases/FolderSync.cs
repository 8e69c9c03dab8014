namespace Cogwright.Storage;

/// <summary>Puts finished files on the disk, so that a power cut after the answer takes nothing back.</summary>
internal static class FolderSync
{
    internal static void File(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        file.Flush(flushToDisk: true);
    }
}
