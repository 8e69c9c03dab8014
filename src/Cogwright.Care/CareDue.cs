using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>What falls due on a bike, and when.</summary>
public static class CareDue
{
    /// <summary>Days ahead that count as soon: until the next visit to the shop.</summary>
    public const int SoonDays = 30;

    /// <summary>Everything that falls due on a bike, the most urgent first. Parts nobody has entered are not in it.</summary>
    /// <param name="facts">The bike.</param>
    /// <param name="table">The shop's table.</param>
    /// <param name="today">The day on which it is asked.</param>
    /// <exception cref="ArgumentException">A reading is out of range.</exception>
    public static ImmutableArray<DueItem> Of(CareFacts facts, CareTable table, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(table);
        var asked = new Asked(facts, table, today, facts.Rate());
        var items = facts
            .Parts.GroupBy(part => (part.Kind, part.Place))
            .Select(series => OfPart([.. series], asked));
        if (ChainCare.Of(facts, table) is { } chain)
        {
            items = items.Prepend(OfChain(chain, asked));
        }
        return
        [
            .. items
                .OrderBy(item => item.State)
                .ThenBy(item => item.Day ?? DateOnly.MaxValue)
                .ThenBy(item => item.Kind)
                .ThenBy(item => item.Place),
        ];
    }

    private sealed record Asked(CareFacts Facts, CareTable Table, DateOnly Today, UsageRate? Rate)
    {
        internal string Words(double usage) => Forecast.Words(usage, Facts.Unit);

        // Hours and km in the unit of the bike's counter.
        internal double FromKm(double km) =>
            Facts.Unit == UsageUnit.Km ? km : km / Table[CareTerm.SpeedKmh];

        internal double FromHours(double hours) =>
            Facts.Unit == UsageUnit.Hours ? hours : hours * Table[CareTerm.SpeedKmh];

        internal string Turned(bool wasKm) =>
            wasKm == (Facts.Unit == UsageUnit.Km)
                ? ""
                : " " + Texts.Get("why.turned", Table[CareTerm.SpeedKmh]);
    }

    private static DueItem OfChain(ChainCare chain, Asked asked)
    {
        var (limit, from) = (Percent(chain.Limit.Percent), chain.Limit.From);
        var item = new DueItem(
            CareKind.Chain,
            CarePlace.Bike,
            DueState.CannotSay,
            Texts.Get("what.chain.measure"),
            Texts.Get("why.chain.none"),
            from
        )
        {
            Verdict = chain.Judgement?.Verdict,
        };
        switch (chain.Judgement?.Verdict)
        {
            case null:
                return item;
            case Verdict.Outside:
                return item with
                {
                    State = DueState.Due,
                    Day = chain.Last!.On,
                    What =
                        chain.CogsToo?.Verdict == Verdict.Outside
                            ? Texts.Get("what.chain.replaceCogs")
                            : Texts.Get("what.chain.replace"),
                    Why = Texts.Get("why.chain.outside", limit),
                };
            case Verdict.TooCloseToCall:
                return item with
                {
                    State = DueState.Due,
                    Day = chain.Last!.On,
                    What = Texts.Get("what.chain.again"),
                    Why = Texts.Get("why.chain.close", limit),
                };
            default:
                var why = Texts.Get("why.chain.within", limit) + " " + chain.Forecast.Sentence;
                return chain.Forecast.At is { } at
                    ? By(item with { Why = why }, asked, at.Earliest, at.Latest)
                    : item with
                    {
                        Why = why,
                    };
        }
    }

    private static DueItem OfPart(ImmutableArray<CarePart> series, Asked asked)
    {
        var last = series[^1];
        var start = Math.Max(0, series.ToList().FindLastIndex(part => part.IsNew));
        return last.Kind switch
        {
            CareKind.Pad => Thickness(series[start..], asked, CareTerm.Pad, 0.1),
            CareKind.Rotor => Thickness(series[start..], asked, CareTerm.Rotor, 0.02),
            CareKind.RimPad => Thickness(series[start..], asked, CareTerm.RimPad, 0.1),
            CareKind.WirelessBattery => Battery(
                last,
                asked,
                CareTerm.WirelessHours,
                asked.FromHours(asked.Table[CareTerm.WirelessHours]),
                asked.Turned(wasKm: false)
            ),
            CareKind.WiredBattery => Battery(
                last,
                asked,
                CareTerm.WiredKm,
                asked.FromKm(asked.Table[CareTerm.WiredKm]),
                asked.Turned(wasKm: true)
            ),
            CareKind.CoinCell => Months(last, asked, CareTerm.CoinCellMonths),
            CareKind.Cable => Months(last, asked, CareTerm.CableMonths),
            CareKind.QuickLink => QuickLink(last),
            CareKind.Fasteners => Fasteners(last, asked),
            CareKind.FirstCheck => FirstCheck(last, asked),
            _ => throw new ArgumentException(Texts.Get("part.kind", last.Kind), nameof(series)),
        };
    }

    private static DueItem Thickness(
        ImmutableArray<CarePart> series,
        Asked asked,
        CareTerm term,
        double usualUncertaintyMm
    )
    {
        var last = series[^1];
        var stamped = series.LastOrDefault(part => part.StampedMm is not null)?.StampedMm;
        var limit = stamped ?? asked.Table[term];
        var from = stamped is { } mark
            ? Texts.Get("from.stamped", Mm(mark))
            : asked.Table.From(term);
        var judged = Judgement.Of(
            new(last.Value ?? 0, last.StandardUncertainty ?? usualUncertaintyMm),
            new(limit, null)
        );
        var item = Item(last, "replace", "", from) with { Verdict = judged.Verdict };
        if (judged.Verdict != Verdict.Within)
        {
            var isOutside = judged.Verdict == Verdict.Outside;
            return item with
            {
                State = DueState.Due,
                Day = last.On,
                What = isOutside ? item.What : What(last, "again"),
                Why = Texts.Get(
                    isOutside ? "why.mm.outside" : "why.mm.close",
                    Mm(judged.Reading.Value),
                    Mm(limit)
                ),
            };
        }
        var forecast = Forecast.Of(
            [
                .. series
                    .Where(part => part is { Usage: not null, Value: not null })
                    .Select(part => new TrendPoint(
                        part.Usage!.Value,
                        -part.Value!.Value,
                        part.StandardUncertainty ?? usualUncertaintyMm
                    )),
            ],
            -limit,
            last.Usage ?? 0,
            asked.Facts.Unit
        );
        item = item with
        {
            Why =
                Texts.Get("why.mm.within", Mm(judged.Reading.Value), Mm(limit))
                + " "
                + forecast.Sentence,
        };
        return forecast.At is { } at
            ? By(item, asked, at.Earliest, at.Latest)
            : item with
            {
                What = What(last, "again"),
            };
    }

    private static DueItem Battery(
        CarePart last,
        Asked asked,
        CareTerm term,
        double lasts,
        string turned
    )
    {
        var charge = last.Value ?? 0;
        var handover = asked.Table[CareTerm.HandoverPercent];
        var why =
            Texts.Get("why.battery", charge, asked.Words(lasts))
            + turned
            + (charge < handover ? " " + Texts.Get("why.battery.handover", handover) : "");
        var item = Item(last, "charge", why, asked.Table.From(term)) with
        {
            Verdict = charge < handover ? Verdict.Outside : Verdict.Within,
        };
        return last.Usage is { } usage
            ? By(item, asked, usage + lasts * charge / 100, null)
            : item with
            {
                Why = why + " " + Texts.Get("why.noCounter"),
            };
    }

    private static DueItem Months(CarePart last, Asked asked, CareTerm term) =>
        On(
            Item(
                last,
                "replace",
                Texts.Get("why.months", Day(last.On), asked.Table[term]),
                asked.Table.From(term)
            ),
            asked,
            last.On.AddMonths((int)Math.Round(asked.Table[term]))
        );

    private static DueItem QuickLink(CarePart last)
    {
        var closed = last.Count ?? 1;
        if (last.MakersCount is not { } allowed)
        {
            return Item(
                last,
                closed > 1 ? "replace" : "single",
                Texts.Get("why.link.noFigure", closed),
                Texts.Get("from.link.assumed")
            ) with
            {
                State = closed > 1 ? DueState.Due : DueState.CannotSay,
                Day = closed > 1 ? last.On : null,
            };
        }
        var item = Item(
            last,
            closed < allowed ? "reuse" : "single",
            Texts.Get("why.link", closed, allowed),
            Texts.Get("from.link.maker")
        );
        return closed > allowed
            ? item with
            {
                State = DueState.Due,
                Day = last.On,
                What = What(last, "replace"),
            }
            : item;
    }

    private static DueItem Fasteners(CarePart last, Asked asked)
    {
        var isFirst = (last.Count ?? 0) == 0;
        var term = isFirst ? CareTerm.FastenerKm : CareTerm.FastenerThenKm;
        var after = asked.FromKm(asked.Table[term]);
        double? latest = isFirst
            ? asked.FromKm(Math.Max(asked.Table[term], asked.Table[CareTerm.FastenerLatestKm]))
            : null;
        var why =
            (
                latest is { } most
                    ? Texts.Get("why.fasteners.first", asked.Words(after), asked.Words(most))
                    : Texts.Get("why.fasteners.then", asked.Words(after))
            ) + asked.Turned(wasKm: true);
        var item = Item(last, "recheck", why, asked.Table.From(term));
        return last.Usage is { } usage
            ? By(item, asked, usage + after, usage + latest)
            : item with
            {
                Why = why + " " + Texts.Get("why.noCounter"),
            };
    }

    private static DueItem FirstCheck(CarePart last, Asked asked)
    {
        var hours = asked.Table[CareTerm.FirstCheckHours];
        var after = asked.FromHours(hours);
        var days = (int)Math.Round(asked.Table[CareTerm.FirstCheckDays]);
        var day = last.On.AddDays(days);
        var item = Item(
            last,
            "check",
            Texts.Get("why.firstCheck", days, asked.Words(after)) + asked.Turned(wasKm: false),
            asked.Table.From(CareTerm.FirstCheckDays)
        );
        var byUse = last.Usage is { } usage ? By(item, asked, usage + after, null) : item;
        // Whichever comes first.
        return byUse.Day is { } used && used < day
            ? byUse
            : On(item with { Usage = byUse.Usage }, asked, day);
    }

    private static DueItem Item(CarePart part, string what, string why, string from) =>
        new(part.Kind, part.Place, DueState.CannotSay, What(part, what), why, from);

    private static string What(CarePart part, string key) =>
        Texts.Get(
            "what." + key,
            Title(part.Kind),
            part.Place == CarePlace.Bike ? "" : Texts.Get("place.in", TitleOf(part.Place))
        );

    /// <summary>What a kind is called.</summary>
    /// <param name="kind">The kind.</param>
    public static string Title(CareKind kind) => Texts.Get("kind." + kind);

    /// <summary>What a place is called.</summary>
    /// <param name="place">The place.</param>
    public static string TitleOf(CarePlace place) => Texts.Get("place." + place);

    private static DueItem By(DueItem item, Asked asked, double usage, double? latest) =>
        On(
            item with
            {
                Usage = usage,
                LatestUsage = latest,
                LatestDay = latest is { } most ? asked.Rate?.DayOf(most) : null,
                State = asked.Rate?.LastUsage >= usage ? DueState.Due : DueState.Later,
            },
            asked,
            asked.Rate?.DayOf(usage)
        );

    private static DueItem On(DueItem item, Asked asked, DateOnly? day) =>
        item with
        {
            Day = day,
            State =
                day is not { } when ? item.State
                : item.State == DueState.Due ? DueState.Due
                : StateOf(when, asked.Today),
        };

    /// <summary>How urgent what is due on a day is.</summary>
    /// <param name="day">The day.</param>
    /// <param name="today">The day on which it is asked.</param>
    public static DueState StateOf(DateOnly day, DateOnly today) =>
        day <= today ? DueState.Due
        : day.DayNumber - today.DayNumber <= SoonDays ? DueState.Soon
        : DueState.Later;

    private static string Mm(double mm) => mm.ToString("0.0#", CultureInfo.InvariantCulture);

    private static string Percent(double value) =>
        value.ToString("0.0#", CultureInfo.InvariantCulture);

    private static string Day(DateOnly day) =>
        day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
