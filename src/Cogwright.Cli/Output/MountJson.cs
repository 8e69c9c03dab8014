using System.Text.Json;
using Cogwright.Drivetrain;

namespace Cogwright.Cli.Output;

/// <summary>What a sprung mount and a damper add to a gear as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class MountJson
{
    internal static void Write(Utf8JsonWriter json, GearTable table, in GearResult gear)
    {
        if (table.Spec.RearDerailleur is not { } derailleur)
        {
            return;
        }
        var isSprung = derailleur.Sprung is not null;
        if (isSprung)
        {
            json.AngleDeg("bodyAngleDeg", gear.HasReach ? gear.BodyAngleRad : double.NaN);
            json.WriteString("bodyRest", gear.HasReach ? JsonAnswer.Name(gear.BodyRest) : null);
        }
        if (!(derailleur.Cage.FrictionNm > 0))
        {
            return;
        }
        var band = DamperBand.Of(table, gear);
        json.Figure("lowerRunTensionForwardN", band?.ForwardN);
        json.Figure("lowerRunTensionReturningN", band?.ReturningN);
        if (band is { } known)
        {
            json.WriteBoolean("cageReturns", known.Returns);
        }
        else
        {
            json.WriteNull("cageReturns");
        }
        if (isSprung)
        {
            json.Figure("gapForwardMm", band?.GapForwardMm);
            json.Figure("gapReturningMm", band?.GapReturningMm);
        }
    }
}
