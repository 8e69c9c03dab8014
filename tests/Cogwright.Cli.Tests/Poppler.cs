using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Cogwright.Cli.Tests;

/// <summary>Reads PDFs with an outside program (poppler-utils), so that no part of the product judges its own paper.</summary>
internal static partial class Poppler
{
    internal static string Text(string pdf) => Run("pdftotext", "-layout", pdf, "-");

    internal static (double Width, double Height) PageSize(string pdf)
    {
        var size = Size().Match(Run("pdfinfo", pdf));
        return (
            double.Parse(size.Groups[1].Value, CultureInfo.InvariantCulture),
            double.Parse(size.Groups[2].Value, CultureInfo.InvariantCulture)
        );
    }

    private static string Run(string program, params string[] args)
    {
        using var process = Process.Start(
            new ProcessStartInfo(program, args) { RedirectStandardOutput = true }
        )!;
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
        return output;
    }

    [GeneratedRegex(@"Page size:\s+([\d.]+) x ([\d.]+)")]
    private static partial Regex Size();
}
