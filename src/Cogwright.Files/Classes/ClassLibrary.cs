using System.Collections.Immutable;
using System.Text;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files.Classes;

/// <summary>What a class of mechanism describes.</summary>
internal enum ClassKind
{
    Frame,
    Hanger,
    RearDerailleur,
    Cage,
    FrontDerailleur,
}

/// <summary>
/// The classes of mechanisms: invented, generic figures that stand in until somebody measures. They are data in
/// <c>classes.yaml</c>, read through the same field table as a spec.
/// </summary>
internal static class ClassLibrary
{
    private static readonly Lazy<MappingNode> Data = new(Load);

    private static readonly ImmutableDictionary<
        ClassKind,
        Lazy<ImmutableArray<(string Name, Leaves Leaves)>>
    > Kinds = Enum.GetValues<ClassKind>()
        .ToImmutableDictionary(
            kind => kind,
            kind => new Lazy<ImmutableArray<(string Name, Leaves Leaves)>>(() => ReadKind(kind))
        );

    /// <summary>The names of that kind, in the order of the data.</summary>
    internal static IReadOnlyList<string> Names(ClassKind kind) =>
        [.. EntriesOf(kind).Select(e => e.Name)];

    /// <summary>The values of a class, by paths within its group.</summary>
    internal static Leaves Values(ClassKind kind, string name) =>
        Kinds[kind].Value.First(c => c.Name == name).Leaves;

    /// <summary>How a value's origin is told: the name and what it is a class of.</summary>
    internal static string Label(ClassKind kind, string name) => Texts.Get("class." + kind, name);

    /// <summary>Where in a spec that kind of class is named.</summary>
    internal static string GroupPath(ClassKind kind) =>
        kind switch
        {
            ClassKind.Frame => "frame",
            ClassKind.Hanger => "hanger",
            ClassKind.RearDerailleur => "rearDerailleur",
            ClassKind.Cage => "rearDerailleur.cage",
            ClassKind.FrontDerailleur => "frontDerailleur",
            _ => throw new ArgumentOutOfRangeException(nameof(kind)),
        };

    private static GroupShape ShapeOf(ClassKind kind) =>
        kind switch
        {
            ClassKind.Frame => SpecFields.Frame,
            ClassKind.Hanger => SpecFields.Hanger,
            ClassKind.RearDerailleur => SpecFields.RearDerailleur,
            ClassKind.Cage => SpecFields.Cage,
            ClassKind.FrontDerailleur => FrontFields.FrontDerailleur,
            _ => throw new ArgumentOutOfRangeException(nameof(kind)),
        };

    private static MappingNode Load()
    {
        using var stream =
            typeof(ClassLibrary).Assembly.GetManifestResourceStream("Cogwright.Files.classes.yaml")
            ?? throw new InvalidOperationException("classes.yaml is not embedded");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var problems = new ProblemList("classes.yaml");
        var top = DocumentReader.Read(reader.ReadToEnd(), problems);
        StopOnProblem(problems);
        return (MappingNode)top!;
    }

    private static ImmutableArray<Entry> EntriesOf(ClassKind kind) =>
        ((MappingNode)Data.Value.Entries.First(e => e.Name == GroupPath(kind)).Value).Entries;

    private static ImmutableArray<(string Name, Leaves Leaves)> ReadKind(ClassKind kind)
    {
        var problems = new ProblemList("classes.yaml");
        var read = EntriesOf(kind)
            .Select(entry =>
            {
                var leaves = new Leaves();
                new FieldReader(problems, leaves, ShapeOf(kind)).ReadTop(entry.Value);
                return (entry.Name, leaves);
            })
            .ToImmutableArray();
        StopOnProblem(problems);
        return read;
    }

    /// <summary>A mistake in the program's own data is a mistake in the program and stops it.</summary>
    private static void StopOnProblem(ProblemList problems)
    {
        if (problems.AnyError)
        {
            throw new InvalidOperationException(string.Join('\n', problems.Sorted()));
        }
    }
}
