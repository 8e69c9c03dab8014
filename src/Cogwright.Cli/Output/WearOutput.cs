using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cogwright.Care;
using Cogwright.Files;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Wear and care of one bike, for a person at a terminal and for programs.</summary>
/// <param name="file">The file.</param>
/// <param name="remarks">What its reader remarked.</param>
/// <param name="today">The day for which it is asked.</param>
internal sealed class WearOutput(WearFile file, ImmutableArray<FileProblem> remarks, DateOnly today)
{
    internal ChainCare? Chain { get; } = ChainCare.Of(file.Facts, file.Table);

    internal ImmutableArray<DueItem> Due { get; } = CareDue.Of(file.Facts, file.Table, today);

    private NewChainOutlook Outlook { get; } = NewChainOutlook.Of(file.Facts, file.Table);

    internal void Show(IAnsiConsole console)
    {
        foreach (var remark in remarks)
        {
            Screen.Line(
                console,
                Texts.Get("problem.place", remark.File, remark.Line, remark.Column, remark.Field)
                    + $" {remark.Message}"
            );
        }
        if (Chain is { } chain)
        {
            ShowChain(console, chain);
        }
        ShowDue(console);
    }

    private void ShowChain(IAnsiConsole console, ChainCare chain)
    {
        Screen.Heading(console, Texts.Get("wear.chain"));
        var table = Screen.Table(
            Texts.Get("column.day"),
            Texts.Get("wear.counter"),
            Texts.Get("wear.way"),
            Texts.Get("wear.elongation"),
            Texts.Get("wear.u"),
            Texts.Get("wear.verdict")
        );
        foreach (var reading in chain.Chain.Readings)
        {
            var elongation = reading.Elongation();
            var judged = WearJudgement.Of(reading, chain.Limit.Percent);
            table.AddRow(
                Screen.Plain(Day(reading.On)),
                Screen.Plain(
                    reading.Usage is { } usage ? Forecast.Words(usage, file.Facts.Unit) : "–"
                ),
                Screen.Plain(Texts.Get($"wearWay.{reading.Way}", reading.Pitches)),
                Screen.Strong(Words(elongation)),
                Screen.Plain(
                    elongation.Reading is { } value ? Two(value.StandardUncertainty) : "–"
                ),
                Screen.Plain(Texts.Get($"verdict.{judged.Verdict}"))
            );
        }
        console.Write(table);
        Screen.Line(console, Texts.Get("wear.limit", Two(chain.Limit.Percent), chain.Limit.From));
        if (chain.Judgement?.BySpot == true)
        {
            Screen.Line(console, Texts.Get("wear.bySpot"));
        }
        Screen.Line(console, chain.Forecast.Sentence);
        foreach (var remark in chain.Remarks)
        {
            Screen.Line(console, remark);
        }
        Screen.Heading(console, Texts.Get("wear.newChain"));
        console.Write(new Text($"  ⚠ {Outlook.Caution}\n", new Style(Color.Yellow)));
        Screen.Line(console, Texts.Get($"newChain.{Outlook.Answer}"));
        foreach (var reason in Outlook.Reasons)
        {
            Screen.Line(console, $"  {reason}");
        }
        Screen.Line(console, Outlook.Test);
    }

    private void ShowDue(IAnsiConsole console)
    {
        Screen.Heading(console, Texts.Get("wear.due", Day(today)));
        var table = Screen.Table(
            Texts.Get("wear.when"),
            Texts.Get("column.day"),
            Texts.Get("wear.counter"),
            Texts.Get("wear.what"),
            Texts.Get("wear.why"),
            Texts.Get("column.source")
        );
        foreach (var item in Due)
        {
            table.AddRow(
                Screen.Strong(Texts.Get($"dueState.{item.State}")),
                Screen.Plain(Span(item.Day, item.LatestDay, Day)),
                Screen.Plain(
                    Span(
                        item.Usage,
                        item.LatestUsage,
                        usage => Forecast.Words(usage, file.Facts.Unit)
                    )
                ),
                Screen.Plain(item.What),
                Screen.Plain(item.Why),
                Screen.Plain(item.From)
            );
        }
        console.Write(table);
        Screen.Line(console, Texts.Get("wear.caution"));
    }

    internal void Write(Utf8JsonWriter json)
    {
        json.WriteString("code", file.Code);
        json.WriteString("date", Day(today));
        json.WriteString("counter", JsonAnswer.Name(file.Facts.Unit));
        if (Chain is { } chain)
        {
            json.WriteStartObject("chain");
            WriteChain(json, chain);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("chain");
        }
        json.WriteStartObject("newChain");
        json.WriteString("answer", JsonAnswer.Name(Outlook.Answer));
        json.WriteString("caution", Outlook.Caution);
        json.Sentences("reasons", Outlook.Reasons);
        json.WriteString("test", Outlook.Test);
        json.WriteEndObject();
        json.WriteStartArray("due");
        foreach (var item in Due)
        {
            json.WriteStartObject();
            json.WriteString("id", item.Id);
            json.WriteString("kind", JsonAnswer.Name(item.Kind));
            json.WriteString("place", JsonAnswer.Name(item.Place));
            json.WriteString("state", JsonAnswer.Name(item.State));
            json.WriteString("day", item.Day is { } day ? Day(day) : null);
            json.WriteString("latestDay", item.LatestDay is { } last ? Day(last) : null);
            json.Figure("at", item.Usage);
            json.Figure("latestAt", item.LatestUsage);
            json.WriteString(
                "verdict",
                item.Verdict is { } verdict ? JsonAnswer.Name(verdict) : null
            );
            json.WriteString("what", item.What);
            json.WriteString("why", item.Why);
            json.WriteString("from", item.From);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.Sentences("remarks", remarks.Select(remark => remark.Message));
    }

    private static void WriteChain(Utf8JsonWriter json, ChainCare chain)
    {
        json.Figure("limitPercent", chain.Limit.Percent);
        json.WriteString("limitFrom", chain.Limit.From);
        json.WriteStartArray("readings");
        foreach (var reading in chain.Chain.Readings)
        {
            var elongation = reading.Elongation();
            var judged = WearJudgement.Of(reading, chain.Limit.Percent);
            json.WriteStartObject();
            json.WriteString("on", Day(reading.On));
            json.Figure("at", reading.Usage);
            json.WriteString("way", JsonAnswer.Name(reading.Way));
            json.WriteNumber("pitches", reading.Pitches);
            json.Figure("percent", elongation.Percent);
            json.Figure("standardUncertainty", elongation.Reading?.StandardUncertainty);
            json.Figure("lower", elongation.LowerPercent);
            json.Figure("upper", elongation.UpperPercent);
            json.WriteString("verdict", JsonAnswer.Name(judged.Verdict));
            json.Figure("probability", judged.ConformanceProbability);
            json.Figure("decidingUncertainty", judged.DecidingUncertainty);
            json.WriteBoolean("bySpot", judged.BySpot);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartObject("forecast");
        json.WriteString("state", JsonAnswer.Name(chain.Forecast.State));
        json.Figure("at", chain.Forecast.At?.Usage);
        json.Figure("earliest", chain.Forecast.At?.Earliest);
        json.Figure("latest", chain.Forecast.At?.Latest);
        json.Figure("slope", chain.Forecast.Trend?.Slope);
        json.WriteString("sentence", chain.Forecast.Sentence);
        json.WriteEndObject();
        json.Sentences("remarks", chain.Remarks);
    }

    private static string Words(Elongation elongation) =>
        elongation switch
        {
            { LowerPercent: { } lower, UpperPercent: null } => Texts.Get(
                "wear.atLeast",
                Two(lower)
            ),
            { LowerPercent: { } lower, UpperPercent: { } upper } => Texts.Get(
                "wear.between",
                Two(lower),
                Two(upper)
            ),
            _ => Texts.Get("wear.percent", Two(elongation.Percent!.Value)),
        };

    private static string Span<T>(T? first, T? last, Func<T, string> words)
        where T : struct =>
        first is not { } from ? "–"
        : last is { } to && !to.Equals(from) ? Texts.Get("wear.span", words(from), words(to))
        : words(from);

    private static string Two(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);

    private static string Day(DateOnly day) =>
        day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
