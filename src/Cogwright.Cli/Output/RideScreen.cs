using System.Globalization;
using Cogwright.Gearing;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>A ride for a person at a terminal.</summary>
internal static class RideScreen
{
    internal static void Write(IAnsiConsole console, RideOutput ride)
    {
        var result = ride.Result;
        Screen.Heading(
            console,
            Texts.Get("ride.heading", ride.Spec.Name, ride.Question.Route.Name)
        );
        Road(console, ride);
        Screen.Line(
            console,
            Texts.Get(
                "ride.time",
                Clock(result.TotalS),
                result.LengthM / result.TotalS * 3.6,
                Clock(result.CoastingS)
            )
        );
        if (ride.HeldW is { } watts)
        {
            Screen.Line(console, Texts.Get("ride.held", watts, Clock(result.TotalS)));
        }
        if (ride.HeldNote is { } held)
        {
            Screen.Line(console, Texts.Get("ride.note", held));
        }
        if (result.WalkedS > 0)
        {
            Screen.Line(console, Texts.Get("ride.walked", Clock(result.WalkedS)));
        }
        Steepest(console, result);
        if (ride.Spread is { } spread && result.Present.SteepestInLowestGearRpm is { } inLowest)
        {
            Screen.Line(
                console,
                Texts.Get(
                    "ride.lowestGear",
                    result.Present.LowestGear,
                    inLowest,
                    spread.LeastRpm,
                    spread.MostRpm
                )
            );
        }
        var present = result.Present;
        Screen.Line(
            console,
            Texts.Get(
                "ride.range",
                present.BelowShare * 100,
                present.AboveShare * 100,
                present.OffAimRpm
            )
        );
        Screen.Line(
            console,
            Texts.Get(
                "ride.shifts",
                present.FrontShifts,
                present.RearShifts,
                Clock(present.AcrossS),
                present.AcrossShare * 100
            )
        );
        console.Write(Shares(present));
        if (!result.Candidates.IsEmpty)
        {
            console.Write(Beside(ride));
            Screen.Line(console, Texts.Get("ride.beside.order"));
        }
        Assumed(console, ride);
    }

    private static void Road(IAnsiConsole console, RideOutput ride)
    {
        var route = ride.Question.Route;
        Screen.Line(
            console,
            Texts.Get("ride.length", ride.Result.LengthM / 1000, route.AscentM, route.DescentM)
        );
        if (route.RecordedAscentM is { } recorded)
        {
            Screen.Line(
                console,
                route.WindowM is { } window
                    ? Texts.Get("ride.smoothed", window, recorded)
                    : Texts.Get("ride.notSmoothed")
            );
        }
        foreach (
            var note in ride
                .Remarks.Select(remark => remark.Message)
                .Concat(route.Notes.Select(note => note.Message))
        )
        {
            Screen.Line(console, Texts.Get("ride.note", note));
        }
    }

    private static void Steepest(IAnsiConsole console, RideResult result)
    {
        var steepest = result.Steepest;
        Screen.Line(
            console,
            result.Present is { SteepestLowestRpm: { } rpm, SteepestGear: { } gear }
                ? Texts.Get(
                    "ride.steepest",
                    steepest.Gradient * 100,
                    steepest.StartM / 1000,
                    steepest.SlowestMs * 3.6,
                    rpm,
                    gear
                )
                : Texts.Get(
                    "ride.steepestNotPedalled",
                    steepest.Gradient * 100,
                    steepest.StartM / 1000
                )
        );
    }

    private static Table Shares(RideAnswer answer)
    {
        // A column for each ring, a row for each cog, the largest first: as the gears lie, low to high.
        var table = Screen.Table([
            Texts.Get("column.cog"),
            .. answer.Rings.Select(ring => Texts.Get("column.ringShare", ring.Teeth)),
            Texts.Get("column.cogShare"),
        ]);
        foreach (var cog in answer.Cogs.Reverse())
        {
            table.AddRow([
                Screen.Strong(cog.Teeth.ToString(CultureInfo.InvariantCulture)),
                .. answer.Rings.Select(ring =>
                    Share(
                        answer.Gears.Single(gear =>
                            gear.Teeth == new GearTeeth(ring.Teeth, cog.Teeth)
                        )
                    )
                ),
                Screen.Number(cog.Share * 100, 1),
            ]);
        }
        table.AddRow([
            Screen.Strong(Texts.Get("ride.ringTotal")),
            .. answer.Rings.Select(ring => Screen.Number(ring.Share * 100, 1)),
            Screen.Plain(""),
        ]);
        return table;
    }

    private static Text Share(GearShare gear) =>
        gear.Seconds == 0
            ? Screen.Faint("–")
            : new(Texts.Get(gear.IsAcross ? "ride.share.across" : "ride.share", gear.Share * 100))
            {
                Justification = Justify.Right,
            };

    private static Table Beside(RideOutput ride)
    {
        var table = Screen.Table([
            Texts.Get("ride.beside"),
            Texts.Get("ride.suits"),
            Texts.Get("ride.outside"),
            Texts.Get("ride.offAim"),
            Texts.Get("ride.lowestOnSteepest"),
            Texts.Get("ride.inLowestGear"),
            Texts.Get("ride.frontShifts"),
            Texts.Get("ride.across"),
        ]);
        var present = ride.Result.Present;
        table.AddRow([
            Screen.Strong(Texts.Get("ride.now", ride.Spec.Name)),
            Screen.Plain(""),
            Screen.Number(present.OutsideShare * 100, 1),
            Screen.Number(present.OffAimRpm, 1),
            Screen.Number(present.SteepestLowestRpm ?? double.NaN, 0),
            Screen.Number(present.SteepestInLowestGearRpm ?? double.NaN, 0),
            Screen.Number(present.FrontShifts, 0),
            Screen.Number(present.AcrossShare * 100, 1),
        ]);
        foreach (var other in ride.Result.Candidates)
        {
            table.AddRow([
                Screen.Plain(other.Candidate.Set.Name),
                Screen.Plain(
                    Texts.Get(
                        other.Suits switch
                        {
                            > 0 => "ride.suits.better",
                            < 0 => "ride.suits.worse",
                            _ => "ride.suits.same",
                        }
                    )
                ),
                Change(
                    "ride.change1",
                    other.Answer.OutsideShare * 100,
                    other.OutsideShareChange * 100
                ),
                Change("ride.change1", other.Answer.OffAimRpm, other.OffAimRpmChange),
                Change(
                    "ride.change0",
                    other.Answer.SteepestLowestRpm,
                    other.SteepestLowestRpmChange
                ),
                Change(
                    "ride.change0",
                    other.Answer.SteepestInLowestGearRpm,
                    other.SteepestInLowestGearRpmChange
                ),
                Change("ride.change0", other.Answer.FrontShifts, other.FrontShiftsChange),
                Change(
                    "ride.change1",
                    other.Answer.AcrossShare * 100,
                    other.AcrossShareChange * 100
                ),
            ]);
        }
        return table;
    }

    private static Text Change(string key, double? value, double? change) =>
        new(value is null ? "–" : Texts.Get(key, value, change)) { Justification = Justify.Right };

    private static void Assumed(IAnsiConsole console, RideOutput ride)
    {
        Screen.Heading(console, Texts.Get("assumed.heading"));
        foreach (var (option, value) in RideOptions.Assumed(ride.Settings))
        {
            Screen.Line(console, Texts.Get("ride.assumed", option, value));
        }
        foreach (var value in GearSets.Assumed(ride.Spec))
        {
            Screen.Line(console, Texts.Get("assumed.line", value.Path, value.Value, value.From));
        }
    }

    private static string Clock(double seconds)
    {
        var whole = (long)Math.Round(seconds);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{whole / 3600}:{whole / 60 % 60:00}:{whole % 60:00}"
        );
    }
}
