using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Server;

/// <summary>The parts that come into question for a search, few enough that it stays within time and memory.</summary>
internal static class Candidates
{
    /// <summary>Parts of one kind: the answers to each pair of two kinds are kept, 8 bytes each and more.</summary>
    internal const int MostOfAKind = 1000;

    /// <summary>Combinations: each that the rules leave is kept, some 40 bytes.</summary>
    internal const long MostCombinations = 5_000_000;

    /// <summary>
    /// Chooses them. Where there are too many, those are left out first to which a rule about them and the parts that stay
    /// says no; such a part could be in no answer.
    /// </summary>
    /// <param name="library">The library.</param>
    /// <param name="now">The parts that are there.</param>
    /// <param name="kinds">The kinds that may be replaced.</param>
    /// <param name="inStockOnly">Leaves out what is not in stock, or what nobody counts.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="ProblemException">There are too many all the same.</exception>
    internal static ImmutableDictionary<PartKind, ImmutableArray<Part>> Of(
        PartLibrary library,
        Build now,
        ImmutableArray<PartKind> kinds,
        bool inStockOnly,
        CancellationToken cancellation
    )
    {
        var all = kinds.ToImmutableDictionary(
            kind => kind,
            kind =>
                library.Of(kind).Where(part => !inStockOnly || part.InStock > 0).ToImmutableArray()
        );
        if (TooMany(all) is null)
        {
            return all;
        }
        var stays = kinds.Aggregate(now, (build, kind) => build.Without(kind));
        all = all.ToImmutableDictionary(
            each => each.Key,
            each => Possible(stays, each.Key, each.Value, cancellation)
        );
        return TooMany(all) is { } refusal ? throw refusal : all;
    }

    private static ImmutableArray<Part> Possible(
        Build stays,
        PartKind kind,
        ImmutableArray<Part> parts,
        CancellationToken cancellation
    )
    {
        var found = OptionSearch.Find(
            new OptionQuestion
            {
                Now = stays,
                Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>.Empty.Add(
                    kind,
                    parts
                ),
                Most = int.MaxValue,
            },
            cancellation: cancellation
        );
        var ids = found.Options.Select(option => option.Build[kind]!.Id).ToHashSet();
        // None: the search itself says then which rule is to blame, for which a few of them do.
        return ids.Count == 0
            ? [.. parts.Take(1)]
            : [.. parts.Where(part => ids.Contains(part.Id))];
    }

    private static ProblemException? TooMany(
        ImmutableDictionary<PartKind, ImmutableArray<Part>> all
    )
    {
        var combinations = all.Values.Aggregate(
            1.0,
            (product, parts) => product * Math.Max(1, parts.Length)
        );
        return combinations > MostCombinations || all.Values.Any(p => p.Length > MostOfAKind)
            ? new ProblemException(
                Problem.TooManyOptions,
                string.Join(
                    " × ",
                    all.OrderBy(each => each.Key)
                        .Select(each => $"{PartKinds.TitleOf(each.Key)}: {each.Value.Length}")
                ),
                MostOfAKind,
                MostCombinations
            )
            : null;
    }
}
