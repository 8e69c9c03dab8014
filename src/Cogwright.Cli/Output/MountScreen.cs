using Cogwright.Drivetrain;
using Spectre.Console;
using Spectre.Console.Rendering;

namespace Cogwright.Cli.Output;

/// <summary>What a sprung mount and a damper add to the gear table: nothing on a bike without them.</summary>
internal static class MountScreen
{
    internal static void Write(IAnsiConsole console, Bike bike)
    {
        if (bike.Spec.RearDerailleur is not { } derailleur)
        {
            return;
        }
        if (derailleur.Sprung is { } mount)
        {
            Screen.Line(
                console,
                Texts.Get(
                    "sprung.heading",
                    bike.Table.PreloadNm!.Value,
                    Screen.Degrees(mount.RearRestRad),
                    mount.RateNmPerRad * Math.PI / 180,
                    Screen.Degrees(mount.ForwardLimitRad)
                )
            );
        }
        if (derailleur.Cage.FrictionNm is > 0 and var friction)
        {
            Screen.Line(console, Texts.Get("damper.on", friction));
        }
    }

    internal static void AddColumns(Table screen, GearTable table)
    {
        var (sprung, damped) = Has(table);
        if (sprung)
        {
            screen.AddColumn(new TableColumn(Texts.Get("column.bodyAngle")).RightAligned());
        }
        if (damped)
        {
            screen.AddColumn(new TableColumn(Texts.Get("column.tensionBand")).RightAligned());
        }
        if (sprung && damped)
        {
            screen.AddColumn(new TableColumn(Texts.Get("column.gapBand")).RightAligned());
        }
    }

    internal static IEnumerable<IRenderable> Cells(GearTable table, GearResult gear)
    {
        var (sprung, damped) = Has(table);
        if (sprung)
        {
            yield return new Text(
                gear.HasReach
                    ? Texts.Get($"body.{gear.BodyRest}", Screen.Degrees(gear.BodyAngleRad))
                    : ""
            );
        }
        if (!damped)
        {
            yield break;
        }
        var band = DamperBand.Of(table, gear);
        yield return new Text(
            band is { } tension && double.IsFinite(tension.ForwardN)
                ? Texts.Get(
                    tension.Returns ? "damper.band" : "damper.stays",
                    tension.ReturningN,
                    tension.ForwardN
                )
                : ""
        );
        if (sprung)
        {
            yield return new Text(
                band is { } gap
                && double.IsFinite(gap.GapForwardMm)
                && double.IsFinite(gap.GapReturningMm)
                    ? Texts.Get("damper.band", gap.GapReturningMm, gap.GapForwardMm)
                    : ""
            );
        }
    }

    private static (bool Sprung, bool Damped) Has(GearTable table) =>
        (
            table.Spec.RearDerailleur?.Sprung is not null,
            table.Spec.RearDerailleur?.Cage.FrictionNm > 0
        );
}
