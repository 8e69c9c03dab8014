using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>
/// The words of many parts, in flat arrays: sorted words, and for each the parts that hold it. Parts are numbered in the order
/// of name and id, so that equals come out in that order without sorting.
/// </summary>
internal sealed class PartIndex
{
    /// <summary>Most words of a search that count; nobody types more.</summary>
    internal const int MostWords = 8;

    // What a word costs where it is found: the less, the further in front.
    private const byte WholeInName = 0;
    private const byte WholeElsewhere = 1;
    private const byte BeginsInName = 2;
    private const byte BeginsElsewhere = 3;
    private const byte Missing = byte.MaxValue;

    private readonly Part[] parts;
    private readonly string[] words;

    /// <summary>Where the entries of each word begin; one more than there are words.</summary>
    private readonly int[] starts;

    /// <summary>The number of a part times two, plus one when the word stands in its name.</summary>
    private readonly int[] entries;

    internal PartIndex(IEnumerable<Part> all)
    {
        parts =
        [
            .. all.OrderBy(part => part.Name, StringComparer.OrdinalIgnoreCase)
                .ThenBy(part => part.Id, StringComparer.Ordinal),
        ];
        var titles = PartKinds.All.Select(PartKinds.TitleOf).ToArray();
        var found = new Dictionary<string, List<int>>(StringComparer.Ordinal);
        var lookup = found.GetAlternateLookup<ReadOnlySpan<char>>();
        for (var i = 0; i < parts.Length; i++)
        {
            var part = parts[i];
            Note(part.Name, i, true);
            Note(part.Maker, i, false);
            Note(part.Id, i, false);
            Note(titles[(int)part.Kind], i, false);
            foreach (var tags in part.Values.Values.OfType<PartValue.Tags>())
            {
                foreach (var tag in tags.Names)
                {
                    Note(tag, i, false);
                }
            }
        }
        words = [.. found.Keys.Order(StringComparer.Ordinal)];
        starts = new int[words.Length + 1];
        for (var w = 0; w < words.Length; w++)
        {
            starts[w + 1] = starts[w] + found[words[w]].Count;
        }
        entries = new int[starts[^1]];
        for (var w = 0; w < words.Length; w++)
        {
            found[words[w]].CopyTo(entries, starts[w]);
        }

        void Note(string text, int part, bool isName)
        {
            var lower = text.ToLowerInvariant();
            foreach (var range in WordsOf(lower))
            {
                var word = lower.AsSpan(range);
                if (!lookup.TryGetValue(word, out var list))
                {
                    list = [];
                    lookup[word] = list;
                }
                // The name comes first, so that a word stands once for each part, with its best place.
                if (list.Count == 0 || list[^1] >> 1 != part)
                {
                    list.Add((part << 1) | (isName ? 1 : 0));
                }
            }
        }
    }

    internal ImmutableArray<Part> Search(string typed, Part? exact, PartKind? kind, int most)
    {
        var lower = typed.ToLowerInvariant();
        var wanted = WordsOf(lower)
            .Take(MostWords)
            .Select(range => lower[range])
            .Distinct()
            .ToList();
        var total = new byte[parts.Length];
        var best = new byte[parts.Length];
        // Long words leave few parts over, so that the short ones have little to look at.
        foreach (var word in wanted.OrderByDescending(word => word.Length))
        {
            Array.Fill(best, Missing);
            Mark(word, best, total);
            var left = 0;
            for (var i = 0; i < total.Length; i++)
            {
                var isFound = best[i] != Missing;
                total[i] = isFound ? (byte)(total[i] + best[i]) : Missing;
                left += isFound ? 1 : 0;
            }
            if (left == 0)
            {
                break;
            }
        }
        var byCost = new List<Part>?[(MostWords * BeginsElsewhere) + 1];
        for (var i = 0; i < total.Length; i++)
        {
            if (
                total[i] != Missing
                && (kind is null || parts[i].Kind == kind)
                && !ReferenceEquals(parts[i], exact)
            )
            {
                var equals = byCost[total[i]] ??= [];
                if (equals.Count < most)
                {
                    equals.Add(parts[i]);
                }
            }
        }
        var isExact = exact is not null && (kind is null || exact.Kind == kind);
        return
        [
            .. (isExact ? (Part[])[exact!] : [])
                .Concat(byCost.Where(equals => equals is not null).SelectMany(equals => equals!))
                .Take(most),
        ];
    }

    /// <summary>Notes what the word costs in each part that is still in question.</summary>
    private void Mark(string word, byte[] best, byte[] total)
    {
        var from = Array.BinarySearch(words, word, StringComparer.Ordinal);
        for (
            var w = from < 0 ? ~from : from;
            w < words.Length && words[w].StartsWith(word, StringComparison.Ordinal);
            w++
        )
        {
            var isWhole = words[w].Length == word.Length;
            var (inName, elsewhere) = isWhole
                ? (WholeInName, WholeElsewhere)
                : (BeginsInName, BeginsElsewhere);
            for (var e = starts[w]; e < starts[w + 1]; e++)
            {
                var part = entries[e] >> 1;
                var cost = (entries[e] & 1) == 1 ? inName : elsewhere;
                if (cost < best[part] && total[part] != Missing)
                {
                    best[part] = cost;
                }
            }
        }
    }

    /// <summary>The words of a text: runs of letters and digits, so that 11-34 is two.</summary>
    private static IEnumerable<Range> WordsOf(string text)
    {
        var start = -1;
        for (var i = 0; i <= text.Length; i++)
        {
            var isWord = i < text.Length && char.IsLetterOrDigit(text[i]);
            if (isWord && start < 0)
            {
                start = i;
            }
            else if (!isWord && start >= 0)
            {
                yield return new(start, i);
                start = -1;
            }
        }
    }
}
