using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Tests;

/// <summary>
/// What is to be rechecked, worked out from the whole list of facts for every question anew: slow, and with no state to go
/// wrong.
/// </summary>
/// <param name="facts">The facts, in the order of the log.</param>
internal sealed class RecheckTwin(IReadOnlyList<JobFact> facts)
{
    /// <summary>As <see cref="JobsOnPaper.Marks"/>, with the run before each step.</summary>
    internal string Marks() =>
        string.Join(
            ", ",
            Runs()
                .SelectMany(run => run.Procedure.Steps.Select(step => (run, step)))
                .Where(each => IsLastWord(each.run, each.step))
                .Where(each => each.step.State != StepState.Rough)
                .Select(each => (each, Level: LevelOf(each.run, each.step)))
                .Where(each => each.Level is not null)
                .Select(each => $"{each.each.run.Id}/{each.each.step.Id} {each.Level}")
        );

    private IEnumerable<ProcedureBegun> Runs() => facts.OfType<ProcedureBegun>();

    /// <summary>The facts about a step with their places.</summary>
    private List<(StepDone Done, int At)> Of(ProcedureBegun run, ProcedureStep step) =>
        [
            .. facts
                .Select((fact, at) => (Done: fact as StepDone, at))
                .Where(each => each.Done?.Run == run.Id && each.Done.Step == step.Id)
                .Select(each => (each.Done!, each.at)),
        ];

    private int MadeAt(ProcedureBegun run, ProcedureStep step) =>
        Of(run, step) is { Count: > 0 } all ? all[^1].At : -1;

    private int MovedAt(ProcedureBegun run, ProcedureStep step) =>
        Of(run, step)
            .Where(
                (each, i) =>
                    i == 0
                    || Moves(step, each.Done)
                    || !each.Done.IsGood
                    || !Of(run, step)[i - 1].Done.IsGood
            )
            .Select(each => each.At)
            .DefaultIfEmpty(-1)
            .Last();

    private static bool Moves(ProcedureStep step, StepDone done) =>
        !done.Held
        && (
            step.Adjusts.Length > 0
            || step.Makes.Length > 0
            || step.Torque is not null
            || step.Check?.Result is not null
        );

    private static List<string> Settles(ProcedureStep step) =>
        step.Adjusts.Length > 0 ? [.. step.Adjusts.Select(name => "adjuster:" + name)]
        : step.Torque is { } torque ? [$"torque:{torque.Fastener}"]
        : step.Check is { } check ? [$"quantity:{check.Quantity}"]
        : [.. step.Makes.Select(name => "condition:" + name)];

    private static IEnumerable<string> About(ProcedureStep step) =>
        [
            .. step.Adjusts.Select(name => "adjuster:" + name),
            .. step.Torque is { } torque ? [$"torque:{torque.Fastener}"] : (string[])[],
            .. step.Check is { } check ? [$"quantity:{check.Quantity}"] : (string[])[],
            .. step.Makes.Select(name => "condition:" + name),
        ];

    private bool IsLastWord(ProcedureBegun run, ProcedureStep step) =>
        MadeAt(run, step) >= 0
        && (
            Settles(step).Count == 0
            || Settles(step).Any(subject => LastWordOn(subject) == (run.Id, step.Id))
        );

    /// <summary>The last step to settle a subject; one that sets it roughly only when none has set it for good.</summary>
    private (string Run, string Step)? LastWordOn(string subject)
    {
        var all = facts
            .OfType<StepDone>()
            .Where(done => Settles(StepOf(done)).Contains(subject))
            .ToList();
        var last =
            all.LastOrDefault(done => StepOf(done).State != StepState.Rough) ?? all.LastOrDefault();
        return last is null ? null : (last.Run, last.Step);
    }

    private ProcedureStep StepOf(StepDone done) =>
        Runs().Single(run => run.Id == done.Run).Procedure.Steps.Single(s => s.Id == done.Step);

    private bool IsAfter(
        int made,
        Func<BikeChange, IEnumerable<string>> touched,
        string subject,
        bool ofSteps
    ) =>
        facts
            .Skip(made + 1)
            .Any(fact =>
                fact switch
                {
                    ChangeMade change => touched(BikeChanges.Find(change.Change)!)
                        .Contains(subject),
                    StepDone done => ofSteps
                        && IsTurn(done)
                        && StepOf(done)
                            .Adjusts.Any(adjuster =>
                                touched(BikeChanges.Turned(adjuster)).Contains(subject)
                            ),
                    _ => false,
                }
            );

    /// <summary>Whether a fact about a step moved what it sets: the first one does, whatever it says.</summary>
    private bool IsTurn(StepDone done) =>
        Moves(StepOf(done), done)
        || facts.OfType<StepDone>().First(f => f.Run == done.Run && f.Step == done.Step) == done;

    private bool IsMovedAfter(int made, string part) =>
        facts
            .Skip(made + 1)
            .Any(fact =>
                fact switch
                {
                    ChangeMade change => BikeChanges
                        .Find(change.Change)!
                        .Parts.Any(name => "part:" + name == part),
                    FiguresChanged figures => figures.Parts.Any(name => "part:" + name == part),
                    StepDone done => IsTurn(done)
                        && StepOf(done).Adjusts.Any(name => "adjuster:" + name == part),
                    _ => false,
                }
            );

    /// <summary>What has happened to a result itself.</summary>
    private RecheckLevel? OwnLevelOf(ProcedureBegun run, ProcedureStep step)
    {
        var made = MadeAt(run, step);
        if (IsReplaced(run, step))
        {
            return null;
        }
        // Steps that set something after a rough one move what it set; the rest voids it.
        var ofSteps = step.State != StepState.Rough;
        return About(step).Any(subject => IsAfter(made, change => change.Redo, subject, ofSteps))
            || (ofSteps && step.Adjusts.Any(name => IsMovedAfter(made, "adjuster:" + name)))
                ? RecheckLevel.Redo
            : About(step).Any(subject => IsAfter(made, change => change.Look, subject, ofSteps))
            || step.DependsOn.Parts.Any(part => IsMovedAfter(made, "part:" + part))
            || (
                ofSteps
                && step.DependsOn.Adjusters.Any(name => IsMovedAfter(made, "adjuster:" + name))
            )
            || From(run, step)
                .Any(other => MovedAt(run, other) > made && (ofSteps || other.Adjusts.IsEmpty))
                ? RecheckLevel.Look
            : null;
    }

    private bool IsReplaced(ProcedureBegun run, ProcedureStep step) =>
        step.Adjusts.Length > 0 && !IsLastWord(run, step);

    /// <summary>The results that one was made on top of.</summary>
    private IEnumerable<(ProcedureBegun Run, ProcedureStep Step)> Under(
        ProcedureBegun run,
        ProcedureStep step
    )
    {
        if (IsReplaced(run, step))
        {
            return [];
        }
        var setters = ProcedureWords
            .Adjusters.Where(adjuster =>
                !step.Adjusts.Contains(adjuster)
                && BikeChanges.Turned(adjuster) is var turned
                && About(step).Any(s => turned.Redo.Contains(s) || turned.Look.Contains(s))
            )
            .Concat(step.DependsOn.Adjusters)
            .Select(adjuster => LastWordOn("adjuster:" + adjuster))
            .OfType<(string Run, string Step)>()
            .Select(setter =>
                Runs().Single(r => r.Id == setter.Run) is var other
                    ? (other, other.Procedure.Steps.Single(s => s.Id == setter.Step))
                    : default
            );
        return From(run, step)
            .Select(other => (run, other))
            .Concat(setters)
            .Where(other =>
                (other.Item1.Id, other.Item2.Id) != (run.Id, step.Id)
                // What is set roughly rests on no setting.
                && (step.State != StepState.Rough || other.Item2.Adjusts.IsEmpty)
                && MadeAt(other.Item1, other.Item2) >= 0
                && MovedAt(other.Item1, other.Item2) < MadeAt(run, step)
            );
    }

    private RecheckLevel? LevelOf(ProcedureBegun run, ProcedureStep step)
    {
        if (MadeAt(run, step) < 0)
        {
            return null;
        }
        if (OwnLevelOf(run, step) is { } own)
        {
            return own;
        }
        // Everything below, a layer at a time, until no layer adds anything.
        List<(ProcedureBegun Run, ProcedureStep Step)> below = [(run, step)];
        while (true)
        {
            var more = below
                .Concat(below.SelectMany(b => Under(b.Run, b.Step)))
                .Distinct()
                .ToList();
            if (more.Count == below.Count)
            {
                return below.Exists(b => OwnLevelOf(b.Run, b.Step) is not null)
                    ? RecheckLevel.Waits
                    : null;
            }
            below = more;
        }
    }

    private static IEnumerable<ProcedureStep> From(ProcedureBegun run, ProcedureStep step) =>
        run.Procedure.Steps.Where(other =>
            (
                step.DependsOn.Steps.Contains(other.Id)
                || (other.Check?.Result is { } result && step.DependsOn.Readings.Contains(result))
            )
            && !step
                .Adjusts.SelectMany(adjuster => BikeChanges.Turned(adjuster).Redo)
                .Intersect(About(other))
                .Any()
        );
}
