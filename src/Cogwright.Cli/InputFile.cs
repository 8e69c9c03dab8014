namespace Cogwright.Cli;

/// <summary>Opens what a mechanic names on the command line.</summary>
internal static class InputFile
{
    /// <summary>The file's content as a stream.</summary>
    /// <exception cref="BadInputException">There is no such file, or it is a folder.</exception>
    internal static FileStream Open(string path)
    {
        if (Directory.Exists(path))
        {
            throw new BadInputException(Texts.Get("file.isFolder", path));
        }
        if (!File.Exists(path))
        {
            throw new BadInputException(Texts.Get("file.missing", path));
        }
        return new(path, FileMode.Open, FileAccess.Read, FileShare.Read);
    }
}
