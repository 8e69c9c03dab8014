namespace Cogwright.Files.Tests;

/// <summary>
/// Files of the repository that are made from the code. With COGWRIGHT_STORE=1 in the environment a test run writes
/// them anew; without, they must equal what the code makes.
/// </summary>
internal static class Stored
{
    internal static void AssertEqual(string relative, string made)
    {
        if (Environment.GetEnvironmentVariable("COGWRIGHT_STORE") == "1")
        {
            File.WriteAllText(Repository.PathOf(relative), made);
        }
        Assert.Equal(Repository.Text(relative), made);
    }
}
