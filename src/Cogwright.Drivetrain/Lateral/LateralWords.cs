using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>Clearances and stops in words: what is the matter, by how much, and what to do.</summary>
public static class LateralWords
{
    /// <summary>A stop that holds the pulley straight under the cog, up to rounding, reaches it (mm).</summary>
    private const double NotReachedMm = 1e-6;

    /// <summary>A clearance in words. One computed from figures that nobody measured says so.</summary>
    public static Explanation Of(Clearance clearance, ClearanceReport report)
    {
        ArgumentNullException.ThrowIfNull(clearance);
        ArgumentNullException.ThrowIfNull(report);
        var between = Texts.Get(
            Texts.OnAxle(
                $"clearance.{clearance.Kind}{Reached(clearance, report)}",
                report.IsOnAxle
            ),
            Between(clearance, report)
        );
        if (clearance.Mm is not { } room)
        {
            var key = clearance.IsStale ? "clearance.CannotSay.stale" : "clearance.CannotSay";
            return new(
                Texts.Get($"{key}.what", between),
                Texts.Get($"{key}.do", Measures(clearance.Missing))
            );
        }
        var what = Texts.Get(
            $"clearance.{clearance.Verdict}.what",
            between,
            Math.Abs(room),
            clearance.LeastMm
        );
        var toDo =
            clearance.Verdict == ClearanceVerdict.Clear
                ? ""
                : Texts.Get(Texts.OnAxle($"clearance.{clearance.Kind}.do", report.IsOnAxle));
        if (!clearance.Assumed.IsEmpty)
        {
            toDo = Join(toDo, Texts.Get("clearance.assumed", clearance.Assumed.Length));
        }
        return new(what, toDo);
    }

    /// <summary>A stop in words.</summary>
    public static Explanation Of(StopReach stop)
    {
        ArgumentNullException.ThrowIfNull(stop);
        var key = stop.OvershootMm < 0 ? "short" : "beyond";
        return new(
            Texts.Get(
                Texts.OnAxle($"stop.{stop.Stop}.{key}", stop.IsProgrammed),
                stop.GuideLateralMm,
                Math.Abs(stop.OvershootMm),
                stop.CogTeeth
            ),
            stop.IsLoose
                    ? Texts.Get(
                        Texts.OnAxle($"stop.{stop.Stop}.loose", stop.IsProgrammed),
                        StopReach.MostOvershootMm
                    )
                : stop.OvershootMm < 0
                    ? Texts.Get(Texts.OnAxle($"stop.{stop.Stop}.tight", stop.IsProgrammed))
                : ""
        );
    }

    /// <summary>The knock that would bring the cage to the spokes, or null when it cannot be said.</summary>
    public static string? KnockToSpokes(ClearanceReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return report.KnockToSpokesMm is { } knock and > 0
            ? Texts.Get("clearance.knockToSpokes", knock)
            : null;
    }

    private static object?[] Between(Clearance clearance, ClearanceReport report) =>
        [
            report.Knock.IsAngle ? report.Knock.Size * 180 / Math.PI : report.Knock.Size,
            report.Knock.IsAngle ? "°" : " mm",
            Degrees(report.Tilt?.LeanRad),
            Degrees(report.Tilt?.ToeRad),
            clearance.Gear is { } gear
                ? Texts.Get("clearance.inGear", gear.RingTeeth, gear.CogTeeth)
                : "",
        ];

    /// <summary>A stop that holds before the largest cog ends the swing there: the pose is that at the stop.</summary>
    private static string Reached(Clearance clearance, ClearanceReport report) =>
        clearance.Kind == ClearanceKind.CageOnLargestCog
        && report.Inboard is { IsProgrammed: false, OvershootMm: < -NotReachedMm }
            ? ".notReached"
            : "";

    private static double Degrees(double? angleRad) => (angleRad ?? 0) * 180 / Math.PI;

    private static string Measures(ImmutableArray<string> missing) =>
        string.Join("; ", missing.Select(path => Texts.Get($"measure.{path}")));

    private static string Join(string first, string second) =>
        first.Length == 0 ? second : $"{first} {second}";
}
