using System.Text.Json;
using Spectre.Console.Testing;

namespace Cogwright.Cli.Tests;

/// <summary>Runs commands in this process, as a script would see them.</summary>
internal static class CommandLine
{
    internal static (int Exit, string Output) Run(params string[] args)
    {
        using var console = new TestConsole();
        console.Profile.Width = 160;
        var exit = CogwrightApp.Run(args, console);
        return (exit, console.Output);
    }

    internal static (int Exit, JsonElement Json) RunJson(params string[] args)
    {
        var (exit, output) = Run([.. args, "--json"]);
        using var document = JsonDocument.Parse(output);
        return (exit, document.RootElement.Clone());
    }

    /// <summary>The repository's own file.</summary>
    internal static string InRepository(string relative)
    {
        for (
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            folder is not null;
            folder = folder.Parent
        )
        {
            if (File.Exists(Path.Combine(folder.FullName, "Cogwright.slnx")))
            {
                return Path.Combine(folder.FullName, relative);
            }
        }
        throw new DirectoryNotFoundException("Cogwright.slnx");
    }

    internal static string Spec(string name) => InRepository($"demo/specs/{name}.yaml");

    public static IEnumerable<TheoryDataRow<string>> DemoSpecs() =>
        Directory
            .GetFiles(InRepository("demo/specs"), "*.yaml")
            .Order(StringComparer.Ordinal)
            .Select(file => new TheoryDataRow<string>(Path.GetFileNameWithoutExtension(file)));
}

/// <summary>A folder that is gone after the test.</summary>
internal sealed class Scratch : IDisposable
{
    internal Scratch() => Directory.CreateDirectory(Folder);

    internal string Folder { get; } =
        Path.Combine(Path.GetTempPath(), $"cogwright-{Path.GetRandomFileName()}");

    internal string File(string name, string content)
    {
        var path = Path.Combine(Folder, name);
        System.IO.File.WriteAllText(path, content);
        return path;
    }

    internal string PathOf(string name) => Path.Combine(Folder, name);

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
