using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Care;
using Cogwright.Log;
using Cogwright.Measurement;
using Cogwright.Web.Bikes;
using Cogwright.Web.Device;
using Cogwright.Web.Pieces;
using Cogwright.Web.Plots;

namespace Cogwright.Web.Wear;

/// <summary>Wear and care of the bike on the stand: what its log comes to, and the way to add to it.</summary>
/// <param name="shelf">Where the logs are.</param>
/// <param name="bench">The stand.</param>
/// <param name="time">The clock of the device.</param>
internal sealed class CareDesk(DeviceShelf shelf, Workbench bench, TimeProvider time)
{
    /// <summary>Points of the line that a plot draws.</summary>
    private const int LinePoints = 24;

    /// <summary>The day on this device.</summary>
    internal DateOnly Today => DateOnly.FromDateTime(time.GetLocalNow().DateTime);

    /// <summary>What is known of the bike.</summary>
    internal CareFacts Facts =>
        shelf.CareOf(bench.Id) with
        {
            Cogs = bench.AsSpec?.Spec.Cogs.Teeth.Length,
        };

    /// <summary>What falls due on the bike, the first check that was agreed among it.</summary>
    internal ImmutableArray<DueItem> Due =>
        shelf.WithJobs(bench.Id, CareDue.Of(Facts, Table, Today), Today);

    /// <summary>The shop's limits and intervals.</summary>
    internal CareTable Table => shelf.CareTable;

    /// <summary>Adds an entry to the bike's log; it is on the device when this ends. A demo bike becomes one's own.</summary>
    /// <param name="entry">The entry.</param>
    internal async Task AddAsync(EntryDraft entry)
    {
        if (await bench.OwnAsync().ConfigureAwait(true) is { } bike)
        {
            await shelf.AddFactAsync(new(Guid.Parse(bike)), entry).ConfigureAwait(true);
        }
    }

    /// <summary>Takes an entry back with a later one.</summary>
    /// <param name="id">The entry that was a mistake.</param>
    internal Task TakeBackAsync(string id) =>
        Guid.TryParse(bench.Id, out var bike) && Guid.TryParse(id, out var entry)
            ? shelf.TakeFactBackAsync(new(bike), new(entry), Texts.Get("care.mistake"))
            : Task.CompletedTask;

    /// <summary>Sets the shop's own limits and intervals.</summary>
    /// <param name="table">All of them.</param>
    internal Task SetTableAsync(CareTable table) => shelf.SetCareTableAsync(table);

    /// <summary>The reminders of the bike as a calendar file.</summary>
    /// <param name="items">What falls due.</param>
    internal string Calendar(IEnumerable<DueItem> items) =>
        CareCalendar.Write(items, Code, Today, time.GetUtcNow().UtcDateTime);

    /// <summary>A code that tells the bike apart and names nobody: the last signs of its id.</summary>
    internal string Code => bench.Id is { } id ? id[Math.Max(0, id.Length - 6)..] : "";

    /// <summary>The plot of a chain's wear, or null while there is no line.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="unit">What the bike's use is counted in.</param>
    internal static Plot? PlotOf(ChainCare chain, UsageUnit unit)
    {
        if (chain.Forecast.Trend is not { } trend)
        {
            return null;
        }
        var from = trend.Points.Min(point => point.Usage);
        var last = trend.Points.Max(point => point.Usage);
        // A line that hardly rises would run off the page: three times what was ridden is far enough.
        var to = Math.Min(
            Math.Max(last, chain.Forecast.At?.Latest ?? last),
            from + 3 * (last - from)
        );
        ImmutableArray<double> places =
        [
            .. Enumerable.Range(0, LinePoints + 1).Select(i => from + (to - from) * i / LinePoints),
        ];
        PlotLine Line(string key, Func<TrendValue, double> figure) =>
            new(
                Texts.Get(key),
                [.. places.Select(place => new PlotPoint(place, figure(trend.At(place))))]
            );
        return new()
        {
            Id = "wear",
            Title = Texts.Get("care.plot"),
            XTitle = Texts.Get(unit == UsageUnit.Km ? "care.plot.km" : "care.plot.hours"),
            YTitle = Texts.Get("care.plot.percent"),
            Lines =
            [
                Line("care.plot.line", value => value.Value),
                Line("care.plot.least", value => value.Value - value.HalfWidth),
                Line("care.plot.most", value => value.Value + value.HalfWidth),
            ],
            Limits = [(Texts.Get("care.plot.limit"), chain.Limit.Percent)],
            Summary = chain.Forecast.Sentence,
            Format = "0.00",
        };
    }

    /// <summary>An elongation in words.</summary>
    /// <param name="elongation">The elongation.</param>
    internal static string Words(Elongation elongation) =>
        elongation switch
        {
            { LowerPercent: { } lower, UpperPercent: null } => Texts.Get(
                "care.atLeast",
                Two(lower)
            ),
            { LowerPercent: { } lower, UpperPercent: { } upper } => Texts.Get(
                "care.between",
                Two(lower),
                Two(upper)
            ),
            { Reading: { } reading } => Texts.Get(
                "care.percent",
                Two(reading.Value),
                Two(reading.StandardUncertainty)
            ),
            _ => "",
        };

    /// <summary>What was seen of a part in words: which one, where, and its figure.</summary>
    /// <param name="part">The part.</param>
    internal static string Words(CarePart part) =>
        string.Join(
            ", ",
            (
                (string?[])
                    [
                        part.Place == CarePlace.Bike
                            ? CareDue.Title(part.Kind)
                            : $"{CareDue.Title(part.Kind)} {CareDue.TitleOf(part.Place)}",
                        part.Value is { } value
                            ? Texts.Get(
                                CarePart.IsBattery(part.Kind)
                                    ? "care.seen.percent"
                                    : "care.seen.mm",
                                value
                            )
                            : null,
                        part.Count is { } count
                            ? Texts.Get(
                                part.Kind == CareKind.QuickLink
                                    ? "care.seen.closed"
                                    : "care.seen.rechecked",
                                count
                            )
                            : null,
                        part.IsNew ? Texts.Get("care.seen.new") : null,
                    ]
            ).OfType<string>()
        );

    /// <summary>The class of the style of a verdict.</summary>
    /// <param name="verdict">The verdict.</param>
    internal static string StyleOf(Verdict? verdict) =>
        verdict switch
        {
            Verdict.Within => "yes",
            Verdict.Outside => "no",
            _ => "close",
        };

    /// <summary>A number as somebody types it, with a comma or a point; null when it is none.</summary>
    /// <param name="text">The text.</param>
    internal static double? Number(string text) => TypedNumber.Of(text.Trim().TrimEnd('%'));

    /// <summary>What is wrong with what a counter is said to stand at, or null.</summary>
    /// <param name="usage">km or hours; null: what was typed is no number.</param>
    internal static string? CounterFault(double? usage) =>
        usage switch
        {
            >= 0 and <= CareFacts.MostUsage => null,
            null or double.NaN => Texts.Get("care.noNumber"),
            _ => Texts.Get("care.counterRange", usage, CareFacts.MostUsage),
        };

    /// <summary>A day as it is written everywhere.</summary>
    /// <param name="day">The day.</param>
    internal static string Day(DateOnly day) => day.ToString("O", CultureInfo.InvariantCulture);

    private static string Two(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);
}
