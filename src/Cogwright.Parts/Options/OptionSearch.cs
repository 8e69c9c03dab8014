using System.Collections.Immutable;
using Cogwright.Parts.Rules;

namespace Cogwright.Parts;

/// <summary>Which parts would work: every combination of candidates, by the rules first and then by the mechanism.</summary>
/// <remarks>
/// The candidates are chosen kind by kind. A rule is asked as soon as the last kind that it looks at is chosen, so that one
/// "no" rules out everything that would follow; of a rule about two kinds the answers for all pairs are made once. What the
/// rules leave is put in the order of its rank. The mechanism can only make a rank worse: it is solved from the best on,
/// and not any more once the worst that would be listed is better than what the rules alone say of the next.
/// </remarks>
public static class OptionSearch
{
    /// <summary>Judged between two looks at the cancellation and two reports of progress.</summary>
    private const int Block = 4096;

    /// <summary>Combinations whose mechanism is known already, between two looks.</summary>
    private const int Breath = 64;

    /// <summary>
    /// Most combinations that are searched, once the parts are left out that a rule about them alone refuses: each that the
    /// rules leave is kept, some 40 bytes.
    /// </summary>
    public const long MostCombinations = 5_000_000;

    /// <summary>Most parts of one kind: the answers to each pair of two kinds are kept.</summary>
    public const int MostOfAKind = 1000;

    /// <summary>Searches.</summary>
    /// <param name="question">What may be replaced by what.</param>
    /// <param name="progress">Told at each step how far it is; on the calling thread.</param>
    /// <param name="cancellation">Ends the search.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static OptionResult Find(
        OptionQuestion question,
        IProgress<OptionProgress>? progress = null,
        CancellationToken cancellation = default
    )
    {
        OptionResult? result = null;
        foreach (var step in Steps(question, found => result = found, cancellation))
        {
            progress?.Report(step);
        }
        return result!;
    }

    /// <summary>
    /// Searches step by step, for a page with one thread: between two steps it can draw, take input, or leave off.
    /// </summary>
    /// <param name="question">What may be replaced by what.</param>
    /// <param name="found">Told the result, after the last step.</param>
    /// <param name="cancellation">Ends the search.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static IEnumerable<OptionProgress> Steps(
        OptionQuestion question,
        Action<OptionResult> found,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(found);
        ArgumentOutOfRangeException.ThrowIfLessThan(question.Most, 1);
        return Steps();

        IEnumerable<OptionProgress> Steps()
        {
            var search = new Walk(question, cancellation);
            if (search.IsTooMuch)
            {
                search.Refuse(found);
                yield break;
            }
            foreach (var step in search.ByRules())
            {
                yield return step;
            }
            foreach (var step in search.ByMechanism(found))
            {
                yield return step;
            }
        }
    }

    /// <summary>A combination that the rules leave.</summary>
    private readonly record struct Left(OptionRank Rank, double Reserve);

    /// <summary>What is true of the parts chosen so far.</summary>
    private readonly record struct SoFar(
        Compatibility Answer,
        double Reserve,
        int Changes,
        int Stock,
        long Place
    );

    /// <summary>What the mechanism says of parts, whatever length their chain is sold in.</summary>
    private readonly record struct Solution(Compatibility Answer, double Reserve, int? Recommended);

    private sealed class Walk
    {
        private readonly OptionQuestion question;
        private readonly CancellationToken cancellation;

        /// <summary>The parts there are now with every adapter that may be used, those that are fitted first.</summary>
        private readonly Build now;
        private readonly ImmutableArray<PartKind> kinds;
        private readonly Part[][] candidates;
        private readonly Table[][] rulesAt;
        private readonly long[] below;
        private readonly Part?[] places;
        private readonly int[] chosen;
        private readonly List<Left> left = [];
        private readonly Dictionary<string, long> blocked = new(StringComparer.Ordinal);
        private readonly Dictionary<(long Parts, double? ChainWidthMm), Solution> known = [];
        private readonly long all;
        private long seen;
        private long nextReport = Block;
        private long byRules;
        private int solved;
        private long notServed;

        internal Walk(OptionQuestion question, CancellationToken cancellation)
        {
            this.question = question;
            this.cancellation = cancellation;
            now = question.Now.WithAdapters(question.AdaptersAtHand);
            kinds = [.. question.Candidates.Keys.Order()];
            candidates =
            [
                .. kinds.Select(kind =>
                    question.Candidates[kind].Where(part => part.Kind == kind).ToArray()
                ),
            ];
            all = Product(candidates);
            places = question.Now.Places.ToArray();
            foreach (var kind in kinds)
            {
                places[(int)kind] = null;
            }
            DropWhatNeverWorks();
            IsTooMuch =
                Product(candidates) > MostCombinations
                || candidates.Any(list => list.Length > MostOfAKind);
            if (IsTooMuch)
            {
                (rulesAt, below, chosen) = ([], [], []);
                return;
            }
            rulesAt = [.. kinds.Select((_, level) => TablesAt(level))];
            below = new long[kinds.Length + 1];
            below[kinds.Length] = 1;
            for (var level = kinds.Length - 1; level >= 0; level--)
            {
                below[level] = below[level + 1] * candidates[level].Length;
            }
            // What was dropped is seen already.
            seen = all - below[0];
            chosen = new int[kinds.Length];
        }

        internal bool IsTooMuch { get; }

        internal void Refuse(Action<OptionResult> tell) =>
            tell(
                new([], all, 0, 0, [])
                {
                    TooMany = [.. kinds.Select((kind, level) => (kind, candidates[level].Length))],
                }
            );

        /// <summary>How many combinations there are; as many as a number holds when there are more.</summary>
        private static long Product(Part[][] lists) =>
            lists.Aggregate(
                1L,
                (product, list) =>
                    list.Length > 0 && product > long.MaxValue / list.Length
                        ? long.MaxValue
                        : product * list.Length
            );

        /// <summary>
        /// Goes through the combinations, the last kind fastest. A candidate that a rule says no to is passed over with
        /// everything that would follow.
        /// </summary>
        internal IEnumerable<OptionProgress> ByRules()
        {
            if (kinds.IsEmpty || below[0] == 0)
            {
                yield break;
            }
            // What is true of the parts chosen so far, level by level; before the first nothing is said.
            var so = new SoFar[kinds.Length + 1];
            so[0] = new(Compatibility.Yes, double.NaN, 0, OptionRank.InStock, 0);
            var level = 0;
            chosen[0] = -1;
            while (level >= 0)
            {
                if (level == kinds.Length || ++chosen[level] == candidates[level].Length)
                {
                    if (level == kinds.Length)
                    {
                        Keep(so[level]);
                        seen++;
                    }
                    else
                    {
                        places[(int)kinds[level]] = null;
                    }
                    level--;
                }
                else if (Judge(level, so[level]) is { } next)
                {
                    so[++level] = next;
                    if (level < kinds.Length)
                    {
                        chosen[level] = -1;
                    }
                }
                else
                {
                    seen += below[level + 1];
                }
                if (seen >= nextReport)
                {
                    nextReport = seen + Block;
                    cancellation.ThrowIfCancellationRequested();
                    yield return new(seen, all, 0);
                }
            }
        }

        /// <summary>The parts so far with the candidate chosen at that level, or null when a rule says no.</summary>
        private SoFar? Judge(int level, in SoFar before)
        {
            var part = candidates[level][chosen[level]];
            places[(int)kinds[level]] = part;
            var (worst, least, stock) = (before.Answer, before.Reserve, before.Stock);
            foreach (var table in rulesAt[level])
            {
                var judgement = table.Judge(chosen, places, now.Adapters);
                if (judgement.Answer == Compatibility.No)
                {
                    Blocked(table.Title);
                    return null;
                }
                worst = (Compatibility)Math.Min((int)worst, (int)judgement.Answer);
                least = Least(least, judgement.Reserve);
                if (judgement.Adapter is { } adapter && !question.Now.Adapters.Contains(adapter))
                {
                    stock = Math.Min(stock, StockOf(adapter));
                }
            }
            var isNew = question.Now[kinds[level]]?.Id != part.Id;
            return new(
                worst,
                least,
                before.Changes + (isNew ? 1 : 0),
                isNew ? Math.Min(stock, StockOf(part)) : stock,
                (before.Place * candidates[level].Length) + chosen[level]
            );
        }

        private void Keep(in SoFar whole)
        {
            byRules++;
            left.Add(
                new(
                    new(
                        whole.Answer,
                        OptionRank.TenthsOf(whole.Reserve),
                        whole.Changes,
                        whole.Stock,
                        whole.Place
                    ),
                    whole.Reserve
                )
            );
        }

        internal IEnumerable<OptionProgress> ByMechanism(Action<OptionResult> tell)
        {
            left.Sort((a, b) => a.Rank.CompareTo(b.Rank));
            var most = question.Most;
            var found = new SortedList<OptionRank, (double Reserve, long Place)>();
            var judged = 0;
            foreach (var one in left)
            {
                if (++judged % Breath == 0)
                {
                    cancellation.ThrowIfCancellationRequested();
                    yield return new(seen, all, solved);
                }
                // The mechanism can only make it worse: what the rules say is the best that it can be.
                if (found.Count >= most && found.Keys[most - 1].CompareTo(one.Rank) < 0)
                {
                    break;
                }
                var (answer, reserve) = (one.Rank.Answer, one.Reserve);
                if (question.SpecOf is not null)
                {
                    var before = solved;
                    var (byModel, room) = Mechanism(one.Rank.Place);
                    if (solved != before)
                    {
                        judged = 0;
                        cancellation.ThrowIfCancellationRequested();
                        yield return new(seen, all, solved);
                    }
                    if (byModel == Compatibility.No)
                    {
                        notServed++;
                        continue;
                    }
                    answer = (Compatibility)Math.Min((int)answer, (int)byModel);
                    reserve = Least(reserve, room);
                }
                found.Add(
                    one.Rank with
                    {
                        Answer = answer,
                        Tenths = OptionRank.TenthsOf(reserve),
                    },
                    (reserve, one.Rank.Place)
                );
                if (found.Count > most)
                {
                    found.RemoveAt(most);
                }
            }
            tell(
                new(
                    [.. found.Select(f => OptionOf(f.Key, f.Value.Reserve))],
                    all,
                    byRules,
                    solved,
                    [
                        .. blocked
                            .OrderByDescending(b => b.Value)
                            .ThenBy(b => b.Key, StringComparer.Ordinal)
                            .Select(b => (b.Key, b.Value)),
                    ]
                )
                {
                    NotServed = notServed,
                }
            );
        }

        /// <summary>What of a combination the mechanism asks of, and its chain.</summary>
        private ((long Parts, double? ChainWidthMm) Key, Part? Chain) KeyOf(long place)
        {
            var chain = question.Now[PartKind.Chain];
            var key = 0L;
            var rest = place;
            for (var level = kinds.Length - 1; level >= 0; level--)
            {
                var list = candidates[level];
                var at = (int)(rest % list.Length);
                rest /= list.Length;
                if (kinds[level] == PartKind.Chain)
                {
                    chain = list[at];
                }
                else if (!MechanismRules.Ignored.Contains(kinds[level]))
                {
                    key = (key * list.Length) + at;
                }
            }
            return ((key, chain?.Number(PartFields.Width)), chain);
        }

        /// <summary>What the mechanism says of a combination: solved once for all that differ in nothing it asks of.</summary>
        private (Compatibility Answer, double Reserve) Mechanism(long place)
        {
            var (key, chain) = KeyOf(place);
            if (!known.TryGetValue(key, out var solution))
            {
                if (Solve(place) is not { } made)
                {
                    // Perhaps for what the mechanism does not ask of: it says nothing of the others.
                    return (Compatibility.CannotSay, double.NaN);
                }
                solution = made;
                known.Add(key, solution);
            }
            if (
                solution.Recommended is not { } needed
                || chain?.Number(PartFields.BoxedPitches) is not { } boxed
            )
            {
                return (solution.Answer, solution.Reserve);
            }
            var (answer, reserve) = MechanismRules.Boxed(boxed, needed);
            return (
                (Compatibility)Math.Min((int)solution.Answer, (int)answer),
                Least(solution.Reserve, reserve)
            );
        }

        /// <summary>The mechanism of a combination, or null when its figures make none.</summary>
        private Solution? Solve(long place)
        {
            var build = BuildAt(place);
            if (question.SpecOf!(build) is not { } spec)
            {
                return null;
            }
            solved++;
            var rules = MechanismRules.Of(spec, build);
            var (answer, reserve) = rules.Worst();
            return new Solution(answer, reserve, rules.RecommendedPitches);
        }

        private BuildOption OptionOf(OptionRank rank, double reserve) =>
            new(
                BuildAt(rank.Place),
                rank.Answer,
                double.IsNaN(reserve) ? null : reserve,
                rank.Changes,
                rank.Stock switch
                {
                    OptionRank.InStock => true,
                    OptionRank.NotCounted => null,
                    _ => false,
                }
            )
            {
                Pitches = known.TryGetValue(KeyOf(rank.Place).Key, out var solution)
                    ? solution.Recommended
                    : null,
            };

        private Build BuildAt(long place)
        {
            var build = now;
            for (var level = kinds.Length - 1; level >= 0; level--)
            {
                var list = candidates[level];
                build = build.With(list[(int)(place % list.Length)]);
                place /= list.Length;
            }
            return build;
        }

        /// <summary>Leaves out candidates that a rule about them and the parts that stay says no to.</summary>
        private void DropWhatNeverWorks()
        {
            for (var level = 0; level < kinds.Length; level++)
            {
                var kind = kinds[level];
                var rules = RuleCatalogue
                    .All.Where(rule =>
                        rule.Kinds.Contains(kind)
                        && !rule.Kinds.Any(other => other != kind && kinds.Contains(other))
                    )
                    .ToList();
                candidates[level] =
                [
                    .. candidates[level]
                        .Where(part =>
                        {
                            places[(int)kind] = part;
                            foreach (var rule in rules)
                            {
                                if (
                                    rule.Asks(places)
                                    && rule.Judge(places, now.Adapters).Answer == Compatibility.No
                                )
                                {
                                    Blocked(Texts.Get($"rule.{rule.Id}"));
                                    return false;
                                }
                            }
                            return true;
                        }),
                ];
                places[(int)kind] = null;
            }
        }

        /// <summary>The rules whose last open kind is the one at that level.</summary>
        private Table[] TablesAt(int level) =>
            [
                .. RuleCatalogue
                    .All.Where(rule => LastLevel(rule) == level)
                    .Select(rule => new Table(
                        rule,
                        [
                            .. Enumerable
                                .Range(0, kinds.Length)
                                .Where(l => rule.Kinds.Contains(kinds[l])),
                        ],
                        candidates
                    )),
            ];

        private int LastLevel(PartRule rule)
        {
            var last = -1;
            for (var level = 0; level < kinds.Length; level++)
            {
                last = rule.Kinds.Contains(kinds[level]) ? level : last;
            }
            return last;
        }

        private void Blocked(string title) => blocked[title] = blocked.GetValueOrDefault(title) + 1;

        private static int StockOf(Part part) =>
            part.InStock switch
            {
                null => OptionRank.NotCounted,
                > 0 => OptionRank.InStock,
                _ => OptionRank.NotInStock,
            };
    }

    private static double Least(double one, double other) =>
        double.IsNaN(one) ? other
        : double.IsNaN(other) ? one
        : Math.Min(one, other);

    /// <summary>A rule with the answers that it has given: of one about one or two open kinds each is made once.</summary>
    private sealed class Table
    {
        private readonly PartRule rule;
        private readonly int[] levels;
        private readonly int across;
        private readonly Judgement?[]? answers;

        internal Table(PartRule rule, int[] levels, Part[][] candidates)
        {
            this.rule = rule;
            this.levels = levels;
            Title = Texts.Get($"rule.{rule.Id}");
            if (levels.Length <= 2)
            {
                across = levels.Length == 2 ? candidates[levels[1]].Length : 1;
                answers = new Judgement?[candidates[levels[0]].Length * across];
            }
        }

        internal string Title { get; }

        internal Judgement Judge(int[] chosen, Part?[] places, ImmutableArray<Part> adapters)
        {
            if (answers is null)
            {
                return Ask(places, adapters);
            }
            var at = (chosen[levels[0]] * across) + (levels.Length == 2 ? chosen[levels[1]] : 0);
            return answers[at] ??= Ask(places, adapters);
        }

        /// <summary>A rule that does not ask has nothing against it.</summary>
        private Judgement Ask(Part?[] places, ImmutableArray<Part> adapters) =>
            rule.Asks(places) ? rule.Judge(places, adapters) : new(Compatibility.Yes);
    }
}
