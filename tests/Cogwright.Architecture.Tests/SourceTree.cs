using System.Xml.Linq;

namespace Cogwright.Architecture.Tests;

/// <summary>The files of the clone that these tests were built from.</summary>
public static class SourceTree
{
    private static readonly string[] TopFolders =
    [
        "src",
        "tests",
        "benchmarks",
        "demo",
        "docs",
        "testdata",
    ];

    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Every C# source file of the product and its tests, as a path from the root.</summary>
    public static IEnumerable<string> CSharpFiles =>
        Folders
            .SelectMany(folder => Directory.EnumerateFiles(folder, "*.cs"))
            .Select(file => Path.GetRelativePath(Root, file));

    /// <summary>Every project file, as a path from the root.</summary>
    public static IEnumerable<string> ProjectFiles =>
        Folders
            .SelectMany(folder => Directory.EnumerateFiles(folder, "*.csproj"))
            .Select(file => Path.GetRelativePath(Root, file));

    /// <summary>Every folder that people write in, as a full path; what a build makes is left out.</summary>
    public static IEnumerable<string> Folders =>
        TopFolders
            .Select(top => Path.Combine(Root, top))
            .Where(Directory.Exists)
            .SelectMany(WithFoldersBelow);

    /// <summary>Reads a file given by its path from the root.</summary>
    public static string Text(string path) => File.ReadAllText(Path.Combine(Root, path));

    /// <summary>Reads a project or property file given by its path from the root.</summary>
    public static XElement Xml(string path) => XElement.Parse(Text(path));

    private static IEnumerable<string> WithFoldersBelow(string folder) =>
        Directory
            .EnumerateDirectories(folder)
            .Where(below => Path.GetFileName(below) is not ("bin" or "obj" or "artifacts"))
            .SelectMany(WithFoldersBelow)
            .Prepend(folder);

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Cogwright.slnx")))
        {
            folder = folder.Parent;
        }
        return folder?.FullName
            ?? throw new DirectoryNotFoundException(
                $"No Cogwright.slnx above {AppContext.BaseDirectory}; run the tests from their clone."
            );
    }
}
