using System.Text.RegularExpressions;

namespace Cogwright.Architecture.Tests;

/// <summary>Holds what is agreed about files: names, lengths, docs, versions, sentences.</summary>
public sealed partial class SourceTests
{
    // What one sitting can read. A longer file holds more than one thing.
    private const int LongestFileInLines = 600;

    [Theory]
    [InlineData("Core")]
    [InlineData("Cogwright.Common")]
    [InlineData("ChainHelper")]
    [InlineData("StringUtils")]
    [InlineData("JobManager")]
    [InlineData("helpers")]
    [InlineData("XMLHelper")]
    public void Name_WithoutMeaning_IsCaught(string name) => Assert.True(Names.SaysNothing(name));

    [Theory]
    [InlineData("CommonPractice")]
    [InlineData("Scored")]
    [InlineData("Cogwright.Drivetrain")]
    [InlineData("HelperBolt")]
    [InlineData("")]
    public void Name_WithMeaning_IsLeftAlone(string name) => Assert.False(Names.SaysNothing(name));

    [Fact]
    public void Folders_HaveNamesThatSaySomething() =>
        Assert.DoesNotContain(
            SourceTree.Folders,
            folder => Names.SaysNothing(Path.GetFileName(folder))
        );

    [Fact]
    public void Projects_HaveNamesThatSaySomething() =>
        Assert.DoesNotContain(
            SourceTree.ProjectFiles,
            file => Names.SaysNothing(Path.GetFileNameWithoutExtension(file))
        );

    [Theory]
    [MemberData(nameof(Room.Names), MemberType = typeof(Room))]
    public void TypesAndNamespaces_HaveNamesThatSaySomething(string name) =>
        Assert.DoesNotContain(
            UseScan.TypesOf(Room.Named(name)),
            type => Names.SaysNothing(type.Name) || type.Namespace.Split('.').Any(Names.SaysNothing)
        );

    [Theory]
    [MemberData(nameof(Room.Names), MemberType = typeof(Room))]
    public void Namespaces_BeginWithTheRoom(string name) =>
        Assert.DoesNotContain(
            UseScan.TypesOf(Room.Named(name)).Where(type => type.Namespace.Length > 0),
            type =>
                type.Namespace != name
                && !type.Namespace.StartsWith(name + ".", StringComparison.Ordinal)
                && !IsEmbeddedByCompiler(type.Namespace)
        );

    [Fact]
    public void SourceFiles_CanBeReadInOneSitting()
    {
        var tooLong = SourceTree
            .CSharpFiles.Where(file => !IsWrittenByTool(file))
            .Select(file => (file, Lines: SourceTree.Text(file).Count(c => c == '\n')))
            .Where(each => each.Lines > LongestFileInLines);

        Assert.Empty(tooLong);
    }

    [Theory]
    [InlineData("Nullable", "enable")]
    [InlineData("TreatWarningsAsErrors", "true")]
    [InlineData("GenerateDocumentationFile", "true")]
    [InlineData("EnforceCodeStyleInBuild", "true")]
    [InlineData("Deterministic", "true")]
    public void Build_HoldsEveryProject_ToTheStrictSetting(string property, string value)
    {
        Assert.Equal(value, Property("Directory.Build.props", property));

        // What stands in a project would win over what stands here.
        Assert.DoesNotContain(
            SourceTree.ProjectFiles,
            file => Property(file, property) is { } own && own != value
        );
    }

    [Fact]
    public void Sources_DoNotSilenceMissingDocs()
    {
        var inProjects = SourceTree
            .ProjectFiles.Where(IsProduct)
            .Where(file => Property(file, "NoWarn") is not null);
        var inCode = SourceTree
            .CSharpFiles.Where(IsProduct)
            .Where(file => SourceTree.Text(file).Contains("CS1591", StringComparison.Ordinal));

        Assert.Empty(inProjects.Concat(inCode));
    }

    [Fact]
    public void Packages_HaveTheirVersions_InOnePlace()
    {
        Assert.Equal(
            "true",
            Property("Directory.Packages.props", "ManagePackageVersionsCentrally")
        );
        Assert.DoesNotContain(
            SourceTree.ProjectFiles,
            file =>
                SourceTree
                    .Xml(file)
                    .Descendants("PackageReference")
                    .Any(package =>
                        package.Attribute("Version") is not null
                        || package.Attribute("VersionOverride") is not null
                        || package.Element("Version") is not null
                    )
        );
    }

    [Theory]
    [MemberData(nameof(Room.Names), MemberType = typeof(Room))]
    public void Sentences_ThatCodeAsksFor_StandInTheRoomsTexts(string name)
    {
        var room = Room.Named(name);
        var keys = SourceTree
            .Text($"src/{name}/Texts.restext")
            .Split('\n')
            .Where(line => line.Contains('=') && !line.StartsWith('#'))
            .Select(line => line.Split('=')[0].Trim())
            .ToList();
        var asked = Directory
            .EnumerateFiles(room.Folder, "*.*", SearchOption.AllDirectories)
            .Where(file => Path.GetExtension(file) is ".cs" or ".razor")
            .SelectMany(file => TextKey().Matches(File.ReadAllText(file)))
            .Select(match => match.Groups[1].Value);

        Assert.Empty(asked.Except(keys));
        Assert.Equal(keys.Distinct(), keys);
    }

    // Changes of tables, written by dotnet ef.
    private static bool IsWrittenByTool(string file) =>
        file.StartsWith("src/Cogwright.Storage/Migrations/", StringComparison.Ordinal);

    private static bool IsProduct(string file) => file.StartsWith("src", StringComparison.Ordinal);

    private static bool IsEmbeddedByCompiler(string name) =>
        name is "Microsoft.CodeAnalysis" or "Microsoft.Extensions.Validation.Embedded"
        || name.StartsWith("System.", StringComparison.Ordinal);

    private static string? Property(string file, string name) =>
        SourceTree.Xml(file).Descendants(name).LastOrDefault()?.Value;

    [GeneratedRegex("""Texts\.Get\(\s*"([^"]+)"\s*[,)]""")]
    private static partial Regex TextKey();
}
