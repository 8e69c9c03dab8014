using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Care;

/// <summary>What a bike's use is counted in.</summary>
public enum UsageUnit
{
    /// <summary>Kilometres of a bike computer.</summary>
    Km,

    /// <summary>Hours of riding.</summary>
    Hours,
}

/// <summary>A chain from the day it was fitted until the next. Immutable.</summary>
/// <param name="On">The day it was fitted, or null when nobody knows.</param>
/// <param name="Usage">What the bike's counter stood at then (km or hours), or null.</param>
public sealed record FittedChain(DateOnly? On, double? Usage)
{
    /// <summary>What it keeps for life.</summary>
    public string Id { get; init; } = "";

    /// <summary>Whether new cogs were fitted with it.</summary>
    public bool WithNewCogs { get; init; }

    /// <summary>Whether it was fitted as new, so that it was not elongated at <see cref="Usage"/>.</summary>
    public bool WasNew { get; init; } = true;

    /// <summary>What was read on it, in the order it was.</summary>
    public ImmutableArray<WearReading> Readings { get; init; } = [];
}

/// <summary>Where on the bike a part is; a choice, so that no reminder can name a person.</summary>
public enum CarePlace
{
    /// <summary>There is one.</summary>
    Bike,

    /// <summary>Front.</summary>
    Front,

    /// <summary>Rear.</summary>
    Rear,

    /// <summary>Left.</summary>
    Left,

    /// <summary>Right.</summary>
    Right,
}

/// <summary>What wears or runs out beside the chain.</summary>
public enum CareKind
{
    /// <summary>The chain; never a <see cref="CarePart"/>.</summary>
    Chain,

    /// <summary>Brake pad: compound left (mm).</summary>
    Pad,

    /// <summary>Brake rotor: thickness (mm).</summary>
    Rotor,

    /// <summary>Rim brake's pads: depth left of their grooves (mm); 0: they are gone.</summary>
    RimPad,

    /// <summary>Battery of a wireless derailleur: charge (%).</summary>
    WirelessBattery,

    /// <summary>Central battery of wired shifting: charge (%).</summary>
    WiredBattery,

    /// <summary>Coin cell of a shifter: put in on the day.</summary>
    CoinCell,

    /// <summary>Quick link: how often it was closed.</summary>
    QuickLink,

    /// <summary>Cable and housing: fitted on the day.</summary>
    Cable,

    /// <summary>All fasteners: tightened on the day.</summary>
    Fasteners,

    /// <summary>First check: the bike was handed over on the day.</summary>
    FirstCheck,
}

/// <summary>What was seen of a part on a day. Immutable.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Place">Where it is.</param>
/// <param name="On">The day.</param>
public sealed record CarePart(CareKind Kind, CarePlace Place, DateOnly On)
{
    /// <summary>What it keeps for life.</summary>
    public string Id { get; init; } = "";

    /// <summary>What the bike's counter stood at (km or hours), or null.</summary>
    public double? Usage { get; init; }

    /// <summary>mm of pad, rotor or groove, % of a battery; null for the others.</summary>
    public double? Value { get; init; }

    /// <summary>Standard uncertainty of <see cref="Value"/> (mm), or null: as usual for the kind.</summary>
    public double? StandardUncertainty { get; init; }

    /// <summary>The least thickness stamped on a rotor (mm), which wins; or null.</summary>
    public double? StampedMm { get; init; }

    /// <summary>How often a quick link was closed, or fasteners were rechecked since they were first tightened; null: once, or never.</summary>
    public int? Count { get; init; }

    /// <summary>How often the maker lets a quick link be closed, or null when no figure is known.</summary>
    public int? MakersCount { get; init; }

    /// <summary>Whether it was new then, so that what was read before was of another.</summary>
    public bool IsNew { get; init; }

    /// <summary>Whether the kind has a value.</summary>
    /// <param name="kind">The kind.</param>
    public static bool HasValue(CareKind kind) =>
        kind
            is CareKind.Pad
                or CareKind.Rotor
                or CareKind.RimPad
                or CareKind.WirelessBattery
                or CareKind.WiredBattery;

    /// <summary>Whether the kind is a battery that is charged.</summary>
    /// <param name="kind">The kind.</param>
    public static bool IsBattery(CareKind kind) =>
        kind is CareKind.WirelessBattery or CareKind.WiredBattery;

    /// <summary>What is wrong with it, field by field; empty when nothing is.</summary>
    public ImmutableArray<CareProblem> Problems()
    {
        var found = ImmutableArray.CreateBuilder<CareProblem>();
        if (On.Year is < FirstYear or > LastYear)
        {
            found.Add(
                new(
                    "on",
                    Texts.Get(
                        "part.day",
                        On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                        FirstYear,
                        LastYear
                    )
                )
            );
        }
        if (HasValue(Kind) && Value is null)
        {
            found.Add(new("value", Texts.Get("part.noValue")));
        }
        if (!HasValue(Kind) && Value is not null)
        {
            found.Add(new("value", Texts.Get("part.valueOfNothing")));
        }
        if (
            IsBattery(Kind)
            && Value is { } charge
            && !(charge is >= 0 and <= 100 && charge == Math.Floor(charge))
        )
        {
            found.Add(new("value", Texts.Get("part.charge", charge)));
        }
        if (!IsBattery(Kind) && Value is { } mm && !(mm is >= 0 and <= MostMm))
        {
            found.Add(new("value", Texts.Get("demand.between", mm, 0, MostMm)));
        }
        if (
            StampedMm is { } stamped
            && (Kind != CareKind.Rotor || !(stamped is >= 0.5 and <= MostMm))
        )
        {
            found.Add(new("stamped", Texts.Get("part.stamped", stamped)));
        }
        if (
            Count is { } count
            && (
                Kind is not (CareKind.QuickLink or CareKind.Fasteners)
                || count is < 0 or > MostCount
            )
        )
        {
            found.Add(new("count", Texts.Get("part.count", count, MostCount)));
        }
        if (
            MakersCount is { } makers
            && (Kind != CareKind.QuickLink || makers is < 1 or > MostCount)
        )
        {
            found.Add(new("makersCount", Texts.Get("part.makersCount", makers, MostCount)));
        }
        if (Usage is { } usage && !(usage is >= 0 and <= CareFacts.MostUsage))
        {
            found.Add(new("at", Texts.Get("demand.between", usage, 0, CareFacts.MostUsage)));
        }
        if (StandardUncertainty is { } u && !(u is >= 0 and <= 1))
        {
            found.Add(new("uncertainty", Texts.Get("demand.between", u, 0, 1)));
        }
        return found.ToImmutable();
    }

    /// <summary>Thicker than any pad, rotor or groove (mm).</summary>
    public const double MostMm = 10;

    private const int MostCount = 100;
    private const int FirstYear = 1950;
    private const int LastYear = 2200;
}

/// <summary>What is wrong with one field. Immutable.</summary>
/// <param name="Field">Its name in files.</param>
/// <param name="Message">What is wrong and what to do.</param>
public sealed record CareProblem(string Field, string Message);

/// <summary>All that is known of a bike's wear and care. Immutable.</summary>
public sealed record CareFacts
{
    /// <summary>More than any counter shows (km or hours).</summary>
    public const double MostUsage = 1_000_000;

    /// <summary>Number of cogs at the rear, or null when nobody said.</summary>
    public int? Cogs { get; init; }

    /// <summary>What its use is counted in.</summary>
    public UsageUnit Unit { get; init; }

    /// <summary>Its chains, in the order they were fitted.</summary>
    public ImmutableArray<FittedChain> Chains { get; init; } = [];

    /// <summary>What was seen of its parts, in the order it was.</summary>
    public ImmutableArray<CarePart> Parts { get; init; } = [];

    /// <summary>How its use grows.</summary>
    public UsageRate? Rate() =>
        UsageRate.Of([
            .. Chains
                .SelectMany(chain =>
                    chain
                        .Readings.Select(reading => ((DateOnly?)reading.On, reading.Usage))
                        .Prepend((chain.On, chain.Usage))
                )
                .Concat(Parts.Select(part => ((DateOnly?)part.On, part.Usage)))
                .Where(each => each is { Item1: not null, Usage: not null })
                .Select(each => (each.Item1!.Value, each.Usage!.Value)),
        ]);
}

/// <summary>How a counter moves from day to day. Immutable.</summary>
/// <param name="LastDay">The last day it was looked at.</param>
/// <param name="LastUsage">What it stood at then (km or hours).</param>
/// <param name="PerDay">Average per day from the first look to the last (km or hours), or null when the looks lie too near together.</param>
public sealed record UsageRate(DateOnly LastDay, double LastUsage, double? PerDay)
{
    /// <summary>Fewest days between two looks that tell a rate: a week of holiday is none.</summary>
    public const int FewestDays = 14;

    /// <summary>Days beyond which no day is told: 20 years.</summary>
    private const double MostDays = 7300;

    /// <summary>The rate from what the counter stood at on some days; null when it was never looked at.</summary>
    /// <param name="looks">Days with what the counter stood at, in any order.</param>
    public static UsageRate? Of(ImmutableArray<(DateOnly Day, double Usage)> looks)
    {
        if (looks.IsDefaultOrEmpty)
        {
            return null;
        }
        var first = looks.Min();
        var last = looks.Max();
        var days = last.Day.DayNumber - first.Day.DayNumber;
        var grown = last.Usage - first.Usage;
        return new(last.Day, last.Usage, days >= FewestDays && grown > 0 ? grown / days : null);
    }

    /// <summary>The day on which the counter will stand at that, should use go on as so far; null when that cannot be said.</summary>
    /// <param name="usage">km or hours.</param>
    public DateOnly? DayOf(double usage)
    {
        if (PerDay is not { } perDay)
        {
            return usage <= LastUsage ? LastDay : null;
        }
        var days = (usage - LastUsage) / perDay;
        return days > MostDays || LastDay.DayNumber + days > DateOnly.MaxValue.DayNumber ? null
            : LastDay.DayNumber + days < 1 ? DateOnly.MinValue
            : LastDay.AddDays((int)Math.Floor(days));
    }
}
