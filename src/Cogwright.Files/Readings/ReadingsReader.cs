using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Reads readings files, YAML or JSON, with the same care as <see cref="SpecReader"/>: readings, or errors with their
/// places, and nothing thrown for bad content.
/// </summary>
public static class ReadingsReader
{
    /// <summary>Reads readings from their text.</summary>
    /// <param name="text">The content of the file.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    public static ReadingsReading Read(string text, string fileName)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Check(text, problems), problems);
    }

    /// <summary>Reads readings from a stream of UTF-8; of a stream beyond <see cref="SpecReader.MostBytes"/> no more than that is read.</summary>
    /// <param name="stream">The content of the file; it stays open.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    /// <exception cref="IOException">The stream itself cannot be read.</exception>
    public static ReadingsReading Read(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Read(stream, problems), problems);
    }

    private static ReadingsReading Read(string? text, ProblemList problems)
    {
        ReadingsFile? file = null;
        if (text is not null && DocumentReader.Read(text, problems) is { } top)
        {
            var leaves = new Leaves();
            new FieldReader(problems, leaves, ReadingsFields.Readings).ReadTop(top);
            if (!leaves.AnyFailed)
            {
                file = new ReadingsBinder(leaves, problems).Bind();
            }
        }
        return new(problems.AnyError ? null : file, problems.Sorted());
    }
}
