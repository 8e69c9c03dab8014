using System.Collections.Immutable;
using Cogwright.Care;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>What a file of wear says. Immutable.</summary>
/// <param name="Code">A code of the bike for its reminders, or null.</param>
/// <param name="Facts">The bike's chains and parts.</param>
/// <param name="Table">The shop's limits and intervals; common practice for what the file leaves out.</param>
public sealed record WearFile(string? Code, CareFacts Facts, CareTable Table);

/// <summary>The outcome of reading a file of wear. Immutable.</summary>
/// <param name="File">The file, or null when any problem is an error. Every reading in it can be reckoned with.</param>
/// <param name="Problems">The problems in the order of the file; remarks may stand beside a file.</param>
public sealed record WearFileReading(WearFile? File, ImmutableArray<FileProblem> Problems);

/// <summary>
/// Reads files of wear and care, YAML or JSON, with the same care as <see cref="SpecReader"/>: a file, or errors with their
/// places, and nothing thrown for bad content.
/// </summary>
public static class WearReader
{
    /// <summary>Reads a file from its text.</summary>
    /// <param name="text">The content of the file.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    public static WearFileReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Check(text, problems), problems);
    }

    /// <summary>Reads a file from a stream of UTF-8; of a stream beyond <see cref="SpecReader.MostBytes"/> no more than that is read.</summary>
    /// <param name="stream">The content of the file; it stays open.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    /// <exception cref="IOException">The stream itself cannot be read.</exception>
    public static WearFileReading Read(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Read(stream, problems), problems);
    }

    private static WearFileReading Read(string? text, ProblemList problems)
    {
        WearFile? file = null;
        if (text is not null && DocumentReader.Read(text, problems) is { } top)
        {
            var leaves = new Leaves();
            new FieldReader(problems, leaves, WearFields.Wear).ReadTop(top);
            if (!leaves.AnyFailed)
            {
                file = new WearBinder(leaves, problems).Bind();
            }
        }
        return new(problems.AnyError ? null : file, problems.Sorted());
    }
}

/// <summary>The JSON Schema (2020-12) of files of wear.</summary>
public static class WearSchema
{
    /// <summary>The schema as indented JSON.</summary>
    public static string ToJson() =>
        SchemaText.Write(WearFields.Wear, "urn:cogwright:wear:1", Texts.Get("schema.wear"));
}
