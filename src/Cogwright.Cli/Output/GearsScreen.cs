using System.Globalization;
using Cogwright.Gearing;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The measures of gears for a person at a terminal.</summary>
internal static class GearsScreen
{
    private const double KmhPerMs = 3.6;

    internal static void Write(
        IAnsiConsole console,
        IReadOnlyList<GearSetUp> setUps,
        bool tyreAssumed
    )
    {
        foreach (var setUp in setUps)
        {
            Screen.Heading(console, setUp.Spec.Name);
            Tyre(console, setUp.Ladder.Tyre);
            console.Write(Gears(setUp));
            Findings(console, setUp);
            Order(console, setUp.Order);
        }
        Screen.Heading(console, Texts.Get("gears.plot"));
        GearPlot.Write(console, setUps);
        if (setUps.Count > 1)
        {
            console.Write(SideBySide(setUps));
        }
        Assumed(console, setUps, tyreAssumed);
    }

    /// <summary>The tyre with the spread of its circumference.</summary>
    internal static void Tyre(IAnsiConsole console, Tyre tyre)
    {
        Screen.Line(
            console,
            Texts.Get(
                $"gears.tyre.{tyre.Source}",
                tyre.Designation,
                tyre.CircumferenceM * 1000,
                tyre.LeastM * 1000,
                tyre.MostM * 1000
            )
        );
        if (!tyre.IsSeatListed)
        {
            Screen.Line(console, Texts.Get("gears.seat", tyre.BeadSeatMm));
        }
    }

    private static Table Gears(GearSetUp setUp)
    {
        var gain = setUp.Ladder.CrankMm is not null;
        var table = Screen.Table([
            Texts.Get("column.gear"),
            Texts.Get("column.ratio"),
            Texts.Get("column.development"),
            Texts.Get("column.developmentSpread"),
            Texts.Get("column.gearInches"),
            .. gain ? [Texts.Get("column.gain")] : Array.Empty<string>(),
            Texts.Get("column.stepOnRing"),
            Texts.Get("column.stepToNext"),
            .. setUp.CadencesRpm.Select(rpm => Texts.Get("column.speedAt", rpm)),
            "",
        ]);
        var ring = -1;
        foreach (
            var gear in setUp
                .Ladder.Gears.OrderBy(gear => gear.RingIndex)
                .ThenBy(gear => gear.Ratio)
        )
        {
            if (ring >= 0 && gear.RingIndex != ring)
            {
                table.AddEmptyRow();
            }
            ring = gear.RingIndex;
            table.AddRow([
                Screen.Strong(gear.Teeth.ToString()),
                Screen.Number(gear.Ratio, 3),
                Screen.Number(gear.DevelopmentM, 2),
                Screen.Plain(
                    Texts.Get("gears.spread", gear.LeastDevelopmentM, gear.MostDevelopmentM)
                ),
                Screen.Number(gear.GearInches, 1),
                .. gain ? [Screen.Number(gear.Gain ?? double.NaN, 2)] : Array.Empty<Text>(),
                Screen.Number(gear.StepOnRing * 100 ?? double.NaN, 1),
                Screen.Number(gear.StepToNext * 100 ?? double.NaN, 1),
                .. setUp.CadencesRpm.Select(rpm =>
                    Screen.Number(GearMeasures.SpeedMs(gear.DevelopmentM, rpm) * KmhPerMs, 1)
                ),
                Screen.Plain(Note(gear)),
            ]);
        }
        return table;
    }

    private static string Note(LadderGear gear) =>
        (gear.IsUsed, gear.IsAcross) switch
        {
            (false, _) => Texts.Get("gears.note.notUsed"),
            (_, true) => Texts.Get("gears.note.across"),
            _ => "",
        };

    private static void Findings(IAnsiConsole console, GearSetUp setUp)
    {
        var ladder = setUp.Ladder;
        Screen.Line(
            console,
            Texts.Get(
                "gears.range",
                ladder.Lowest.Teeth,
                ladder.Highest.Teeth,
                ladder.Range * 100,
                ladder.Distinct,
                ladder.Gears.Count(gear => gear.IsUsed)
            )
        );
        Screen.Line(
            console,
            ladder.Doubles.IsEmpty
                ? Texts.Get("gears.noDoubles", ladder.DoublesWithin * 100)
                : Texts.Get(
                    "gears.doubles",
                    ladder.DoublesWithin * 100,
                    string.Join(
                        "; ",
                        ladder.Doubles.Select(pair =>
                            Texts.Get("gears.double", pair.Lower, pair.Higher, pair.Step * 100)
                        )
                    )
                )
        );
        Screen.Line(
            console,
            ladder.Gaps.IsEmpty
                ? Texts.Get("gears.noGaps", ladder.GapsAbove * 100)
                : Texts.Get(
                    "gears.gaps",
                    ladder.GapsAbove * 100,
                    string.Join(
                        "; ",
                        ladder.Gaps.Select(gap =>
                            Texts.Get("gears.gap", gap.Larger, gap.Smaller, gap.Step * 100)
                        )
                    )
                )
        );
    }

    private static void Order(IAnsiConsole console, ShiftOrder order)
    {
        if (order.Shifts.IsEmpty)
        {
            return;
        }
        Screen.Line(console, Texts.Get("gears.order", order.FrontShifts, order.LargestStep * 100));
        var words = new List<string> { order.Gears[0].Teeth.ToString() };
        foreach (var shift in order.Shifts)
        {
            words.Add(
                shift.Rings == 0
                    ? shift.To.ToString()
                    : Texts.Get(
                        shift.Cogs == 0 ? "gears.order.front" : "gears.order.both",
                        shift.To.Ring,
                        shift.To.Cog
                    )
            );
        }
        Screen.Line(console, Texts.Get("gears.order.line", string.Join(" → ", words)));
    }

    private static Table SideBySide(IReadOnlyList<GearSetUp> setUps)
    {
        var table = Screen.Table(["", .. setUps.Select(setUp => setUp.Spec.Name)]);
        void Row(string key, Func<GearSetUp, string> cell) =>
            table.AddRow([
                Screen.Plain(Texts.Get(key)),
                .. setUps.Select(setUp => Screen.Plain(cell(setUp))),
            ]);
        Row(
            "gears.side.lowest",
            s => Texts.Get("gears.side.gear", s.Ladder.Lowest.Teeth, s.Ladder.Lowest.DevelopmentM)
        );
        Row(
            "gears.side.highest",
            s => Texts.Get("gears.side.gear", s.Ladder.Highest.Teeth, s.Ladder.Highest.DevelopmentM)
        );
        Row("gears.side.range", s => Number(s.Ladder.Range * 100, "0"));
        Row("gears.side.distinct", s => Number(s.Ladder.Distinct, "0"));
        Row("gears.side.doubles", s => Number(s.Ladder.Doubles.Length, "0"));
        Row("gears.side.gaps", s => Number(s.Ladder.Gaps.Length, "0"));
        Row("gears.side.frontShifts", s => Number(s.Order.FrontShifts, "0"));
        Row("gears.side.largestStep", s => Number(s.Order.LargestStep * 100, "0.0"));
        return table;
    }

    private static string Number(double value, string format) =>
        value.ToString(format, CultureInfo.InvariantCulture);

    private static void Assumed(
        IAnsiConsole console,
        IReadOnlyList<GearSetUp> setUps,
        bool tyreAssumed
    )
    {
        var assumed = setUps
            .SelectMany(setUp =>
                GearSets.Assumed(setUp.Spec).Select(value => (setUp.Spec.Name, Value: value))
            )
            .ToList();
        if (assumed.Count == 0 && !tyreAssumed)
        {
            return;
        }
        Screen.Heading(console, Texts.Get("assumed.heading"));
        if (tyreAssumed)
        {
            Screen.Line(console, Texts.Get("gears.tyreAssumed", GearSets.AssumedTyre));
        }
        foreach (var (name, value) in assumed)
        {
            Screen.Line(
                console,
                setUps.Count == 1
                    ? Texts.Get("assumed.line", value.Path, value.Value, value.From)
                    : Texts.Get("gears.assumed", name, value.Path, value.Value, value.From)
            );
        }
    }
}
