using System.Collections.Immutable;
using System.Text;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Web.Specs;

/// <summary>A problem of a file beside its line. Immutable.</summary>
/// <param name="Line">Line, counted from 1.</param>
/// <param name="Column">Column, counted from 1.</param>
/// <param name="Text">The line, or the part of a long line that matters.</param>
/// <param name="Mark">Blanks and one mark, so that it stands under the place when both are set in letters of one width.</param>
/// <param name="Message">What is wrong and what to do.</param>
/// <param name="IsError">True when the file cannot be used.</param>
public sealed record MarkedLine(
    int Line,
    int Column,
    string Text,
    string Mark,
    string Message,
    bool IsError
);

/// <summary>A file that somebody wants to bring in, checked. Immutable.</summary>
public sealed record FileCheck
{
    private const int LineLength = 60;
    private const int Before = 24;

    private FileCheck() { }

    /// <summary>What the file is called.</summary>
    public required string Name { get; init; }

    /// <summary>Its problems beside their lines, in the order of the file.</summary>
    public required ImmutableArray<MarkedLine> Lines { get; init; }

    /// <summary>The sheet, or null when there is an error.</summary>
    public SpecSheet? Sheet { get; private init; }

    /// <summary>What the bike is called in it.</summary>
    public string BikeName => Sheet?["name"] ?? "";

    /// <summary>Checks a text that was pasted.</summary>
    /// <param name="text">The text.</param>
    /// <param name="name">What it is called in messages.</param>
    /// <param name="parts">The library in which the parts that it names are looked up; none when null.</param>
    public static FileCheck Of(string text, string name, PartLibrary? parts = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Made(SpecReader.Read(text, name, parts), text, name);
    }

    /// <summary>Checks the bytes of a file.</summary>
    /// <param name="bytes">What is in the file.</param>
    /// <param name="name">What it is called in messages.</param>
    /// <param name="parts">The library in which the parts that it names are looked up; none when null.</param>
    public static FileCheck Of(byte[] bytes, string name, PartLibrary? parts = null)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        using var stream = new MemoryStream(bytes);
        return Made(SpecReader.Read(stream, name, parts), Encoding.UTF8.GetString(bytes), name);
    }

    private static FileCheck Made(SpecReading reading, string text, string name)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        return new()
        {
            Name = name,
            Lines = [.. reading.Problems.Select(problem => Marked(problem, lines))],
            Sheet = reading.Spec is null ? null : SpecSheet.Read(text, name).Sheet,
        };
    }

    private static MarkedLine Marked(FileProblem problem, string[] lines)
    {
        var whole = problem.Line <= lines.Length ? lines[problem.Line - 1].TrimStart('\uFEFF') : "";
        var line = string.Concat(whole.Select(c => char.IsControl(c) ? ' ' : c)).TrimEnd();
        var at = Math.Clamp(problem.Column - 1, 0, line.Length);
        var start = line.Length <= LineLength ? 0 : Math.Max(0, at - Before);
        var end = Math.Min(line.Length, start + LineLength);
        var shown = (start > 0 ? "…" : "") + line[start..end] + (end < line.Length ? "…" : "");
        return new(
            problem.Line,
            problem.Column,
            shown,
            new string(' ', at - start + (start > 0 ? 1 : 0)) + "^",
            problem.Message,
            problem.IsError
        );
    }
}
