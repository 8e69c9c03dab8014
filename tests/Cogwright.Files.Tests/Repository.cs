using System.Reflection;

namespace Cogwright.Files.Tests;

/// <summary>Files of the repository that the tests read.</summary>
internal static class Repository
{
    internal static string Root { get; } =
        Path.GetFullPath(
            typeof(Repository)
                .Assembly.GetCustomAttributes<AssemblyMetadataAttribute>()
                .Single(a => a.Key == "Repository")
                .Value!
        );

    internal static string PathOf(string relative) => Path.Combine(Root, relative);

    internal static string Text(string relative) => File.ReadAllText(PathOf(relative));

    /// <summary>The names of all demo specs, without folder.</summary>
    internal static IEnumerable<string> DemoSpecs =>
        Directory
            .EnumerateFiles(PathOf("demo/specs"), "*.yaml")
            .Select(f => Path.GetFileName(f)!)
            .Order(StringComparer.Ordinal);
}
