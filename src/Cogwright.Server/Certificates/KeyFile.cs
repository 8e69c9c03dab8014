namespace Cogwright.Server;

/// <summary>Files that only this user may read.</summary>
internal static class KeyFile
{
    private const UnixFileMode OwnOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes the folder, closed to everybody else.</summary>
    internal static void MakeFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, OwnOnly | UnixFileMode.UserExecute);
            File.SetUnixFileMode(folder, OwnOnly | UnixFileMode.UserExecute);
        }
    }

    /// <summary>Writes a secret whole or not at all: closed from its first byte on, on the disk before it has its name.</summary>
    internal static void Write(string path, string text)
    {
        var part = path + ".part";
        File.Delete(part);
        var options = new FileStreamOptions
        {
            Mode = FileMode.CreateNew,
            Access = FileAccess.Write,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = OwnOnly;
        }
        using (var stream = new FileStream(path: part, options))
        {
            stream.Write(System.Text.Encoding.ASCII.GetBytes(text));
            stream.Flush(flushToDisk: true);
        }
        File.Move(part, path, overwrite: true);
    }
}
