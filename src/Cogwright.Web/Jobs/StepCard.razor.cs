using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Facts;
using Cogwright.Measurement;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using Cogwright.Web.Pieces;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Jobs;

/// <content>What is done with a step.</content>
public sealed partial class StepCard
{
    private readonly HashSet<int> confirmed = [];
    private StepPlace shown = new(-1, -1);
    private ImmutableArray<StepBlock> blocks = [];
    private ImmutableArray<string> asked = [];
    private RecheckMark? mark;
    private StepAim? aim;
    private StepVerdict? verdict;
    private TestReview? test;
    private bool held;
    private bool isArmed;
    private bool isBusy;
    private Task kept = Task.CompletedTask;
    private ImmutableArray<ShopGauge> gauges = [];
    private string gaugeId = "";
    private string turns = "";
    private string note = "";

    /// <summary>The step.</summary>
    [Parameter, EditorRequired]
    public StepPlace Place { get; set; }

    /// <summary>Another step is to be shown.</summary>
    [Parameter]
    public EventCallback<StepPlace> Chosen { get; set; }

    /// <summary>What was typed into the reading field is to be taken.</summary>
    [Parameter]
    public EventCallback TakeTyped { get; set; }

    /// <summary>The step came to something good.</summary>
    [Parameter]
    public EventCallback<StepPlace> WentWell { get; set; }

    /// <summary>What the reading field stands for.</summary>
    internal string Token => TokenOf(Place);

    private ProcedureRun Run => Desk.Work.Runs[Place.Run];

    private ProcedureStep Step => Desk.StepAt(Place);

    private StepResult? Result => Desk.ResultAt(Place);

    private ShopGauge? Gauge => gauges.FirstOrDefault(gauge => gauge.Id == gaugeId);

    private DateOnly Today => DateOnly.FromDateTime(Time.GetLocalNow().DateTime);

    [Inject]
    private TimeProvider Time { get; init; } = null!;

    private StepStanding Standing => Desk.Review.StandingOf(Place);

    private bool CanBeDone => blocks.IsEmpty;

    /// <summary>Whether every hazard that can hurt somebody badly was confirmed by what avoids it.</summary>
    private bool IsConfirmed =>
        Step
            .Hazards.Select((hazard, i) => hazard.Harm != Harm.Serious || confirmed.Contains(i))
            .All(good => good);

    internal static string TokenOf(StepPlace place) =>
        string.Create(CultureInfo.InvariantCulture, $"step-{place.Run}-{place.Step}");

    /// <inheritdoc/>
    protected override async Task OnInitializedAsync()
    {
        await Shelf.OpenShopAsync();
        Look();
    }

    /// <inheritdoc/>
    protected override void OnParametersSet() => Look();

    /// <inheritdoc/>
    protected override Task OnDeviceChangedAsync()
    {
        Look();
        return Task.CompletedTask;
    }

    /// <summary>A reading arrived for this step.</summary>
    /// <param name="text">As typed or sent.</param>
    /// <returns>Whether it was taken; if not, the card says why, with what was read.</returns>
    internal async Task<bool> ArrivedAsync(string text)
    {
        // Bursts can come faster than the device keeps them: none is dropped.
        await kept;
        Look();
        var read = text.Trim();
        if (aim is not { HasLimits: true } || Step.Check is not { } check)
        {
            return Ask(Texts.Get("job.noReadingHere", read));
        }
        if (!CanBeDone || !IsConfirmed)
        {
            return Ask(Texts.Get("job.readingRefused", read));
        }
        if (TypedNumber.Of(read) is not { } value)
        {
            return Ask(Texts.Get("job.noNumber", read));
        }
        var turned = TypedNumber.Of(turns);
        if (turned is null && !string.IsNullOrWhiteSpace(turns))
        {
            return Ask(Texts.Get("job.noTurns", read, turns.Trim()));
        }
        var gauge = Gauge;
        var reading = gauge?.Read(value) ?? new Reading(value, 0);
        var found = Desk.Steps!.Judge(check, reading, turned, Result);
        if (found.Outcome is not { } outcome)
        {
            return Ask([.. found.Questions]);
        }
        kept = KeepAsync(
            new StepDone(Unsaid, Run.Id, Step.Id, outcome)
            {
                Value = value,
                Unit = aim.Unit,
                Uncertainty = gauge is null ? null : reading.StandardUncertainty,
                Gauge = gauge?.Name ?? "",
                Calibrated = gauge?.CalibratedOn,
                Turned = turned,
            }
        );
        await kept;
        return true;
    }

    private bool Ask(params string[] questions)
    {
        asked = [.. questions];
        StateHasChanged();
        return false;
    }

    // Who and when is the entry's own.
    internal static FactSource Unsaid { get; } = new("", 0, "");

    private void Look()
    {
        if (shown != Place)
        {
            shown = Place;
            confirmed.Clear();
            (note, turns, asked) = ("", "", []);
            gaugeId = "";
            held =
                Desk.Review.Recheck.MarkOf(Place.Run, Place.Step)
                    is not { Level: RecheckLevel.Redo };
        }
        blocks = Desk.Review.BlocksOf(Place);
        mark = Desk.Review.Recheck.MarkOf(Place.Run, Place.Step);
        test = Desk.TestAt(Place);
        aim = Step.Check is { HasNumber: true } check ? Desk.Steps?.AimOf(check) : null;
        var unit = Step.Torque is not null ? "N·m" : aim?.Unit ?? "";
        gauges = unit.Length > 0 ? UsualGauges.For(Shelf.Gauges, unit) : [];
        if (Step.Torque is null && gauges.Length > 0 && Gauge is null)
        {
            // The gauge that the step is done with, where it names one.
            gaugeId = (
                gauges.FirstOrDefault(gauge =>
                    Step.Uses.Any(item =>
                        string.Equals(NameOf(item), gauge.Name, StringComparison.OrdinalIgnoreCase)
                    )
                ) ?? gauges[0]
            ).Id;
        }
        verdict =
            Step.Check is { } asks && aim is { HasLimits: true } && Result?.Done.Value is { } value
                ? Desk.Steps!.Judge(
                    asks,
                    new(value, Result.Done.Uncertainty ?? 0),
                    Result.Done.Turned,
                    Result.Before
                )
                : null;
    }

    private string NameOf(string item) =>
        Run.Procedure.Tools.Concat(Run.Procedure.Supplies).FirstOrDefault(i => i.Id == item)?.Name
        ?? item;

    private void Confirm(int hazard)
    {
        if (!confirmed.Remove(hazard))
        {
            confirmed.Add(hazard);
        }
    }

    private Task DoAsync(StepOutcome outcome) =>
        // A second press of the same button is a slip of the glove.
        isBusy
            ? kept
            : kept = KeepAsync(
                new StepDone(Unsaid, Run.Id, Step.Id, outcome)
                {
                    Gauge = Step.Torque is null ? "" : Gauge?.Name ?? "",
                    Calibrated = Step.Torque is null ? null : Gauge?.CalibratedOn,
                }
            );

    private async Task KeepAsync(StepDone done)
    {
        isBusy = true;
        try
        {
            var isReadOnly = Step.Adjusts.IsEmpty;
            await Desk.AddAsync(
                JobEntry.Step(
                    Desk.WithAsked(Step, done) with
                    {
                        Note = note.Trim(),
                        // Where nothing is set, a second look that comes out well has moved nothing.
                        Held =
                            Result is not null
                            && (isReadOnly ? mark is not { Level: RecheckLevel.Redo } : held),
                    }
                )
            );
            (note, turns, asked) = ("", "", []);
            // The next time the same hazard is confirmed anew.
            confirmed.Clear();
            held = false;
            Look();
            if (Result is { IsGood: true })
            {
                await WentWell.InvokeAsync(Place);
            }
        }
        finally
        {
            isBusy = false;
        }
    }
}
