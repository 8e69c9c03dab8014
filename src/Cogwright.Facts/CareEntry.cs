using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cogwright.Care;
using Cogwright.Log;

namespace Cogwright.Facts;

/// <summary>
/// Wear and care as bodies of entries, version 1: <c>care.chain</c>, <c>care.reading</c>, <c>care.part</c> and <c>care.counter</c>
/// in a bike's log, <c>care.limits</c> in the shop's. docs/how-to/offline.md has the table. None holds a free text.
/// </summary>
public static class CareEntry
{
    private const string ChainKind = "care.chain";
    private const string ReadingKind = "care.reading";
    private const string PartKind = "care.part";
    private const string CounterKind = "care.counter";
    private const string LimitsKind = "care.limits";
    private const string ChainTerm = "chain-";
    private const string CogsTooTerm = "cogsToo";
    private const string True = "true";
    private const char Blank = ' ';
    private const string None = "-";
    private const int Version = 1;

    /// <summary>The draft of an entry that says that a chain was fitted.</summary>
    /// <param name="chain">The chain; its readings are entries of their own.</param>
    public static EntryDraft Draft(FittedChain chain)
    {
        ArgumentNullException.ThrowIfNull(chain);
        return Written(
            ChainKind,
            json =>
            {
                json.WriteIf("at", Text(chain.Usage));
                json.WriteIf("day", Text(chain.On));
                json.WriteIf("newCogs", chain.WithNewCogs ? True : "");
                json.WriteIf("used", chain.WasNew ? "" : True);
            }
        );
    }

    /// <summary>The draft of an entry that says what was read on the chain that is fitted.</summary>
    /// <param name="reading">The reading.</param>
    public static EntryDraft Draft(WearReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return Written(
            ReadingKind,
            json =>
            {
                json.WriteIf("at", Text(reading.Usage));
                json.WriteIf("day", Text(reading.On));
                json.WriteIf("pitches", Text(reading.Pitches));
                json.WriteIf("play", Text(reading.Play?.Mm));
                json.WriteIf("playU", Text(reading.Play?.StandardUncertaintyMm));
                json.WriteIf("spots", string.Join(Blank, reading.Spots.Select(Text)));
                json.WriteIf("u", Text(reading.StandardUncertainty));
                json.WriteIf("way", NameOf(reading.Way));
            }
        );
    }

    /// <summary>The draft of an entry that says what was seen of a part.</summary>
    /// <param name="part">The part.</param>
    public static EntryDraft Draft(CarePart part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return Written(
            PartKind,
            json =>
            {
                json.WriteIf("at", Text(part.Usage));
                json.WriteIf("count", Text(part.Count));
                json.WriteIf("day", Text(part.On));
                json.WriteIf("kind", NameOf(part.Kind));
                json.WriteIf("makersCount", Text(part.MakersCount));
                json.WriteIf("new", part.IsNew ? True : "");
                json.WriteIf("place", NameOf(part.Place));
                json.WriteIf("stamped", Text(part.StampedMm));
                json.WriteIf("u", Text(part.StandardUncertainty));
                json.WriteIf("value", Text(part.Value));
            }
        );
    }

    /// <summary>The draft of an entry that says what the bike's use is counted in.</summary>
    /// <param name="unit">km or hours.</param>
    public static EntryDraft Draft(UsageUnit unit) =>
        Written(CounterKind, json => json.WriteIf("unit", NameOf(unit)));

    /// <summary>The draft of an entry that sets all of the shop's own limits and intervals; what is left out is common practice.</summary>
    /// <param name="table">The shop's table.</param>
    public static EntryDraft Draft(CareTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        var own = table
            .Own.ToImmutableSortedDictionary(StringComparer.Ordinal)
            .AddRange(
                table.Chain.Own.Select(limit => new KeyValuePair<string, double>(
                    ChainTerm + limit.Key.ToString(CultureInfo.InvariantCulture),
                    limit.Value
                ))
            );
        return Written(
            LimitsKind,
            json =>
            {
                foreach (
                    var (name, value) in table.Chain.CogsTooPercent == WearLimits.UsualCogsToo
                        ? own
                        : own.Add(CogsTooTerm, table.Chain.CogsTooPercent)
                )
                {
                    json.WriteIf(name, Text(value));
                }
            }
        );
    }

    /// <summary>What a bike's log says of its wear and care, with one entry more; null when the entry says nothing of it.</summary>
    /// <param name="facts">What it said before.</param>
    /// <param name="entry">The entry.</param>
    internal static CareFacts? Apply(CareFacts facts, Entry entry) =>
        EntryBody.Read(entry, ChainKind, Version, body => ChainOf(entry, body)) is { } chain
            ? facts with
            {
                Chains = facts.Chains.Add(chain),
            }
        : EntryBody.Read(entry, ReadingKind, Version, body => ReadingOf(entry, body)) is { } reading
            ? WithReading(facts, reading)
        : EntryBody.Read(entry, PartKind, Version, body => PartOf(entry, body)) is { } part
            ? facts with
            {
                // What somebody remembers later stands where its day is.
                Parts = [.. facts.Parts.Add(part).OrderBy(each => each.On)],
            }
        : EntryBody.Read(entry, CounterKind, Version, body => EntryBody.TextOf(body, "unit"))
            is { } name
        && Named<UsageUnit>(name) is { } unit
            ? facts with
            {
                Unit = unit,
            }
        : null;

    /// <summary>The shop's table that an entry sets, or null when it is of another kind, of a later version or not readable.</summary>
    /// <param name="entry">The entry.</param>
    public static CareTable? TableOf(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return EntryBody.Read(entry, LimitsKind, Version, TableOf);
    }

    /// <summary>Whether an entry is of wear and care: for those who name what was refused.</summary>
    /// <param name="entry">The entry.</param>
    public static bool IsCare(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return entry.Kind.StartsWith("care.", StringComparison.Ordinal);
    }

    // A reading is of the chain that was fitted when it was entered; of a chain that nobody entered when there is none.
    private static CareFacts WithReading(CareFacts facts, WearReading reading)
    {
        var chains = facts.Chains.IsEmpty
            ? [new FittedChain(null, null) { WasNew = false }]
            : facts.Chains;
        var chain = chains[^1];
        return facts with
        {
            Chains = chains.SetItem(
                chains.Length - 1,
                chain with
                {
                    Readings = [.. chain.Readings.Add(reading).OrderBy(each => each.On)],
                }
            ),
        };
    }

    private static FittedChain ChainOf(Entry entry, JsonElement body) =>
        new(EntryBody.DayOf(EntryBody.TextOf(body, "day")), UsageOf(body))
        {
            Id = entry.Id.ToString(),
            WithNewCogs = EntryBody.TextOf(body, "newCogs") == True,
            WasNew = EntryBody.TextOf(body, "used") != True,
        };

    private static WearReading? ReadingOf(Entry entry, JsonElement body)
    {
        if (
            EntryBody.DayOf(EntryBody.TextOf(body, "day")) is not { } day
            || Named<WearWay>(EntryBody.TextOf(body, "way")) is not { } way
            || Number(body, "pitches") is not { } pitches
        )
        {
            return null;
        }
        try
        {
            var reading = new WearReading(
                day,
                UsageOf(body),
                way,
                (int)pitches,
                [
                    .. (EntryBody.TextOf(body, "spots") ?? "")
                        .Split(Blank, StringSplitOptions.RemoveEmptyEntries)
                        .Select(text => SpotOf(way, text)),
                ]
            )
            {
                Id = entry.Id.ToString(),
                StandardUncertainty = Number(body, "u"),
                // A play of which nobody said how sure it is, is no surer than an assumed one.
                Play = Number(body, "play") is { } play
                    ? new(play, Number(body, "playU") ?? RollerPlay.Assumed.StandardUncertaintyMm)
                    : null,
            };
            // Whoever reads the facts may reckon with every reading in them.
            _ = reading.Elongation();
            return reading;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    private static WearSpot SpotOf(WearWay way, string text) =>
        way switch
        {
            WearWay.Ruler => new() { LengthMm = Number(text) },
            WearWay.TwoPoint or WearWay.ThreePoint => new() { Percent = Number(text) },
            _ when text.Split('/') is [var goes, var stops] => new()
            {
                GoesPercent = Number(goes),
                StopsPercent = Number(stops),
            },
            _ => new(),
        };

    private static CarePart? PartOf(Entry entry, JsonElement body)
    {
        if (
            EntryBody.DayOf(EntryBody.TextOf(body, "day")) is not { } day
            || Named<CareKind>(EntryBody.TextOf(body, "kind")) is not { } kind
            || kind == CareKind.Chain
        )
        {
            return null;
        }
        var part = new CarePart(
            kind,
            Named<CarePlace>(EntryBody.TextOf(body, "place")) ?? CarePlace.Bike,
            day
        )
        {
            Id = entry.Id.ToString(),
            Usage = UsageOf(body),
            Value = Number(body, "value"),
            StandardUncertainty = Number(body, "u"),
            StampedMm = Number(body, "stamped"),
            Count = (int?)Number(body, "count"),
            MakersCount = (int?)Number(body, "makersCount"),
            IsNew = EntryBody.TextOf(body, "new") == True,
        };
        return part.Problems().IsEmpty ? part : null;
    }

    private static CareTable TableOf(JsonElement body)
    {
        var table = CareTable.CommonPractice;
        foreach (var property in body.EnumerateObject())
        {
            if (Number(property.Value.GetString()) is not { } value)
            {
                continue;
            }
            if (CareTerm.Find(property.Name) is { } term)
            {
                table = term.Problem(value) is null
                    ? table with
                    {
                        Own = table.Own.SetItem(term.Name, value),
                    }
                    : table;
            }
            else if (
                property.Name == CogsTooTerm
                && WearLimits.Problem(WearLimits.FewestCogs, value) is null
            )
            {
                table = table with { Chain = table.Chain with { CogsTooPercent = value } };
            }
            else if (
                property.Name.StartsWith(ChainTerm, StringComparison.Ordinal)
                && int.TryParse(
                    property.Name.AsSpan(ChainTerm.Length),
                    NumberStyles.None,
                    CultureInfo.InvariantCulture,
                    out var cogs
                )
                && WearLimits.Problem(cogs, value) is null
            )
            {
                table = table with
                {
                    Chain = table.Chain with { Own = table.Chain.Own.SetItem(cogs, value) },
                };
            }
        }
        return table;
    }

    private static double? UsageOf(JsonElement body) =>
        Number(body, "at") is >= 0 and <= CareFacts.MostUsage and var usage ? usage : null;

    private static double? Number(JsonElement body, string name) =>
        Number(EntryBody.TextOf(body, name));

    private static double? Number(string? text) =>
        double.TryParse(
            text,
            NumberStyles.AllowDecimalPoint
                | NumberStyles.AllowLeadingSign
                | NumberStyles.AllowExponent,
            CultureInfo.InvariantCulture,
            out var number
        )
        && Math.Abs(number) < 1e7
            ? number
            : null;

    private static string Text(WearSpot spot) =>
        spot.LengthMm is { } mm ? Text(mm)
        : spot.Percent is { } percent ? Text(percent)
        : $"{(spot.GoesPercent is { } goes ? Text(goes) : None)}/{(spot.StopsPercent is { } stops ? Text(stops) : None)}";

    private static string Text(double number) => number.ToString("R", CultureInfo.InvariantCulture);

    private static string Text(double? number) => number is { } value ? Text(value) : "";

    private static string Text(DateOnly? day) =>
        day?.ToString("O", CultureInfo.InvariantCulture) ?? "";

    private static T? Named<T>(string? name)
        where T : struct, Enum =>
        Enum.GetValues<T>()
            .Where(each => NameOf(each) == name)
            .Select(each => (T?)each)
            .FirstOrDefault();

    private static string NameOf<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());

    private static EntryDraft Written(string kind, Action<Utf8JsonWriter> write) =>
        new("", kind, Version, EntryBody.Written(write));
}
