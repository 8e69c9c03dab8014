using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// A spec with other parts fitted: what it says of a part that is replaced is left out, the rest stands. The text is read
/// once; each fitting then costs no more than filling in.
/// </summary>
public sealed class SpecFitting
{
    private const string ChainLength = "chain.pitches";

    private readonly string fileName;
    private readonly MappingNode top;

    private SpecFitting(string fileName, MappingNode top, SpecFile spec)
    {
        this.fileName = fileName;
        this.top = top;
        Spec = spec;
        Build = SpecParts.BuildOf(spec);
    }

    /// <summary>The spec as it is.</summary>
    public SpecFile Spec { get; }

    /// <summary>Its parts as they are, with stand-ins for those that it describes without naming them.</summary>
    public Build Build { get; }

    /// <summary>Reads a spec into which parts are to be fitted.</summary>
    /// <param name="text">The content of the file.</param>
    /// <param name="fileName">What the file is called in messages.</param>
    /// <param name="library">The library in which the parts that it names are looked up.</param>
    /// <returns>The fitting, or null with the problems when the spec itself has errors.</returns>
    public static (SpecFitting? Fitting, SpecReading Reading) Of(
        string text,
        string fileName,
        PartLibrary library
    )
    {
        ArgumentNullException.ThrowIfNull(library);
        var reading = SpecReader.Read(text, fileName, library);
        return
            reading.Spec is { } spec && DocumentReader.Read(text, new(fileName)) is MappingNode top
            ? (new(fileName, top, spec), reading)
            : (null, reading);
    }

    /// <summary>The spec with these parts in the place of those that differ from them.</summary>
    /// <param name="build">The parts; stand-ins are as good as none. Adapters are the spec's own.</param>
    /// <param name="keepsChain">Whether the chain keeps its length, unless it is replaced itself; otherwise it is still to be chosen.</param>
    public SpecReading Fit(Build build, bool keepsChain = false)
    {
        ArgumentNullException.ThrowIfNull(build);
        var problems = new ProblemList(fileName);
        var withheld = new HashSet<string>(StringComparer.Ordinal);
        foreach (var part in build.Parts)
        {
            if (part.Id.Length > 0 && Build[part.Kind] is { } old && old.Id != part.Id)
            {
                withheld.UnionWith(
                    PartOwned
                        .PathsOf(part.Kind)
                        .Where(path =>
                            !keepsChain || path != ChainLength || part.Kind == PartKind.Chain
                        )
                );
            }
        }
        if (!keepsChain)
        {
            withheld.Add(ChainLength);
        }
        withheld.Add(PartsFields.Group);
        // Adapters at hand are not yet adapters fitted: only those that the spec names give it anything.
        var named = build.Parts.Where(part => part.Id.Length > 0).Concat(Spec.Parts.Adapters);
        return SpecReader.Read(Without(top, "", withheld), [.. named], problems);
    }

    /// <summary>The same group without the fields withheld; a group that holds nothing more goes with them.</summary>
    private static MappingNode Without(MappingNode group, string path, HashSet<string> withheld) =>
        group with
        {
            Entries =
            [
                .. group
                    .Entries.Select(entry => (Entry: entry, Path: Join(path, entry.Name)))
                    .Where(e => !withheld.Contains(e.Path))
                    .Select(e =>
                        e.Entry.Value is MappingNode inner
                            ? e.Entry with
                            {
                                Value = Without(inner, e.Path, withheld),
                            }
                            : e.Entry
                    )
                    .Where(entry => entry.Value is not MappingNode { Entries.IsEmpty: true }),
            ],
        };

    private static string Join(string path, string name) =>
        path.Length == 0 ? name : $"{path}.{name}";
}
