using System.Globalization;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Web.Measuring;

/// <summary>What a fit is worth saying of its readings.</summary>
public static class FitWords
{
    private const double Noticed = 2;

    /// <summary>The reading that the others agree with least, or null when none stands out.</summary>
    public static FittedReading? Worst(BenchFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        FittedReading? worst = null;
        foreach (var reading in fit.Readings)
        {
            if (
                Math.Abs(reading.Normalized) > Noticed
                && (worst is null || Math.Abs(reading.Normalized) > Math.Abs(worst.Normalized))
            )
            {
                worst = reading;
            }
        }
        return worst;
    }

    /// <summary>Whether some readings check one another, and none of those stands out.</summary>
    public static bool AllAgree(BenchFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return fit.Readings.Any(reading => !double.IsNaN(reading.Normalized)) && Worst(fit) is null;
    }

    /// <summary>A length as a caliper shows it, without unit.</summary>
    public static string Mm(double mm) => mm.ToString("0.0#", CultureInfo.InvariantCulture);

    /// <summary>A difference with its sign.</summary>
    public static string Off(double mm) =>
        mm.ToString("+0.0#;−0.0#;0.0", CultureInfo.InvariantCulture);
}
