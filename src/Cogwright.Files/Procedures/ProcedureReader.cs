using System.Collections.Immutable;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Setup.Procedures;

namespace Cogwright.Files;

/// <summary>
/// Reads procedure files, YAML or JSON, with the same care as <see cref="SpecReader"/>: a procedure, or errors with their
/// places, and nothing thrown for bad content.
/// </summary>
public static class ProcedureReader
{
    /// <summary>Reads a procedure from its text.</summary>
    /// <param name="text">The content of the file.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    public static ProcedureReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Check(text, problems), problems);
    }

    /// <summary>Reads a procedure from a stream of UTF-8; of a stream beyond <see cref="SpecReader.MostBytes"/> no more than that is read.</summary>
    /// <param name="stream">The content of the file; it stays open.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    /// <exception cref="IOException">The stream itself cannot be read.</exception>
    public static ProcedureReading Read(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Read(stream, problems), problems);
    }

    private static ProcedureReading Read(string? text, ProblemList problems)
    {
        Procedure? procedure = null;
        var leaves = new Leaves();
        if (text is not null && DocumentReader.Read(text, problems) is { } top)
        {
            new FieldReader(problems, leaves, ProcedureFields.Procedure).ReadTop(top);
            if (!leaves.AnyFailed)
            {
                procedure = new ProcedureBinder(leaves, problems).Bind();
            }
        }
        return new(problems.AnyError ? null : procedure, problems.Sorted())
        {
            Places = leaves.Places.ToImmutableDictionary(
                place => place.Key,
                place => (place.Value.Line, place.Value.Column)
            ),
        };
    }
}
