namespace Cogwright.Log.Tests;

/// <summary>Files of the clone that these tests were built from.</summary>
internal static class Repository
{
    internal static string PathOf(string relative)
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Cogwright.slnx")))
        {
            folder = folder.Parent;
        }
        Assert.NotNull(folder);
        return Path.Combine(folder.FullName, relative);
    }
}
