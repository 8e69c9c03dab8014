using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Drivetrain;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The gears over the whole travel, for a person and as JSON.</summary>
internal static class TravelSweepOutput
{
    /// <summary>Steps of a sweep: a travel of 150 mm in steps of 1.5 mm.</summary>
    private const int Steps = 100;

    /// <summary>Every how many positions a row is shown.</summary>
    private const int ShownEach = 10;

    private static readonly GearState[] WorstFirst =
    [
        GearState.Short,
        GearState.Clash,
        GearState.Unreachable,
        GearState.Slack,
    ];

    internal static TravelSweep Of(Bike bike) =>
        TravelSweep.Of(
            bike.Spec,
            [.. bike.Table.Gears.Select(gear => gear.Gear)],
            bike.Table.Pitches,
            Steps,
            bike.Table.BodyAngleRad
        );

    /// <summary>Positions as <c>sweep[]</c>. The names are documented in docs/how-to/command-line.md and stay.</summary>
    internal static void Write(
        Utf8JsonWriter json,
        TravelSweep sweep,
        ImmutableArray<SweepFinding> findings
    )
    {
        json.WriteStartArray("sweep");
        for (var p = 0; p < sweep.Positions; p++)
        {
            json.WriteStartObject();
            json.Figure("travelMm", sweep.TravelMm[p]);
            json.Figure("growthMm", sweep.GrowthMm[p]);
            json.Figure("axleForwardMm", sweep.AxleX[p]);
            json.Figure("axleUpMm", sweep.AxleY[p]);
            json.AngleDeg("rotationDeg", sweep.RotationRad[p]);
            json.WriteStartArray("gears");
            for (var g = 0; g < sweep.Gears.Length; g++)
            {
                var at = (g * sweep.Positions) + p;
                json.WriteStartObject();
                json.Gear(sweep.Gears[g]);
                json.WriteString("state", JsonAnswer.Name(sweep.State[at]));
                json.AngleDeg("cageAngleDeg", sweep.CageAngleRad[at]);
                if (!sweep.BodyAngleRad.IsEmpty)
                {
                    json.AngleDeg("bodyAngleDeg", sweep.BodyAngleRad[at]);
                }
                json.Figure("gapMm", sweep.GapMm[at]);
                json.Figure("tightMarginMm", sweep.TightMarginMm[at]);
                json.Figure("looseMarginMm", sweep.LooseMarginMm[at]);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("sweepFindings");
        foreach (var finding in findings)
        {
            json.WriteStartObject();
            json.Gear(finding.Gear);
            json.WriteBoolean("gearNotUsed", finding.NotUsed);
            json.Figure("valueMm", finding.ValueMm);
            json.Figure("travelMm", finding.TravelMm);
            json.WriteString("what", finding.What);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    internal static void Show(
        IAnsiConsole console,
        Bike bike,
        TravelSweep sweep,
        ImmutableArray<SweepFinding> findings
    )
    {
        Head.Show(console, bike);
        Screen.Line(console, Texts.Get("sweep.heading", sweep.Pitches));
        console.Write(Positions(bike, sweep));
        console.Write(Gears(bike, sweep));
        GearTableScreen.Findings(console, bike);
        if (!findings.IsEmpty)
        {
            Screen.Heading(console, Texts.Get("sweep.findings"));
            foreach (var finding in findings)
            {
                Screen.Line(console, $"• {finding.What}");
            }
        }
    }

    /// <summary>The axle and the gear in which the gap is set, position by position.</summary>
    private static Table Positions(Bike bike, TravelSweep sweep)
    {
        var gear = bike.GapGear;
        var of = sweep.Gears.IndexOf(gear) * sweep.Positions;
        var name = $"{gear.RingTeeth}/{gear.CogTeeth}";
        var screen = Screen.Table(
            Texts.Get("column.travel"),
            Texts.Get(GearTableScreen.Growth(bike.Spec, "column.growth")),
            Texts.Get("column.rotation"),
            Texts.Get("column.inGear", name, Texts.Get("column.gap")),
            Texts.Get("column.inGear", name, Texts.Get("column.cageAngle")),
            Texts.Get("column.inGear", name, Texts.Get("column.tight"))
        );
        for (var p = 0; p < sweep.Positions; p += ShownEach)
        {
            screen.AddRow(
                Screen.Number(sweep.TravelMm[p], 1),
                Screen.Number(sweep.GrowthMm[p], 1),
                Screen.Number(Screen.Degrees(sweep.RotationRad[p]), 1),
                Screen.Number(sweep.GapMm[of + p], 1),
                Screen.Number(Screen.Degrees(sweep.CageAngleRad[of + p]), 1),
                Screen.Number(sweep.TightMarginMm[of + p], 0)
            );
        }
        return screen;
    }

    /// <summary>The least of each figure of each gear, with the travel at which it is found.</summary>
    private static Table Gears(Bike bike, TravelSweep sweep)
    {
        var screen = Screen.Table(
            Texts.Get("column.gear"),
            Texts.Get("column.state"),
            Texts.Get("column.leastGap"),
            Texts.Get("column.atTravel"),
            Texts.Get("column.leastNext"),
            Texts.Get("column.atTravel"),
            Texts.Get("column.leastTight"),
            Texts.Get("column.atTravel"),
            Texts.Get("column.leastLoose"),
            Texts.Get("column.atTravel")
        );
        for (var g = 0; g < sweep.Gears.Length; g++)
        {
            var from = g * sweep.Positions;
            var gap = Least(sweep.GapMm.Slice(from, sweep.Positions));
            var tight = Least(sweep.TightMarginMm.Slice(from, sweep.Positions));
            var loose = Least(sweep.LooseMarginMm.Slice(from, sweep.Positions));
            screen.AddRow(
                Screen.Strong($"{sweep.Gears[g].RingTeeth}/{sweep.Gears[g].CogTeeth}"),
                Screen.Plain(Texts.Get($"state.{Worst(sweep.State.Slice(from, sweep.Positions))}")),
                Screen.Number(gap.Value, 1),
                Screen.Number(At(sweep, gap.Position), 0),
                Screen.Number(
                    gap.Value + SweepFindings.NextLessOwnMm(bike.Spec, sweep.Gears[g]),
                    1
                ),
                Screen.Number(
                    SweepFindings.HasNext(bike.Spec, sweep.Gears[g])
                        ? At(sweep, gap.Position)
                        : double.NaN,
                    0
                ),
                Screen.Number(tight.Value, 0),
                Screen.Number(At(sweep, tight.Position), 0),
                Screen.Number(loose.Value, 0),
                Screen.Number(At(sweep, loose.Position), 0)
            );
        }
        return screen;
    }

    internal static double At(TravelSweep sweep, int position) =>
        position < 0 ? double.NaN : sweep.TravelMm[position];

    internal static (double Value, int Position) Least(ReadOnlySpan<double> values)
    {
        var least = (Value: double.NaN, Position: -1);
        for (var i = 0; i < values.Length; i++)
        {
            if (!double.IsNaN(values[i]) && !(least.Value <= values[i]))
            {
                least = (values[i], i);
            }
        }
        return least;
    }

    /// <summary>
    /// The worst state there is: a chain that is too short breaks parts, then teeth that meet, a cog that is not reached, a
    /// chain that hangs.
    /// </summary>
    internal static GearState Worst(ReadOnlySpan<GearState> states)
    {
        foreach (var state in WorstFirst)
        {
            if (states.Contains(state))
            {
                return state;
            }
        }
        return GearState.Ok;
    }
}
