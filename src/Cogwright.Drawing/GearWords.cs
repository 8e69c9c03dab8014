using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What is true of a gear, in words for a drawing.</summary>
internal static class GearWords
{
    /// <summary>The state in one or two words.</summary>
    internal static string State(GearState state) =>
        Texts.Get(
            state switch
            {
                GearState.Ok => "state.ok",
                GearState.Slack => "state.slack",
                GearState.Short => "state.short",
                GearState.Clash => "state.clash",
                GearState.Unreachable => "state.unreachable",
                _ => throw new ArgumentOutOfRangeException(nameof(state)),
            }
        );

    /// <summary>What the chain rubs on.</summary>
    internal static string Rubs(Rubbing rubs) =>
        Texts.Get(
            rubs is { Ring: true, Cage: true } ? "table.rubsBoth"
            : rubs.Ring ? "table.rubsRing"
            : "table.rubsCage"
        );

    /// <summary>Where the rear end stands, or null when it is rigid.</summary>
    internal static string? Travel(GearTable table)
    {
        if (table.Spec.Frame.Suspension is not { } suspension)
        {
            return null;
        }
        var growth = table.AxlePose.AxleToBracketMm - table.Spec.Frame.Axle.Length;
        var isStroke = suspension.TravelMeans == TravelMeaning.ShockStroke;
        if (table.Spec.Idler is not null)
        {
            // The chain runs over the idler: what axle and bracket part by is not what the chain grows by.
            return Texts.Get(
                isStroke ? "side.travelStrokeIdler" : "side.travelWheelIdler",
                table.TravelMm,
                suspension.TravelMm,
                growth > 0 ? $"+{Signed(growth, "0.0")}" : Signed(growth, "0.0")
            );
        }
        return Texts.Get(
            isStroke ? "side.travelStroke" : "side.travelWheel",
            table.TravelMm,
            suspension.TravelMm,
            Signed(growth, "0.0")
        );
    }

    /// <summary>What is wrong, by how much and what is to blame; null when nothing is.</summary>
    internal static string? Warning(GearResult result) =>
        result.State switch
        {
            GearState.Ok => null,
            _ when result.Blame
                    is Blame.OverlappingSprockets
                        or Blame.IdlerOnSprocket
                        or Blame.ChainOffIdler => Texts.Get("warning.overlap"),
            GearState.Slack when !double.IsNaN(result.AxleMovedMm) => Texts.Get(
                "warning.slackDirect",
                result.ShortfallMm
            ),
            GearState.Short when !double.IsNaN(result.AxleMovedMm) => Texts.Get(
                "warning.shortDirect",
                result.ShortfallMm
            ),
            GearState.Slack => Texts.Get("warning.slack", result.ShortfallMm),
            GearState.Short => Texts.Get("warning.short", result.ShortfallMm),
            GearState.Clash => Texts.Get("warning.clash", -result.GapMm),
            _ => Texts.Get(
                result.Blame switch
                {
                    Blame.InboardStop => "warning.inboardStop",
                    Blame.OutboardStop => "warning.outboardStop",
                    _ => "warning.parallelogram",
                },
                result.ShortfallMm
            ),
        };

    /// <summary>The chain's length, counted as the trade counts it without room for a mistake.</summary>
    internal static string Pitches(int pitches) =>
        pitches % 2 == 0
            ? Texts.Get("chain.pitches", pitches, pitches / 2)
            : Texts.Get("chain.oddPitches", pitches);

    /// <summary>The line that says what nobody measured, or where that is listed; null when everything was given.</summary>
    internal static string? Assumed(DrivetrainSpec spec, bool byName) =>
        spec.Assumptions.IsDefaultOrEmpty ? null
        : !byName ? Texts.Get("drawing.assumedListed")
        : Texts.Get("drawing.assumed", string.Join(", ", spec.Assumptions.Select(a => a.Path)));

    /// <summary>Whole millimetres of chain; a tenth where the reserve is small enough to matter.</summary>
    internal static string ReserveFormat(double reserveMm) =>
        Math.Abs(reserveMm) < 9.95 ? "0.0" : "0";

    /// <summary>An angle (rad) in degrees with one decimal, its minus sign a true one.</summary>
    internal static string Degrees(double angleRad) =>
        Signed(angleRad * 180 / Math.PI, "0.0") + "°";

    /// <summary>A number with a true minus sign; never a negative zero.</summary>
    internal static string Signed(double value, string format)
    {
        var text = value.ToString(format, System.Globalization.CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.Any(c => c is >= '1' and <= '9')
            ? string.Concat("−", text.AsSpan(1))
            : text.TrimStart('-');
    }
}
