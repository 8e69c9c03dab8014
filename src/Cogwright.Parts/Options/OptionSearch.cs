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

    /// <summary>Mechanisms solved between two reports of progress.</summary>
    private const int SolvedBlock = 64;

    /// <summary>Searches.</summary>
    /// <param name="question">What may be replaced by what.</param>
    /// <param name="progress">Told now and then how far it is; on the calling thread.</param>
    /// <param name="cancellation">Ends the search.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static OptionResult Find(
        OptionQuestion question,
        IProgress<OptionProgress>? progress = null,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(question);
        var search = new Walk(question, progress, cancellation);
        search.ByRules();
        return search.ByMechanism();
    }

    /// <summary>A combination that the rules leave.</summary>
    private readonly record struct Left(OptionRank Rank, double Reserve);

    /// <summary>What the mechanism says of parts, whatever length their chain is sold in.</summary>
    private readonly record struct Solution(Compatibility Answer, double Reserve, int? Recommended);

    private sealed class Walk
    {
        private readonly OptionQuestion question;
        private readonly IProgress<OptionProgress>? progress;
        private readonly CancellationToken cancellation;
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

        internal Walk(
            OptionQuestion question,
            IProgress<OptionProgress>? progress,
            CancellationToken cancellation
        )
        {
            this.question = question;
            this.progress = progress;
            this.cancellation = cancellation;
            kinds = [.. question.Candidates.Keys.Order()];
            candidates =
            [
                .. kinds.Select(kind =>
                    question.Candidates[kind].Where(part => part.Kind == kind).ToArray()
                ),
            ];
            all = candidates.Aggregate(1L, (product, list) => checked(product * list.Length));
            places = question.Now.Places.ToArray();
            foreach (var kind in kinds)
            {
                places[(int)kind] = null;
            }
            DropWhatNeverWorks();
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

        internal void ByRules()
        {
            if (all > 0 && below[0] > 0)
            {
                Choose(0, Compatibility.Yes, double.NaN, 0, 2, 0);
            }
        }

        /// <summary>Chooses a part for the kind at that level and goes on, for each candidate.</summary>
        private void Choose(
            int level,
            Compatibility answer,
            double reserve,
            int changes,
            int stock,
            long place
        )
        {
            if (level == kinds.Length)
            {
                byRules++;
                left.Add(
                    new(new(answer, OptionRank.TenthsOf(reserve), changes, stock, place), reserve)
                );
                Seen(1);
                return;
            }
            var kind = (int)kinds[level];
            var list = candidates[level];
            var tables = rulesAt[level];
            var now = question.Now[kinds[level]];
            for (var i = 0; i < list.Length; i++)
            {
                chosen[level] = i;
                places[kind] = list[i];
                var (worst, least, ruledOut) = (answer, reserve, false);
                foreach (var table in tables)
                {
                    var judgement = table.Judge(chosen, places, question.Now.Adapters);
                    if (judgement.Answer == Compatibility.No)
                    {
                        Blocked(table.Title);
                        ruledOut = true;
                        break;
                    }
                    worst = (Compatibility)Math.Min((int)worst, (int)judgement.Answer);
                    least = Least(least, judgement.Reserve);
                }
                if (ruledOut)
                {
                    Seen(below[level + 1]);
                    continue;
                }
                var isNew = now?.Id != list[i].Id;
                Choose(
                    level + 1,
                    worst,
                    least,
                    changes + (isNew ? 1 : 0),
                    isNew ? Math.Min(stock, StockOf(list[i])) : stock,
                    (place * list.Length) + i
                );
            }
            places[kind] = null;
        }

        internal OptionResult ByMechanism()
        {
            left.Sort((a, b) => a.Rank.CompareTo(b.Rank));
            var most = question.Most;
            var found = new SortedList<OptionRank, (double Reserve, long Place)>();
            foreach (var one in left)
            {
                // The mechanism can only make it worse: what the rules say is the best that it can be.
                if (found.Count >= most && found.Keys[most - 1].CompareTo(one.Rank) < 0)
                {
                    break;
                }
                cancellation.ThrowIfCancellationRequested();
                var (answer, reserve) = (one.Rank.Answer, one.Reserve);
                if (question.SpecOf is not null)
                {
                    var (byModel, room) = Mechanism(one.Rank.Place);
                    if (byModel == Compatibility.No)
                    {
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
            progress?.Report(new(all, all, solved));
            return new(
                [.. found.Take(most).Select(f => OptionOf(f.Key, f.Value.Reserve))],
                all,
                byRules,
                solved,
                [
                    .. blocked
                        .OrderByDescending(b => b.Value)
                        .ThenBy(b => b.Key, StringComparer.Ordinal)
                        .Select(b => (b.Key, b.Value)),
                ]
            );
        }

        /// <summary>What the mechanism says of a combination: solved once for all that differ in nothing it asks of.</summary>
        private (Compatibility Answer, double Reserve) Mechanism(long place)
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
            var width = chain?.Number(PartFields.Width);
            if (!known.TryGetValue((key, width), out var solution))
            {
                solution = Solve(place);
                known.Add((key, width), solution);
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

        private Solution Solve(long place)
        {
            var build = BuildAt(place);
            if (question.SpecOf!(build) is not { } spec)
            {
                return new(Compatibility.CannotSay, double.NaN, null);
            }
            solved++;
            if (solved % SolvedBlock == 0)
            {
                progress?.Report(new(seen, all, solved));
            }
            var rules = MechanismRules.Of(spec, build);
            var (answer, reserve) = rules.Worst();
            return new(answer, reserve, rules.RecommendedPitches);
        }

        private BuildOption OptionOf(OptionRank rank, double reserve) =>
            new(
                BuildAt(rank.Place),
                rank.Answer,
                double.IsNaN(reserve) ? null : reserve,
                rank.Changes,
                rank.Stock switch
                {
                    2 => true,
                    1 => null,
                    _ => false,
                }
            );

        private Build BuildAt(long place)
        {
            var build = question.Now;
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
                                    && rule.Judge(places, question.Now.Adapters).Answer
                                        == Compatibility.No
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

        private void Seen(long count)
        {
            seen += count;
            if (seen >= nextReport)
            {
                nextReport = seen + Block;
                cancellation.ThrowIfCancellationRequested();
                progress?.Report(new(seen, all, 0));
            }
        }

        private static int StockOf(Part part) =>
            part.InStock switch
            {
                null => 1,
                > 0 => 2,
                _ => 0,
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
