using System.Runtime.InteropServices;

namespace Cogwright.Storage;

/// <summary>
/// Puts finished files on the disk, so that a power cut after the answer takes nothing back; and folders, which hold the files'
/// names. What is made here is for its owner alone.
/// </summary>
internal static class FolderSync
{
    internal const UnixFileMode ForOwner = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    private const UnixFileMode FolderForOwner = ForOwner | UnixFileMode.UserExecute;

    internal static void File(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        file.Flush(flushToDisk: true);
    }

    /// <summary>The names in a folder. Windows writes them by itself, and opens no folder.</summary>
    internal static void Folder(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }
        var folder = Open(path, 0);
        if (folder < 0)
        {
            throw new IOException($"{path}: {Marshal.GetLastPInvokeErrorMessage()}");
        }
        try
        {
            // A file system that cannot do this for folders says so and writes them in its own order.
            if (Sync(folder) != 0 && Marshal.GetLastPInvokeError() is not InvalidArgument)
            {
                throw new IOException($"{path}: {Marshal.GetLastPInvokeErrorMessage()}");
            }
        }
        finally
        {
            _ = Close(folder);
        }
    }

    /// <summary>Everything in a folder, and the folder.</summary>
    internal static void All(string path)
    {
        foreach (var file in Directory.EnumerateFiles(path, "*", SearchOption.AllDirectories))
        {
            File(file);
        }
        foreach (
            var folder in Directory.EnumerateDirectories(path, "*", SearchOption.AllDirectories)
        )
        {
            Folder(folder);
        }
        Folder(path);
    }

    /// <summary>Makes a folder, and those above it, if they are not there.</summary>
    internal static void Make(string path)
    {
        if (Directory.Exists(path))
        {
            return;
        }
        var above = Path.GetDirectoryName(
            Path.TrimEndingDirectorySeparator(Path.GetFullPath(path))
        );
        if (above is not null)
        {
            Make(above);
        }
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, FolderForOwner);
        }
        if (above is not null)
        {
            Folder(above);
        }
    }

    // EINVAL, the same on Linux and macOS.
    private const int InvalidArgument = 22;

#pragma warning disable SYSLIB1054, CA2101, CA5392 // Three calls of the C library, for which no generated code is worth its switch.
    [DllImport("libc", EntryPoint = "open", SetLastError = true)]
    private static extern int Open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static extern int Sync(int file);

    [DllImport("libc", EntryPoint = "close", SetLastError = true)]
    private static extern int Close(int file);
#pragma warning restore SYSLIB1054, CA2101, CA5392
}
