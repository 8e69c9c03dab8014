using System.Text.Json;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Says which files a command wrote, and in JSON whatever more it has to say.</summary>
internal static class WrittenFiles
{
    internal static void Report(
        IAnsiConsole console,
        Bike bike,
        IReadOnlyList<string> files,
        bool json,
        Action<Utf8JsonWriter>? more = null
    )
    {
        if (json)
        {
            JsonAnswer.Write(
                console,
                writer =>
                {
                    Head.Write(writer, bike);
                    writer.Sentences("files", files);
                    GearTableJson.Findings(writer, bike);
                    writer.Assumed(bike.Spec.Assumptions);
                    more?.Invoke(writer);
                }
            );
            return;
        }
        Head.Show(console, bike);
        foreach (var file in files)
        {
            Screen.Line(console, file);
        }
        GearTableScreen.SeeFindings(console, bike);
        Screen.Assumed(console, bike.Spec);
    }
}
