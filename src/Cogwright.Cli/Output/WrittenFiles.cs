using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Says which files a command wrote.</summary>
internal static class WrittenFiles
{
    internal static void Report(
        IAnsiConsole console,
        Bike bike,
        IReadOnlyList<string> files,
        bool json
    )
    {
        if (json)
        {
            JsonAnswer.Write(
                console,
                writer =>
                {
                    writer.WriteString("name", bike.Spec.Name);
                    Head.Fit(writer, bike);
                    writer.Sentences("files", files);
                    writer.Assumed(bike.Spec.Assumptions);
                }
            );
            return;
        }
        Head.Fit(console, bike);
        foreach (var file in files)
        {
            Screen.Line(console, file);
        }
        if (!bike.Findings.IsEmpty)
        {
            Screen.Line(console, Texts.Get("findings.see", bike.Findings.Length));
        }
        Screen.Assumed(console, bike.Spec);
    }
}
