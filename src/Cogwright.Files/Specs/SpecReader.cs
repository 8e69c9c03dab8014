using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Reads spec files, YAML or JSON. Whatever the content, it returns a spec or errors with their places; it throws
/// nothing for bad content. Lengths are mm, angles degrees and torques N·m unless a value names its unit.
/// </summary>
public static class SpecReader
{
    /// <summary>Greatest size of a file that is read (bytes); larger ones are refused at once.</summary>
    public const int MostBytes = TextIntake.MostBytes;

    /// <summary>Reads a spec from its text.</summary>
    /// <param name="text">The content of the file.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    public static SpecReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Check(text, problems), problems);
    }

    /// <summary>Reads a spec from a stream of UTF-8; of a stream beyond <see cref="MostBytes"/> no more than that is read.</summary>
    /// <param name="stream">The content of the file; it stays open.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    /// <exception cref="IOException">The stream itself cannot be read.</exception>
    public static SpecReading Read(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Read(stream, problems), problems);
    }

    private static SpecReading Read(string? text, ProblemList problems)
    {
        SpecFile? spec = null;
        if (text is not null && DocumentReader.Read(text, problems) is { } top)
        {
            var leaves = new Leaves();
            new FieldReader(problems, leaves, SpecFields.Spec).ReadTop(top);
            Assumed.Fill(leaves);
            NeededFields.Check(leaves, problems);
            if (!leaves.AnyFailed)
            {
                spec = SpecBinder.Bind(leaves);
                SpecChecks.Check(spec, leaves, problems);
            }
        }
        return new(problems.AnyError ? null : spec, problems.Sorted());
    }
}
