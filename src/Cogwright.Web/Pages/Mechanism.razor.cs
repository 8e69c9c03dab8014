using System.Collections.Immutable;
using System.Diagnostics;
using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Web.Bikes;
using Cogwright.Web.Pieces;
using Microsoft.AspNetCore.Components.Web;

namespace Cogwright.Web.Pages;

/// <summary>The drawing as the interface: a gear is chosen and things are tried, and the mechanism moves.</summary>
public partial class Mechanism
{
    /// <summary>After so long without a movement the hand is at rest, and everything is computed (ms).</summary>
    private const int RestMs = 160;

    private ImmutableArray<Knob> knobs = [];
    private (ComputedBike?, Gear) knobsOf;
    private SideStage? side;
    private TopStage? top;
    private MechanismFigures? figures;
    private GearChoice? gears;
    private Gauge gauge;
    private bool showsTop;
    private bool showsSpokes;
    private string said = "";
    private int moves;

    /// <inheritdoc/>
    protected override async Task OnParametersSetAsync()
    {
        await base.OnParametersSetAsync().ConfigureAwait(true);
        OnBikeChanged();
    }

    /// <inheritdoc/>
    protected override void OnBikeChanged()
    {
        var now = (Bench.AsSpec, Bench.GearAsSpec);
        if (Bench.AsSpec is { } asSpec && knobsOf != now)
        {
            knobs = Knobs.Of(asSpec, Bench.GearAsSpec);
            knobsOf = now;
        }
    }

    private void Choose(Gear gear)
    {
        Bench.Choose(gear);
        said =
            Bench.Bike is { } bike && bike.Table.Find(gear) is { } result
                ? Texts.Get(
                    "mech.saidGear",
                    gear.RingTeeth,
                    gear.CogTeeth,
                    Figures.Wrong(result, bike.Spec) ?? Texts.Get("mech.saidGap", result.GapMm)
                )
                : "";
    }

    private void Turn(Knob knob, double value)
    {
        var trial = knob.Write(Bench.Trial, value);
        var move = ++moves;
        if (knob.ChangesShape)
        {
            Bench.Try(trial);
            Say(knob);
            return;
        }
        var began = Stopwatch.GetTimestamp();
        if (Bench.TryMoving(trial) is not { Gears: [var result, ..] } table)
        {
            return;
        }
        side?.Move(table, Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        if (knob.MovesSideways)
        {
            top?.Move(table, trial.Tilt);
        }
        figures?.Move(result);
        _ = RestAsync(knob, move);
    }

    private async Task RestAsync(Knob knob, int move)
    {
        await Task.Delay(RestMs).ConfigureAwait(true);
        if (move == moves)
        {
            Bench.Try(Bench.Trial);
            Say(knob);
            StateHasChanged();
        }
    }

    /// <summary>One sentence for who does not see the drawing.</summary>
    private void Say(Knob knob)
    {
        if (
            Bench is not { Bike: { } bike, AsSpec: { } asSpec }
            || bike.Table.Find(Bench.Gear) is not { } after
            || asSpec.Table.Find(Bench.GearAsSpec) is not { } before
        )
        {
            return;
        }
        var changed = Figures
            .Of(before, after, Figures.Room(asSpec), Figures.Room(bike))
            .Where(figure => figure.IsChanged)
            .Select(figure =>
                Texts.Get("mech.saidFigure", figure.Label, figure.Before, figure.After)
            );
        said = Texts.Get(
            "mech.said",
            Texts.Get("mech.changed", knob.Label, knob.Say(knob.Nearest(knob.Read(bike.Trial)))),
            Figures.Wrong(after, bike.Spec)
                ?? string.Join(", ", changed.DefaultIfEmpty(Texts.Get("mech.saidSame")))
        );
    }

    private async Task KeepAsync()
    {
        moves++;
        if (Bench.AsSpec is not { } asSpec)
        {
            return;
        }
        var keeping = TrialKeeping.Of(Bench.History.Sheet, asSpec, Bench.Trial);
        var left = string.Join(", ", keeping.Left);
        if (keeping.Kept.Count == 0)
        {
            said = Texts.Get("mech.keptNothing", left);
            return;
        }
        var kept = string.Join(", ", keeping.Kept);
        var check = keeping.Sheet.Check(Bench.Library);
        if (check.Spec is null)
        {
            said = Texts.Get(
                "mech.keptNot",
                check.Problems.Select(problem => problem.Message).FirstOrDefault() ?? ""
            );
            return;
        }
        // What the spec has no field for goes back with the rest: it was tried, and is told.
        Bench.Drop();
        said =
            keeping.Left.Count == 0
                ? Texts.Get("mech.kept", kept)
                : Texts.Get("mech.keptPart", kept, left);
        if (keeping.Recheck.Count > 0)
        {
            said += " " + Texts.Get("mech.recheck", string.Join(", ", keeping.Recheck));
        }
        await Bench.ChangeAsync(keeping.Sheet, kept).ConfigureAwait(true);
    }

    private void Drop()
    {
        moves++;
        said = Texts.Get("mech.dropped");
        Bench.Try(Trial.None);
    }

    private void Measure(Gauge choice)
    {
        gauge = choice;
        showsSpokes = false;
        showsTop = false;
    }

    private void MeasureSpokes()
    {
        showsSpokes = true;
        showsTop = true;
        // The room to the spokes is read on the largest cog.
        if (Bench.Bike is { } bike)
        {
            Choose(new(Bench.Gear.RingTeeth, bike.Spec.Cogs.Teeth[^1]));
        }
    }

    private void Key(KeyboardEventArgs e)
    {
        if (!e.ShiftKey || gears is null)
        {
            return;
        }
        var gear = e.Key switch
        {
            "ArrowLeft" => gears.Cog(-1),
            "ArrowRight" => gears.Cog(1),
            "ArrowUp" => gears.Ring(1),
            "ArrowDown" => gears.Ring(-1),
            _ => null,
        };
        if (gear is { } chosen)
        {
            Choose(chosen);
        }
    }

    private static IEnumerable<Gauge> GaugesOf(DrivetrainSpec spec) =>
        Enum.GetValues<Gauge>()
            .Where(gauge => gauge != Gauge.Hanger || spec.RearDerailleur is { Coaxial: null });

    /// <summary>A field in words; its path where the texts have none.</summary>
    private static string Words(string path) =>
        Texts.Find("mech.field." + path) ?? SheetFields.LabelAt(path);
}
