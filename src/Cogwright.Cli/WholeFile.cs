namespace Cogwright.Cli;

/// <summary>Writes an output file whole or not at all.</summary>
internal static class WholeFile
{
    /// <summary>
    /// Writes beside the target, brings it to the disk, then puts it in place in one move; whatever fails, the old
    /// file stays and no part of the new one is left.
    /// </summary>
    internal static void Write(string path, ReadOnlySpan<byte> content)
    {
        var full = Path.GetFullPath(path);
        if (Directory.Exists(full))
        {
            throw new BadInputException(Texts.Get("file.isFolder", path));
        }
        Directory.CreateDirectory(Path.GetDirectoryName(full)!);
        var beside = $"{full}.{Environment.ProcessId}.part";
        try
        {
            using (
                var stream = new FileStream(
                    beside,
                    FileMode.Create,
                    FileAccess.Write,
                    FileShare.None
                )
            )
            {
                stream.Write(content);
                stream.Flush(flushToDisk: true);
            }
            File.Move(beside, full, overwrite: true);
        }
        catch
        {
            File.Delete(beside);
            throw;
        }
    }
}
