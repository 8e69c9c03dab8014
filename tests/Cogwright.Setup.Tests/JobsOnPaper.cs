using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Tests;

/// <summary>Facts of a job, written short.</summary>
internal static class JobsOnPaper
{
    /// <summary>Steps of a rear derailleur's set-up, as few as show every sort of dependence.</summary>
    internal static Procedure SetUp { get; } =
        new()
        {
            Title = "Set up",
            StartsWith = ["bike-held", "chain-off"],
            Steps =
            [
                Step("seat") with
                {
                    Torque = new() { Fastener = Fasteners.RearAxle },
                    Makes = [MechanismConditions.WheelSeated],
                },
                Step("hanger") with
                {
                    BlockedUntil = [MechanismConditions.WheelSeated],
                    DependsOn = new() { Steps = ["seat"], Parts = ["hanger"] },
                    Check = new() { Quantity = TargetNames.HangerStraight, Result = "hanger" },
                    Makes = [MechanismConditions.HangerRead],
                },
                Step("cut") with
                {
                    DependsOn = new() { Parts = ["cassette", "rings"] },
                    Adjusts = ["chain-length"],
                    State = StepState.Final,
                    Check = new() { Quantity = TargetNames.ChainPitches },
                },
                Step("join") with
                {
                    DependsOn = new() { Steps = ["cut"] },
                    Makes = ["chain-on"],
                    Check = new() { Quantity = "joint" },
                },
                Step("prove") with
                {
                    BlockedUntil = [MechanismConditions.HangerRead, "chain-on"],
                    DependsOn = new() { Readings = ["hanger"] },
                    Adjusts = ["inboard-stop"],
                    State = StepState.Rough,
                    Makes = [MechanismConditions.InboardStopProven],
                },
                Step("gap") with
                {
                    BlockedUntil = [MechanismConditions.HangerRead],
                    DependsOn = new() { Steps = ["prove"], Adjusters = ["chain-length"] },
                    Adjusts = ["body-angle"],
                    State = StepState.Final,
                    Check = new() { Quantity = TargetNames.Gap, Result = "gap" },
                },
                Step("index") with
                {
                    Acts = ["powered-shift-to-largest-cog"],
                    DependsOn = new() { Readings = ["gap"] },
                    Adjusts = ["barrel-adjuster"],
                    State = StepState.Final,
                    Check = new() { Quantity = "index-cogs" },
                },
                Step("prove-last") with
                {
                    BlockedUntil = [MechanismConditions.HangerRead, "chain-on"],
                    DependsOn = new() { Steps = ["index"] },
                    Adjusts = ["inboard-stop"],
                    State = StepState.Final,
                    Makes = [MechanismConditions.InboardStopProven],
                    Check = new() { Quantity = TargetNames.InboardStopProven },
                },
                Step("stand-test") with
                {
                    Acts = ["powered-shift-to-largest-cog"],
                    DependsOn = new() { Steps = ["prove-last"] },
                    Check = new() { Quantity = "stand-test" },
                },
            ],
        };

    internal static ProcedureStep Step(string id) =>
        new()
        {
            Id = id,
            Action = "Do " + id,
            Part = "rearDerailleur",
        };

    /// <summary>A job with the set-up begun.</summary>
    internal static ImmutableList<JobFact> Begun { get; } =
    [new JobBegun(From("job"), "Set up"), new ProcedureBegun(From("run"), "job", SetUp)];

    /// <summary>The job with every step done in its order; the proof is repeated where the gap has voided it.</summary>
    internal static ImmutableList<JobFact> AllDone { get; } =
        Begun.AddRange(
            "seat hanger cut join prove gap prove index prove-last stand-test"
                .Split(' ')
                .Select(step => Done(step))
        );

    internal static FactSource From(string id) => new(id, 0, "device:1");

    internal static StepDone Done(string step, string id = "", bool held = false) =>
        new(From(id), "run", step, StepOutcome.Done) { Held = held };

    internal static ChangeMade Change(string name) => new(From(name), name, "");

    internal static BikeWork Folded(IEnumerable<JobFact> facts) => new JobFold().All(facts);

    /// <summary>What is to be rechecked, as "step level" in the order of the steps.</summary>
    internal static string Marks(BikeWork work) =>
        string.Join(
            ", ",
            new Recheck(work).Marks.Select(mark =>
                $"{work.Runs[mark.Run].Procedure.Steps[mark.Step].Id} {mark.Level}"
            )
        );

    /// <summary>The way back, as the ids of its steps.</summary>
    internal static string Way(BikeWork work) =>
        string.Join(
            ' ',
            WayBack
                .Of(work)
                .Select(step => work.Runs[step.Place.Run].Procedure.Steps[step.Place.Step].Id)
        );
}
