using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Gearing;

/// <summary>A ride in sentences, the same on a screen and on the command line.</summary>
public static class RideWords
{
    /// <summary>The road: its length and climbing, and what became of its elevations; a typed road has none.</summary>
    /// <param name="result">The ride.</param>
    /// <param name="route">The road.</param>
    public static ImmutableArray<string> Road(RideResult result, Route route)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(route);
        var length = Texts.Get("said.length", result.LengthM / 1000, route.AscentM, route.DescentM);
        return route switch
        {
            { RecordedAscentM: null } => [length],
            { WindowM: { } window } =>
            [
                length,
                Texts.Get("said.smoothed", window, route.RecordedAscentM),
            ],
            _ => [length, Texts.Get("said.notSmoothed")],
        };
    }

    /// <summary>The time that it takes, and what of it is walked.</summary>
    /// <param name="result">The ride.</param>
    public static ImmutableArray<string> Time(RideResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var time = Texts.Get(
            "said.time",
            Clock(result.TotalS),
            result.LengthM / result.TotalS * 3.6,
            Clock(result.CoastingS)
        );
        return result.WalkedS > 0
            ? [time, Texts.Get("said.walked", Clock(result.WalkedS))]
            : [time];
    }

    /// <summary>The steepest minute and the lowest cadence on it.</summary>
    /// <param name="result">The ride.</param>
    public static string Steepest(RideResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var steepest = result.Steepest;
        return result.Present is { SteepestLowestRpm: { } rpm, SteepestGear: { } gear }
            ? Texts.Get(
                "said.steepest",
                steepest.Gradient * 100,
                steepest.StartM / 1000,
                steepest.SlowestMs * 3.6,
                rpm,
                gear
            )
            : Texts.Get(
                "said.steepestNotPedalled",
                steepest.Gradient * 100,
                steepest.StartM / 1000
            );
    }

    /// <summary>How far the cadence is from what the rider wants, how often is shifted, and how long the chain runs across.</summary>
    /// <param name="answer">The ride in one set of gears.</param>
    public static ImmutableArray<string> Gears(RideAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return
        [
            Texts.Get(
                "said.range",
                answer.BelowShare * 100,
                answer.AboveShare * 100,
                answer.OffAimRpm
            ),
            Texts.Get(
                "said.shifts",
                answer.FrontShifts,
                answer.RearShifts,
                Clock(answer.AcrossS),
                answer.AcrossShare * 100
            ),
        ];
    }

    /// <summary>Whether other gears suit better than those there are now.</summary>
    /// <param name="other">The ride in them.</param>
    public static string Suits(RideComparison other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Texts.Get(
            other.Suits switch
            {
                > 0 => "suits.better",
                < 0 => "suits.worse",
                _ => "suits.same",
            }
        );
    }

    /// <summary>What "better" means.</summary>
    public static string Order => Texts.Get("suits.order");

    /// <summary>A time as hours, minutes and seconds.</summary>
    /// <param name="seconds">The time (s).</param>
    public static string Clock(double seconds)
    {
        var whole = (long)Math.Round(seconds);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{whole / 3600}:{whole / 60 % 60:00}:{whole % 60:00}"
        );
    }
}
