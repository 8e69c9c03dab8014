using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Reads the shop's torque tools, YAML or JSON, with the same care as <see cref="SpecReader"/>: tools, or errors with their
/// places, and nothing thrown for bad content.
/// </summary>
public static class TorqueToolsReader
{
    /// <summary>Reads tools from their text.</summary>
    /// <param name="text">The content of the file.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    public static TorqueToolsReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Check(text, problems), problems);
    }

    /// <summary>Reads tools from a stream of UTF-8; of a stream beyond <see cref="SpecReader.MostBytes"/> no more than that is read.</summary>
    /// <param name="stream">The content of the file; it stays open.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    /// <exception cref="IOException">The stream itself cannot be read.</exception>
    public static TorqueToolsReading Read(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Read(stream, problems), problems);
    }

    private static TorqueToolsReading Read(string? text, ProblemList problems)
    {
        ImmutableArray<TorqueTool>? tools = null;
        if (text is not null && DocumentReader.Read(text, problems) is { } top)
        {
            var leaves = new Leaves();
            new FieldReader(problems, leaves, TorqueToolFields.Tools).ReadTop(top);
            if (!leaves.AnyFailed)
            {
                tools = new TorqueToolsBinder(leaves, problems).Bind();
            }
        }
        return new(problems.AnyError ? null : tools, problems.Sorted());
    }
}

/// <summary>The JSON Schema (2020-12) of files of torque tools.</summary>
public static class TorqueToolsSchema
{
    /// <summary>The schema as indented JSON.</summary>
    public static string ToJson() =>
        SchemaText.Write(
            TorqueToolFields.Tools,
            "urn:cogwright:torque-tools:1",
            Texts.Get("schema.torqueTools")
        );
}
