using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Records;

/// <summary>The work in the words of a record.</summary>
internal static class RecordWords
{
    /// <summary>What a step came to.</summary>
    internal static string Came(StepDone done) =>
        done.Value is not { } value ? Outcome(done)
        : done.Uncertainty is { } u and > 0
            ? Joined(Texts.Get("record.came.u", value, done.Unit, Outcome(done), u))
        : Joined(Texts.Get("record.came.value", value, done.Unit, Outcome(done)));

    /// <summary>Limits and aim with their unit, or null when there are none.</summary>
    internal static string? Limits(double? least, double? aim, double? most, string unit)
    {
        var figures = (least, aim, most) switch
        {
            ({ } lower, { } value, { } upper) when IsWide(lower, upper) => Texts.Get(
                "record.aimBand",
                lower,
                upper,
                value
            ),
            ({ } lower, _, { } upper) when IsWide(lower, upper) => Texts.Get(
                "record.band",
                lower,
                upper
            ),
            (_, { } value, _) => Texts.Get("record.value", value),
            ({ } lower, _, { }) => Texts.Get("record.value", lower),
            (_, _, { } upper) => Texts.Get("record.most", upper),
            ({ } lower, _, _) => Texts.Get("record.least", lower),
            _ => null,
        };
        return figures is null || unit.Length == 0 ? figures : $"{figures} {unit}";
    }

    /// <summary>Why a result was to be rechecked: from what happened, along what rests on it.</summary>
    internal static ImmutableArray<string> Why(RecheckMark mark, JobReview review, BikeWork work) =>
        [
            .. review
                .ChainOf(mark)
                .Reverse()
                .Select(reason =>
                    reason.Cause is { } cause ? Of(cause, work)
                    : reason.From is { } from
                        ? Texts.Get(
                            "record.cause.rests",
                            work.Runs[from.Run].Procedure.Steps[from.Step].Action
                        )
                    : ""
                )
                .Where(text => text.Length > 0)
                .Distinct(),
        ];

    /// <summary>What happened to the bike.</summary>
    internal static string Of(ChangeMade made)
    {
        var about = BikeChanges.Find(made.Change)?.About ?? made.Change;
        return made.Note.Length > 0 ? Texts.Get("record.noted", about, made.Note) : about;
    }

    /// <summary>A time as a day and a clock show it.</summary>
    /// <param name="utcTicks">The time (ticks, UTC).</param>
    /// <param name="offsetMinutes">How far the clock is ahead of UTC (minutes).</param>
    internal static string Time(long utcTicks, int offsetMinutes) =>
        At(utcTicks, offsetMinutes, "yyyy-MM-dd HH:mm");

    /// <summary>The day of a time.</summary>
    /// <inheritdoc cref="Time"/>
    internal static string Day(long utcTicks, int offsetMinutes) =>
        At(utcTicks, offsetMinutes, "yyyy-MM-dd");

    /// <summary>What the times are.</summary>
    internal static string Clock(int offsetMinutes) =>
        Texts.Get(
            "record.clock",
            string.Create(
                CultureInfo.InvariantCulture,
                $"{(offsetMinutes < 0 ? '−' : '+')}{Math.Abs(offsetMinutes) / 60:00}:{Math.Abs(offsetMinutes) % 60:00}"
            )
        );

    /// <summary>A day, or words that it is not known.</summary>
    internal static string Calibrated(DateOnly? day) =>
        day is { } known
            ? Texts.Get(
                "record.calibrated",
                known.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
            )
            : Texts.Get("record.notCalibrated");

    private static string Of(Cause cause, BikeWork work) =>
        cause.Fact switch
        {
            ChangeMade made => Of(made),
            FiguresChanged figures => Texts.Get(
                "record.cause.figures",
                string.Join(", ", figures.Parts.Select(StepWords.Part))
            ),
            StepDone when cause.Run >= 0 => Texts.Get(
                "record.cause.step",
                work.Runs[cause.Run].Procedure.Steps[cause.Step].Action
            ),
            _ => "",
        };

    private static string Outcome(StepDone done) => Texts.Get("record.outcome." + done.Outcome);

    private static bool IsWide(double lower, double upper) => Math.Abs(upper - lower) > 1e-9;

    // A bare number has no unit.
    private static string Joined(string text) =>
        text.Replace(" ,", ",", StringComparison.Ordinal)
            .Replace(" )", ")", StringComparison.Ordinal);

    private static string At(long utcTicks, int offsetMinutes, string format)
    {
        // A clock can say anything; what no calendar has is shown as its end.
        var ticks = Math.Clamp(
            utcTicks + (offsetMinutes * TimeSpan.TicksPerMinute),
            DateTime.MinValue.Ticks,
            DateTime.MaxValue.Ticks
        );
        return new DateTime(ticks).ToString(format, CultureInfo.InvariantCulture);
    }
}
