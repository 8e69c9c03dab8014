using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
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
    private readonly string fileName;
    private readonly MappingNode top;
    private readonly MeasuredGeometry? measured;

    private SpecFitting(
        string fileName,
        MappingNode top,
        SpecFile spec,
        MeasuredGeometry? measured = null
    )
    {
        this.fileName = fileName;
        this.top = top;
        this.measured = measured;
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

    /// <summary>Whether the bike was measured on the bench, so that <see cref="With(BenchFit)"/> has something to say.</summary>
    public bool IsMeasured => Spec.Drivetrain.Measured is { Readings.IsEmpty: false };

    /// <summary>
    /// The same fitting with what the measurements come to: the mechanism is judged with it wherever the parts stay on which it
    /// was measured, and the readings themselves, which name cogs of the bike as it is, are in no spec with other parts.
    /// </summary>
    /// <param name="fit">The fit of <see cref="Spec"/>.</param>
    public SpecFitting With(BenchFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return new(fileName, top, Spec, new(Spec, fit));
    }

    /// <summary>The same fitting with its measurements worked out, which takes a moment (seconds in a browser); itself without any.</summary>
    public SpecFitting WithMeasured() =>
        IsMeasured ? With(BenchGeometry.Fit(Spec.Drivetrain)) : this;

    /// <summary>Judges and solves the bike as it is.</summary>
    /// <param name="library">Where adapters at hand come from.</param>
    public FittedSpec Judge(PartLibrary library) =>
        FittedSpec.Of(Spec, library, measured?.Before ?? Spec.Drivetrain);

    /// <summary>Judges and solves a spec that <see cref="Fit"/> gave.</summary>
    /// <param name="fitted">The spec.</param>
    /// <param name="library">Where adapters at hand come from.</param>
    public FittedSpec Judge(SpecFile fitted, PartLibrary library)
    {
        ArgumentNullException.ThrowIfNull(fitted);
        return FittedSpec.Of(fitted, library, MechanismOf(fitted));
    }

    private DrivetrainSpec MechanismOf(SpecFile fitted) =>
        measured?.On(fitted) ?? fitted.Drivetrain;

    /// <summary>The spec with these parts in the place of those that differ from them.</summary>
    /// <param name="build">The parts; stand-ins are as good as none. Adapters are the spec's own.</param>
    /// <param name="keepsChain">Whether the chain keeps its length, unless it is replaced itself; otherwise it is still to be chosen.</param>
    public SpecReading Fit(Build build, bool keepsChain = false)
    {
        ArgumentNullException.ThrowIfNull(build);
        var problems = new ProblemList(fileName);
        var replacing = build
            .Parts.Where(part =>
                part.Id.Length > 0 && Build[part.Kind] is { } old && old.Id != part.Id
            )
            .ToImmutableArray();
        var withheld = new Withheld(replacing);
        if (keepsChain)
        {
            if (!replacing.Any(part => part.Kind == PartKind.Chain))
            {
                withheld.Paths.Remove(PartOwned.ChainLength);
            }
        }
        else
        {
            withheld.Paths.Add(PartOwned.ChainLength);
        }
        if (measured is not null)
        {
            withheld.Paths.Add(PartOwned.Measured);
        }
        withheld.Paths.Add(PartsFields.Group);
        // Adapters at hand are not yet adapters fitted: only those that the spec names give it anything.
        var named = build.Parts.Where(part => part.Id.Length > 0).Concat(Spec.Parts.Adapters);
        return SpecReader.Read(withheld.From(top, ""), [.. named], problems);
    }

    /// <summary>What a search for parts that would work starts from.</summary>
    /// <param name="library">Where candidates, and adapters at hand, come from.</param>
    /// <param name="kinds">The kinds that may be replaced, without adapters; a chain that stays keeps its length.</param>
    /// <param name="inStockOnly">Whether only parts and adapters in stock come into question; what is fitted stays.</param>
    /// <param name="most">Most options that are listed.</param>
    public OptionQuestion Ask(
        PartLibrary library,
        ImmutableArray<PartKind> kinds,
        bool inStockOnly,
        int most
    )
    {
        ArgumentNullException.ThrowIfNull(library);
        var keepsChain = !kinds.Contains(PartKind.Chain);
        return new()
        {
            Now = Build,
            AdaptersAtHand =
            [
                .. library
                    .Of(PartKind.Adapter)
                    .Where(adapter => !inStockOnly || adapter.InStock > 0)
                    // Of two that lead to the same, the one that is here.
                    .OrderByDescending(adapter => adapter.InStock > 0),
            ],
            Candidates = kinds.ToImmutableDictionary(
                kind => kind,
                kind =>
                    library
                        .Of(kind)
                        .Where(part => !inStockOnly || part.InStock > 0)
                        .ToImmutableArray()
            ),
            Most = most,
            SpecOf = build =>
                Fit(build, keepsChain).Spec is { } fitted ? MechanismOf(fitted) : null,
        };
    }

    /// <summary>What of a document is left out, because it tells of parts that are replaced.</summary>
    private sealed class Withheld(ImmutableArray<Part> replacing)
    {
        /// <summary>Fields in the form of the field table.</summary>
        internal HashSet<string> Paths { get; } =
            replacing.SelectMany(part => PartOwned.PathsOf(part)).ToHashSet(StringComparer.Ordinal);

        /// <summary>The same group without them; a group that holds nothing more goes with them.</summary>
        internal MappingNode From(MappingNode group, string path) =>
            group with
            {
                Entries =
                [
                    .. group
                        .Entries.Select(entry => (Entry: entry, Path: Join(path, entry.Name)))
                        .Where(e => !Paths.Contains(e.Path))
                        .Select(e => e.Entry with { Value = From(e.Entry.Value, e.Path) })
                        .Where(entry =>
                            entry.Value
                                is not (
                                    MappingNode { Entries.IsEmpty: true }
                                    or SequenceNode { Items.IsEmpty: true }
                                )
                        ),
                ],
            };

        private Node From(Node node, string path) =>
            node switch
            {
                MappingNode inner => From(inner, path),
                SequenceNode list => list with
                {
                    Items =
                    [
                        .. list
                            .Items.Where(item => path != PartOwned.Adjusters || !IsOfOldPart(item))
                            .Select(item => From(item, path + "[]")),
                    ],
                },
                _ => node,
            };

        private bool IsOfOldPart(Node adjuster) =>
            adjuster is MappingNode mapping
            && mapping.Entries.FirstOrDefault(e => e.Name == "moves").Value is ScalarNode moves
            && replacing.Any(part => PartOwned.OwnsAdjuster(part, moves.Text));
    }

    private static string Join(string path, string name) =>
        path.Length == 0 ? name : $"{path}.{name}";
}
