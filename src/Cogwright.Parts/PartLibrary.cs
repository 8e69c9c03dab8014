using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>
/// The parts that a workshop knows, each under its id. Immutable; <see cref="With"/> gives a library with more. The index for
/// <see cref="Search"/> is made once, when it is first asked for.
/// </summary>
public sealed class PartLibrary
{
    private readonly Dictionary<string, Part> byId;
    private readonly Lazy<ImmutableArray<ImmutableArray<Part>>> byKind;
    private readonly Lazy<PartIndex> index;

    /// <summary>A library of these parts.</summary>
    /// <param name="parts">The parts; the later of two with the same id stands.</param>
    /// <exception cref="ArgumentException">An id is none: see <see cref="PartNames.IsId"/>.</exception>
    public PartLibrary(IEnumerable<Part> parts)
        : this(ById(parts)) { }

    private PartLibrary(Dictionary<string, Part> byId)
    {
        this.byId = byId;
        Parts = [.. byId.Values.OrderBy(part => part.Id, StringComparer.Ordinal)];
        byKind = new(() =>
            [
                .. PartKinds.All.Select(kind =>
                    Parts.Where(part => part.Kind == kind).ToImmutableArray()
                ),
            ]
        );
        index = new(() => new(Parts));
    }

    /// <summary>A library without parts.</summary>
    public static PartLibrary Empty { get; } = new(Array.Empty<Part>());

    /// <summary>All parts, in the order of their ids.</summary>
    public ImmutableArray<Part> Parts { get; }

    /// <summary>How many parts there are.</summary>
    public int Count => Parts.Length;

    /// <summary>The part with that id, or null when there is none.</summary>
    public Part? Find(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        return byId.GetValueOrDefault(id);
    }

    /// <summary>The parts of a kind, in the order of their ids.</summary>
    public ImmutableArray<Part> Of(PartKind kind) => byKind.Value[(int)kind];

    /// <summary>
    /// Finds parts by words: each must begin a word of the part's name, maker, id, interfaces or kind, whatever the letter
    /// case. A part whose id was written out comes first, then those that hold the words whole and in their names; equals in the
    /// order of name and id. Without words, the parts in that order.
    /// </summary>
    /// <param name="words">What was typed; the first eight words count.</param>
    /// <param name="kind">The kind wanted, or null for any.</param>
    /// <param name="most">How many are wanted at most (0 or more).</param>
    public ImmutableArray<Part> Search(string words, PartKind? kind, int most)
    {
        ArgumentNullException.ThrowIfNull(words);
        ArgumentOutOfRangeException.ThrowIfNegative(most);
        return most == 0
            ? []
            : index.Value.Search(words, Find(words.Trim().ToLowerInvariant()), kind, most);
    }

    /// <summary>A library with these parts too, each added or put in the place of the one with its id.</summary>
    /// <param name="parts">The parts; the later of two with the same id stands.</param>
    /// <returns>The library, and what became of each part in the order of their ids.</returns>
    /// <exception cref="ArgumentException">An id is none: see <see cref="PartNames.IsId"/>.</exception>
    public LibraryChange With(IEnumerable<Part> parts)
    {
        var incoming = ById(parts);
        var added = ImmutableArray.CreateBuilder<Part>();
        var changed = ImmutableArray.CreateBuilder<PartChange>();
        var same = ImmutableArray.CreateBuilder<Part>();
        foreach (var part in incoming.Values.OrderBy(part => part.Id, StringComparer.Ordinal))
        {
            if (Find(part.Id) is not { } old)
            {
                added.Add(part);
            }
            else if (old.Equals(part))
            {
                same.Add(old);
            }
            else
            {
                changed.Add(new(old, part));
            }
        }
        if (added.Count + changed.Count == 0)
        {
            return new(this, [], [], same.ToImmutable());
        }
        var all = new Dictionary<string, Part>(byId, StringComparer.Ordinal);
        foreach (var part in added.Concat(changed.Select(change => change.New)))
        {
            all[part.Id] = part;
        }
        return new(
            new PartLibrary(all),
            added.ToImmutable(),
            changed.ToImmutable(),
            same.ToImmutable()
        );
    }

    private static Dictionary<string, Part> ById(IEnumerable<Part> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var byId = new Dictionary<string, Part>(StringComparer.Ordinal);
        foreach (var part in parts)
        {
            if (!PartNames.IsId(part.Id))
            {
                throw new ArgumentException(part.Id, nameof(parts));
            }
            byId[part.Id] = part;
        }
        return byId;
    }
}
