using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files;

namespace Cogwright.Web.Quick;

/// <summary>What an entry of the short path comes to: a sheet that can be computed, or what is missing and what is wrong. Immutable.</summary>
internal sealed record QuickSheet
{
    internal const int LeastRing = 16;
    internal const int MostRing = 70;
    internal const int LeastCog = 9;
    internal const int MostCog = 60;
    internal const int MostCogs = 13;
    internal const double LeastStayMm = 350;
    internal const double MostStayMm = 650;

    /// <summary>Travel of the axle taken for a single-speed (mm): slots of usual length, a choice of this program.</summary>
    internal const int SlotMm = 18;

    /// <summary>The sheet, or null while something is missing or wrong.</summary>
    public SpecSheet? Sheet { get; private init; }

    /// <summary>What is wrong, by the name of the field in <see cref="QuickEntry"/>.</summary>
    public required ImmutableDictionary<string, string> Errors { get; init; }

    /// <summary>Names of fields still empty and needed, in reading order.</summary>
    public required ImmutableArray<string> Missing { get; init; }

    /// <summary>The cogs; empty when they are not known yet.</summary>
    public ImmutableArray<int> Cogs { get; private init; } = [];

    /// <summary>Whether the cogs in between were filled in.</summary>
    public bool AreFilled { get; private init; }

    /// <summary>Whether the rear end is suspended: the chainstay is then that of its longest position.</summary>
    public bool IsSuspended { get; private init; }

    /// <summary>The chainstay as it was taken, or null when none was given.</summary>
    public TapeText? Stay { get; private init; }

    /// <summary>Takes an entry.</summary>
    internal static QuickSheet Of(QuickEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var reading = new Reading();
        var kind = BikeKind.Find(entry.Kind);
        if (kind is null)
        {
            reading.Missing.Add(nameof(entry.Kind));
        }
        var single = kind is { Derailleur: null };
        if (kind is { Derailleur: not null } && entry.Rear.Length == 0)
        {
            reading.Missing.Add(nameof(entry.Rear));
        }
        var rings = Rings(entry, single, reading);
        var (cogs, filled) = single ? Lone(entry, reading) : Cogset(entry, reading);
        var suspended = kind is { Derailleur: not null } && entry.Rear == QuickEntry.Suspended;
        var stay = StayOf(entry, reading, isNeeded: suspended);
        var done = new QuickSheet
        {
            Errors = reading.Errors.ToImmutable(),
            Missing = [.. reading.Missing],
            Cogs = cogs,
            AreFilled = filled,
            Stay = stay,
            IsSuspended = suspended,
        };
        return done.Errors.IsEmpty && done.Missing.IsEmpty
            ? done with
            {
                Sheet = Write(entry, kind!, rings, cogs, stay, suspended),
            }
            : done;
    }

    private static SpecSheet Write(
        QuickEntry entry,
        BikeKind kind,
        ImmutableArray<int> rings,
        ImmutableArray<int> cogs,
        TapeText? stay,
        bool suspended
    )
    {
        var name = entry.Name.Trim() is { Length: > 0 } given ? given : NameOf(kind, rings, cogs);
        var sheet = SpecSheet
            .Empty.With("format", "1")
            // The sheet has no linkage, so every page takes it for rigid: its name says wherever it goes what it stands for.
            .With("name", suspended ? Texts.Get("new.nameSuspended", name) : name)
            .With("frame.class", kind.Frame)
            .With("cogs.teeth", string.Join('-', cogs));
        for (var i = 0; i < rings.Length; i++)
        {
            sheet = sheet.With(Text($"rings[{i}].teeth"), Text($"{rings[i]}"));
        }
        if (stay is { } tape)
        {
            sheet = sheet.With("frame.chainstay", Text($"{Math.Round(tape.Mm, 1)}"));
        }
        if (kind.Derailleur is null)
        {
            return sheet.With("frame.axleTravel", Text($"{SlotMm}")).With("work.actuation", "none");
        }
        return sheet
            .With("hanger.class", kind.Hanger)
            .With("cogs.hubSpacing", Text($"{kind.HubSpacingMm}"))
            .With(
                "rearDerailleur.class",
                entry.Derailleur is { Length: > 0 } named ? named : kind.Derailleur
            )
            .With("work.actuation", entry.Actuation);
    }

    private static string NameOf(
        BikeKind kind,
        ImmutableArray<int> rings,
        ImmutableArray<int> cogs
    ) =>
        kind.Derailleur is null
            ? Texts.Get("new.kind.single")
            : Texts.Get("new.name", Texts.Get($"new.kind.{kind.Id}"), rings.Length, cogs.Length);

    private static ImmutableArray<int> Rings(QuickEntry entry, bool single, Reading reading)
    {
        var first = reading.Teeth(
            nameof(entry.Ring1),
            entry.Ring1,
            LeastRing,
            MostRing,
            isNeeded: true
        );
        if (single || first is null)
        {
            return first is { } lone ? [lone] : [];
        }
        var rings = ImmutableArray.CreateBuilder<int>();
        rings.Add(first.Value);
        foreach (
            var (field, text) in new[]
            {
                (nameof(entry.Ring2), entry.Ring2),
                (nameof(entry.Ring3), entry.Ring3),
            }
        )
        {
            if (reading.Teeth(field, text, LeastRing, MostRing, isNeeded: false) is { } teeth)
            {
                if (rings.Contains(teeth))
                {
                    reading.Errors[field] = Texts.Get("new.error.sameRing", teeth);
                    continue;
                }
                rings.Add(teeth);
            }
        }
        rings.Sort((a, b) => b.CompareTo(a));
        return rings.ToImmutable();
    }

    private static (ImmutableArray<int> Cogs, bool AreFilled) Lone(
        QuickEntry entry,
        Reading reading
    ) =>
        reading.Teeth(nameof(entry.Smallest), entry.Smallest, LeastCog, MostCog, isNeeded: true)
            is { } cog
            ? ([cog], false)
            : ([], false);

    private static (ImmutableArray<int> Cogs, bool AreFilled) Cogset(
        QuickEntry entry,
        Reading reading
    )
    {
        if (entry.IsListed)
        {
            // What stands in fields that nobody sees says nothing.
            if (string.IsNullOrWhiteSpace(entry.Cogs))
            {
                reading.Missing.Add(nameof(entry.Cogs));
                return ([], false);
            }
            return (Listed(entry, reading), false);
        }
        var smallest = reading.Teeth(
            nameof(entry.Smallest),
            entry.Smallest,
            LeastCog,
            MostCog,
            isNeeded: true
        );
        var largest = reading.Teeth(
            nameof(entry.Largest),
            entry.Largest,
            LeastCog,
            MostCog,
            isNeeded: true
        );
        var count = reading.Whole(
            nameof(entry.Count),
            entry.Count,
            2,
            MostCogs,
            "new.error.count",
            isNeeded: true
        );
        if (smallest is not { } from || largest is not { } to)
        {
            return ([], false);
        }
        if (to <= from)
        {
            reading.Errors[nameof(entry.Largest)] = Texts.Get("new.error.largest", to, from);
            return ([], false);
        }
        if (count is not { } number)
        {
            return ([], false);
        }
        if (to - from + 1 < number)
        {
            reading.Errors[nameof(entry.Count)] = Texts.Get("new.error.tooMany", number, from, to);
            return ([], false);
        }
        return (CogFill.Between(from, to, number), number > 2);
    }

    private static ImmutableArray<int> Listed(QuickEntry entry, Reading reading)
    {
        var parts = entry.Cogs.Split(
            [' ', '-', ',', ';', '/', '–', '·'],
            StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
        );
        var cogs = new SortedSet<int>();
        foreach (var part in parts)
        {
            if (
                !int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var teeth)
                || teeth is < LeastCog or > MostCog
            )
            {
                reading.Errors[nameof(entry.Cogs)] = Texts.Get(
                    "new.error.list",
                    part,
                    LeastCog,
                    MostCog
                );
                return [];
            }
            if (!cogs.Add(teeth))
            {
                reading.Errors[nameof(entry.Cogs)] = Texts.Get("new.error.twice", teeth);
                return [];
            }
        }
        if (cogs.Count is < 2 or > MostCogs)
        {
            reading.Errors[nameof(entry.Cogs)] = Texts.Get("new.error.count", 2, MostCogs);
            return [];
        }
        return [.. cogs];
    }

    private static TapeText? StayOf(QuickEntry entry, Reading reading, bool isNeeded)
    {
        if (string.IsNullOrWhiteSpace(entry.Chainstay))
        {
            if (isNeeded)
            {
                reading.Missing.Add(nameof(entry.Chainstay));
            }
            return null;
        }
        if (TapeText.Read(entry.Chainstay) is not { } tape)
        {
            reading.Errors[nameof(entry.Chainstay)] = Texts.Get("new.error.stayNumber");
            return null;
        }
        if (tape.Mm is < LeastStayMm or > MostStayMm)
        {
            reading.Errors[nameof(entry.Chainstay)] = Texts.Get(
                "new.error.stay",
                tape.Mm,
                LeastStayMm,
                MostStayMm
            );
            return null;
        }
        return tape;
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);

    private sealed class Reading
    {
        internal ImmutableDictionary<string, string>.Builder Errors { get; } =
            ImmutableDictionary.CreateBuilder<string, string>();

        internal List<string> Missing { get; } = [];

        internal int? Teeth(string field, string text, int least, int most, bool isNeeded) =>
            Whole(field, text, least, most, "new.error.teeth", isNeeded);

        internal int? Whole(
            string field,
            string text,
            int least,
            int most,
            string error,
            bool isNeeded
        )
        {
            if (string.IsNullOrWhiteSpace(text))
            {
                if (isNeeded)
                {
                    Missing.Add(field);
                }
                return null;
            }
            if (
                int.TryParse(
                    text.Trim(),
                    NumberStyles.None,
                    CultureInfo.InvariantCulture,
                    out var value
                )
                && value >= least
                && value <= most
            )
            {
                return value;
            }
            Errors[field] = Texts.Get(error, least, most);
            return null;
        }
    }
}
