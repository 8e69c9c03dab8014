using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>What can be said of when a limit is reached.</summary>
public enum ForecastState
{
    /// <summary>It lies ahead, with an interval.</summary>
    Ahead,

    /// <summary>It may be reached already.</summary>
    MaybeReached,

    /// <summary>It is reached.</summary>
    Reached,

    /// <summary>There are too few readings.</summary>
    TooFew,

    /// <summary>The readings prove no wear yet.</summary>
    NoRise,
}

/// <summary>When a limit is reached. Immutable.</summary>
/// <param name="State">What can be said.</param>
/// <param name="At">Where on the counter, with its interval of 95 %; null when it cannot be said.</param>
/// <param name="Trend">The line, or null when there is none.</param>
/// <param name="Sentence">The same in words.</param>
public sealed record Forecast(
    ForecastState State,
    TrendCrossing? At,
    WearTrend? Trend,
    string Sentence
)
{
    /// <summary>When values that rise reach a limit.</summary>
    /// <param name="points">The points.</param>
    /// <param name="limit">The limit.</param>
    /// <param name="now">What the counter stands at, at least (km or hours).</param>
    /// <param name="unit">What it counts.</param>
    public static Forecast Of(
        ImmutableArray<TrendPoint> points,
        double limit,
        double now,
        UsageUnit unit
    )
    {
        if (WearTrend.Through(points) is not { } trend)
        {
            return new(
                ForecastState.TooFew,
                null,
                null,
                Texts.Get("forecast.tooFew", points.Length, WearTrend.FewestPoints)
            );
        }
        if (trend.Reaches(limit) is not { } at)
        {
            return new(
                ForecastState.NoRise,
                null,
                trend,
                Texts.Get("forecast.noRise", points.Length)
            );
        }
        var state =
            at.Latest <= now ? ForecastState.Reached
            : at.Earliest <= now ? ForecastState.MaybeReached
            : ForecastState.Ahead;
        var (earliest, latest) = (Words(at.Earliest, unit), Words(at.Latest, unit));
        return new(
            state,
            at,
            trend,
            state switch
            {
                ForecastState.Reached => Texts.Get("forecast.reached", latest),
                ForecastState.MaybeReached => Texts.Get("forecast.maybe", Words(now, unit), latest),
                _ => Texts.Get("forecast.ahead", Words(at.Usage, unit), earliest, latest),
            }
        );
    }

    /// <summary>What a counter stands at, in words: 1230 km or 61 h.</summary>
    /// <param name="usage">km or hours.</param>
    /// <param name="unit">Which.</param>
    public static string Words(double usage, UsageUnit unit) =>
        Texts.Get(
            unit == UsageUnit.Km ? "usage.km" : "usage.hours",
            usage.ToString("F0", CultureInfo.InvariantCulture)
        );
}

/// <summary>What is known of a bike's present chain. Immutable.</summary>
public sealed record ChainCare
{
    /// <summary>
    /// Standard uncertainty of how long a new chain is (%): chains are made 0 to +0.15 % long, from memory, hence about 0.05.
    /// </summary>
    public const double NewChainPercent = 0.05;

    /// <summary>The chain.</summary>
    public required FittedChain Chain { get; init; }

    /// <summary>The limit.</summary>
    public required WearLimit Limit { get; init; }

    /// <summary>The last reading, or null when there is none.</summary>
    public WearReading? Last { get; init; }

    /// <summary>The elongation then, or null.</summary>
    public Elongation? Elongation { get; init; }

    /// <summary>How it stands to the limit, or null.</summary>
    public WearJudgement? Judgement { get; init; }

    /// <summary>Whether new cogs are due with the next chain, as a reading held against that limit; or null.</summary>
    public WearJudgement? CogsToo { get; init; }

    /// <summary>When the limit is reached.</summary>
    public required Forecast Forecast { get; init; }

    /// <summary>What must be told beside the figures.</summary>
    public ImmutableArray<string> Remarks { get; init; } = [];

    /// <summary>What is known of the last chain of a bike, or null when it has none.</summary>
    /// <param name="facts">The bike.</param>
    /// <param name="table">The shop's table.</param>
    /// <exception cref="ArgumentException">A reading is out of range.</exception>
    public static ChainCare? Of(CareFacts facts, CareTable table)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(table);
        return facts.Chains.IsEmpty ? null : Of(facts.Chains[^1], facts, table);
    }

    /// <summary>What is known of one chain.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="facts">The bike.</param>
    /// <param name="table">The shop's table.</param>
    /// <exception cref="ArgumentException">A reading is out of range.</exception>
    public static ChainCare Of(FittedChain chain, CareFacts facts, CareTable table)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(table);
        var limit = table.Chain.For(facts.Cogs);
        var last = chain.Readings.LastOrDefault();
        var elongation = last?.Elongation();
        var now = chain.Readings.Max(reading => reading.Usage) ?? chain.Usage ?? 0;
        return new()
        {
            Chain = chain,
            Limit = limit,
            Last = last,
            Elongation = elongation,
            Judgement = last is null ? null : WearJudgement.Of(last, limit.Percent),
            CogsToo = last is null ? null : WearJudgement.Of(last, table.Chain.CogsTooPercent),
            Forecast = Forecast.Of(PointsOf(chain), limit.Percent, now, facts.Unit),
            Remarks = last is null ? [] : RemarksOn(last),
        };
    }

    /// <summary>
    /// The points of a chain's trend: new at what the counter stood at when it was fitted (0 % with <see cref="NewChainPercent"/>,
    /// a choice), and every reading with a figure and a counter.
    /// </summary>
    /// <param name="chain">The chain.</param>
    public static ImmutableArray<TrendPoint> PointsOf(FittedChain chain)
    {
        ArgumentNullException.ThrowIfNull(chain);
        var points = ImmutableArray.CreateBuilder<TrendPoint>();
        if (chain is { WasNew: true, Usage: { } fitted })
        {
            points.Add(new(fitted, 0, NewChainPercent));
        }
        foreach (var reading in chain.Readings)
        {
            var elongation = reading.Elongation();
            if (reading.Usage is { } usage && elongation.Percent is { } percent)
            {
                points.Add(
                    new(
                        usage,
                        percent,
                        Quadrature.Combine(elongation.OwnUncertainty, elongation.ClassUncertainty),
                        elongation.SharedUncertainty,
                        elongation.SharedWith
                    )
                );
            }
        }
        return points.ToImmutable();
    }

    private static ImmutableArray<string> RemarksOn(WearReading reading)
    {
        var remarks = ImmutableArray.CreateBuilder<string>();
        if (reading.TakesPlayForWear)
        {
            var play = reading.ReckonedPlay;
            var percent = play.Mm / ChainPitch.LengthMm(reading.Pitches) * 100;
            remarks.Add(
                Texts.Get(
                    play.IsAssumed ? "remark.playAssumed" : "remark.play",
                    play.Mm.ToString("0.00", CultureInfo.InvariantCulture),
                    percent.ToString("0.00", CultureInfo.InvariantCulture)
                )
            );
        }
        if (reading.StandardUncertainty is null)
        {
            remarks.Add(Texts.Get("remark.usualUncertainty"));
        }
        if (reading.Spots.Length == 1)
        {
            remarks.Add(Texts.Get("remark.oneSpot"));
        }
        return remarks.ToImmutable();
    }
}
