namespace Cogwright.Faults.Tests;

/// <summary>How long the campaigns are: short in ./test, long with ./test --long.</summary>
internal static class Campaign
{
    internal static bool IsLong { get; } =
        Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1";

    internal static int Of(int few, int many) => IsLong ? many : few;

    /// <summary>Where figures go that nobody asserts: artifacts/reports.</summary>
    internal static void Report(string name, string text)
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Cogwright.slnx")))
        {
            folder = folder.Parent;
        }
        Assert.NotNull(folder);
        var reports = Directory.CreateDirectory(
            Path.Combine(folder.FullName, "artifacts", "reports")
        );
        File.WriteAllText(Path.Combine(reports.FullName, name), text);
    }
}
