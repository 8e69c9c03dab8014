using System.Globalization;
using System.Reflection;

namespace Cogwright.Gearing.Tests;

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

    /// <summary>The rows of a file of published values: numbers, comments and heading left out.</summary>
    internal static IEnumerable<double[]> Published(string name) =>
        File.ReadLines(PathOf($"testdata/published/{name}.csv"))
            .Where(line => line.Length > 0 && (char.IsAsciiDigit(line[0]) || line[0] == '-'))
            .Select(line =>
                line.Split(',')
                    .Select(cell => double.Parse(cell, CultureInfo.InvariantCulture))
                    .ToArray()
            );
}
