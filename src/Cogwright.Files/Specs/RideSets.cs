using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Gearing;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Rings and cassette of a library as one set of gears to be ridden. Immutable.</summary>
/// <param name="Option">What the search for parts says of them.</param>
/// <param name="Candidate">The gears that they make; its id is made of the ids of the parts.</param>
/// <param name="PitchesNow">The length of the chain on the bike (pitches), or null when nobody said.</param>
public sealed record RideSet(BuildOption Option, RideCandidate Candidate, int? PitchesNow)
{
    /// <summary>Whether they need a chain of another length than the one on the bike.</summary>
    public bool NeedsOtherChain =>
        PitchesNow is { } now && Option.Pitches is { } needed && needed != now;

    /// <summary>Whether they belong together with the bike: with another chain only under that condition.</summary>
    public Compatibility Answer =>
        NeedsOtherChain && Option.Answer == Compatibility.Yes
            ? Compatibility.YesWith
            : Option.Answer;
}

/// <summary>
/// Rings and cassettes of a library that a bike may be ridden with: those alone that belong together with it and that its
/// derailleur serves. All others are counted, each for one reason. Immutable.
/// </summary>
public sealed record RideSets
{
    /// <summary>Most sets that are ridden: the best of the search for parts.</summary>
    public const int Most = 200;

    /// <summary>The kinds of part that make the gears.</summary>
    public static ImmutableArray<PartKind> Kinds { get; } = [PartKind.Rings, PartKind.Cassette];

    /// <summary>The sets to be ridden, the best by the rules first.</summary>
    public required ImmutableArray<RideSet> Sets { get; init; }

    /// <summary>Sets that the library has, the one on the bike among them.</summary>
    public required long All { get; init; }

    /// <summary>Those that a rule on paper refuses: they do not belong together with the bike.</summary>
    public required long Apart { get; init; }

    /// <summary>Those that would not be served: the mechanism says no to some gear of theirs.</summary>
    public required long NotServed { get; init; }

    /// <summary>Those that nothing speaks against and of which not all is known: nobody would buy them by that answer.</summary>
    public required long NotSaid { get; init; }

    /// <summary>Those that are on the bike now.</summary>
    public required long Present { get; init; }

    /// <summary>Those beyond <see cref="Most"/>, which were not looked at any more.</summary>
    public required long Further { get; init; }

    /// <summary>Whether there were too many parts to search through; then nothing was.</summary>
    public required bool IsTooMany { get; init; }

    /// <summary>What is looked through: the chain stays the same kind and gets the length that the gears then need, which each set tells.</summary>
    /// <param name="fitting">The bike.</param>
    /// <param name="library">Where the parts come from.</param>
    /// <param name="kinds">Which of <see cref="Kinds"/> may be replaced.</param>
    /// <param name="inStockOnly">Whether only parts and adapters in stock come into question.</param>
    /// <exception cref="ArgumentException">A kind is none of <see cref="Kinds"/>.</exception>
    public static OptionQuestion Question(
        SpecFitting fitting,
        PartLibrary library,
        ImmutableArray<PartKind> kinds,
        bool inStockOnly
    )
    {
        ArgumentNullException.ThrowIfNull(fitting);
        if (kinds.Except(Kinds).Any())
        {
            throw new ArgumentException(null, nameof(kinds));
        }
        // With the chain among the kinds its length is chosen anew; the only chain there is to choose is the one there is.
        var question = fitting.Ask(library, [.. kinds, PartKind.Chain], inStockOnly, Most);
        // To make a spec costs: what the search has made is not made again of the sets that it finds.
        var made = new Dictionary<string, DrivetrainSpec?>(StringComparer.Ordinal);
        return question with
        {
            Candidates = question.Now[PartKind.Chain] is { } chain
                ? question.Candidates.SetItem(PartKind.Chain, [chain])
                : question.Candidates.Remove(PartKind.Chain),
            SpecOf = build =>
            {
                var id = IdOf(build);
                if (!made.TryGetValue(id, out var spec))
                {
                    made.Add(id, spec = question.SpecOf!(build));
                }
                return spec;
            },
        };
    }

    /// <summary>What a search for them found.</summary>
    /// <param name="question">What was looked through.</param>
    /// <param name="found">What was found.</param>
    /// <param name="pitchesNow">The length of the chain on the bike (pitches), or null when nobody said.</param>
    public static RideSets Of(OptionQuestion question, OptionResult found, int? pitchesNow)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(found);
        var others = found.Options.Where(option => option.Changes > 0).ToList();
        var sets = others
            .Where(option => option.Answer is Compatibility.Yes or Compatibility.YesWith)
            .Select(option => (Option: option, Spec: question.SpecOf?.Invoke(option.Build)))
            .Where(each => each.Spec is not null)
            .Select(each => new RideSet(
                each.Option,
                new(IdOf(each.Option.Build), SpecGears.Of(each.Spec!)),
                pitchesNow
            ))
            .ToImmutableArray();
        return new()
        {
            Sets = sets,
            All = found.Combinations,
            IsTooMany = !found.TooMany.IsEmpty,
            Apart = found.TooMany.IsEmpty ? found.Combinations - found.ByRules : 0,
            NotServed = found.NotServed,
            NotSaid = others.Count - sets.Length,
            Present = found.Options.Length - others.Count,
            Further = found.ByRules - found.NotServed - found.Options.Length,
        };
    }

    /// <summary>How many sets were looked through and what became of them, in a sentence for each that there is something to say of.</summary>
    public ImmutableArray<string> Said() =>
        IsTooMany
            ? [Texts.Get("rideSets.tooMany", OptionSearch.MostCombinations)]
            :
            [
                Texts.Get("rideSets.counted", All, Apart, NotServed, NotSaid, Sets.Length),
                .. Further > 0 ? new[] { Texts.Get("rideSets.further", Further, Most) } : [],
                .. !Sets.IsEmpty ? []
                : NotSaid > 0 ? new[] { Texts.Get("rideSets.noneSure") }
                : [Texts.Get("rideSets.none")],
            ];

    /// <summary>What to know of the chain lengths that the sets need.</summary>
    public string ChainSaid =>
        Sets is [{ PitchesNow: { } now }, ..]
            ? Texts.Get("rideSets.chain", now)
            : Texts.Get("rideSets.chain.unknown");

    /// <summary>The names of the parts that may be replaced, such as "Rings 50/34 + Pell 12, 11-34".</summary>
    public static string NameOf(Build build)
    {
        ArgumentNullException.ThrowIfNull(build);
        return string.Join(" + ", Kinds.Select(kind => build[kind]?.Name).OfType<string>());
    }

    private static string IdOf(Build build) =>
        string.Join('+', Kinds.Select(kind => build[kind]?.Id).Where(id => id is { Length: > 0 }));
}
