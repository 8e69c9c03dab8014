using System.Collections.Immutable;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

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
    /// <param name="parts">The library in which the spec's parts are looked up; none when null.</param>
    public static SpecReading Read(string text, string fileName, PartLibrary? parts = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Check(text, problems), parts, problems);
    }

    /// <summary>Reads a spec from a stream of UTF-8; of a stream beyond <see cref="MostBytes"/> no more than that is read.</summary>
    /// <param name="stream">The content of the file; it stays open.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    /// <param name="parts">The library in which the spec's parts are looked up; none when null.</param>
    /// <exception cref="IOException">The stream itself cannot be read.</exception>
    public static SpecReading Read(Stream stream, string fileName, PartLibrary? parts = null)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        var problems = new ProblemList(fileName);
        return Read(TextIntake.Read(stream, problems), parts, problems);
    }

    /// <summary>
    /// Reads what the file says, then fills in what it leaves out: from the parts it names, from its classes, from common
    /// practice, in this order.
    /// </summary>
    internal static ImmutableArray<Part> ReadInto(
        Leaves leaves,
        Node top,
        PartLibrary? parts,
        ProblemList problems
    )
    {
        var reader = new FieldReader(problems, leaves, SpecFields.Spec);
        reader.ReadWithoutMissing(top);
        var named = NamedParts.Resolve(leaves, parts ?? PartLibrary.Empty, problems);
        FillIn(reader, leaves, named, problems);
        return named;
    }

    /// <summary>Reads a spec whose parts are known, whatever it names itself.</summary>
    internal static SpecReading Read(Node top, ImmutableArray<Part> parts, ProblemList problems)
    {
        var leaves = new Leaves();
        var reader = new FieldReader(problems, leaves, SpecFields.Spec);
        reader.ReadWithoutMissing(top);
        FillIn(reader, leaves, parts, problems);
        return Bound(leaves, parts, problems);
    }

    private static void FillIn(
        FieldReader reader,
        Leaves leaves,
        ImmutableArray<Part> parts,
        ProblemList problems
    )
    {
        new PartFilling(leaves, problems).Fill(parts);
        reader.TellMissing();
        Assumed.Fill(leaves);
    }

    private static SpecReading Read(string? text, PartLibrary? parts, ProblemList problems)
    {
        if (text is null || DocumentReader.Read(text, problems) is not { } top)
        {
            return new(null, problems.Sorted());
        }
        var leaves = new Leaves();
        return Bound(leaves, ReadInto(leaves, top, parts, problems), problems);
    }

    private static SpecReading Bound(
        Leaves leaves,
        ImmutableArray<Part> parts,
        ProblemList problems
    )
    {
        SpecFile? spec = null;
        NeededFields.Check(leaves, problems);
        if (!leaves.AnyFailed)
        {
            spec = SpecBinder.Bind(leaves) with
            {
                Parts = NamedParts.WithOverrides(parts, leaves),
                FromParts = NamedParts.Supplied(leaves),
            };
            SpecChecks.Check(spec, leaves, problems);
        }
        return new(problems.AnyError ? null : spec, problems.Sorted());
    }
}
