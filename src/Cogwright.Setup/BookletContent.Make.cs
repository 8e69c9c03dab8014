using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Expressions;
using Cogwright.Setup.Procedures.Lint;

namespace Cogwright.Setup;

/// <content>How the content is gathered.</content>
public sealed partial record BookletContent
{
    /// <summary>Gathers what the booklet of a procedure says for a bike.</summary>
    /// <param name="procedure">The procedure.</param>
    /// <param name="catalogue">What the model says of the bike.</param>
    /// <param name="work">How it is shifted and what its makers ask for.</param>
    /// <exception cref="ArgumentException">The work cannot be done on this bike (<see cref="WorkCheck"/>).</exception>
    public static BookletContent Make(
        Procedure procedure,
        QuantityCatalogue catalogue,
        WorkSpec work
    )
    {
        ArgumentNullException.ThrowIfNull(procedure);
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(work);
        var targets = TargetList.Make(catalogue, work);
        var review = new StepReview(catalogue, work, targets);
        return new()
        {
            Title = procedure.Title,
            Purpose = procedure.Purpose,
            Skill = procedure.Skill,
            BikeName = catalogue.BikeName,
            Gearing = catalogue.Gearing,
            Cautions = [.. WorksheetContent.General(work).Select(name => Texts.Get(name))],
            RulesBroken =
            [
                .. ProcedureLint.Check(procedure).Select(finding => finding.Message).Distinct(),
            ],
            Assumed = catalogue.Assumed,
            Tools = [.. procedure.Tools.Select(tool => tool.Name)],
            Supplies = [.. procedure.Supplies.Select(supply => supply.Name)],
            StartsWith = [.. procedure.StartsWith.Select(StepWords.Condition)],
            Steps =
            [
                .. Enumerable
                    .Range(0, procedure.Steps.Length)
                    .Select(at => Of(procedure, at, review, targets)),
            ],
            Chain = ChainWords.Box(catalogue),
            DirectPath = targets.FirstOrDefault(target => target.Id == TargetNames.DirectPath),
        };
    }

    private static BookletStep Of(
        Procedure procedure,
        int at,
        StepReview review,
        ImmutableArray<Target> targets
    )
    {
        var step = procedure.Steps[at];
        return new()
        {
            Number = at + 1,
            Part = Capital(StepWords.Part(step.Part)),
            Hazards = [.. step.Hazards.Select(hazard => Of(procedure, at, hazard))],
            MustHold = [.. step.BlockedUntil.Select(name => MustHold(procedure, at, name))],
            Action = step.Action,
            Uses =
            [
                .. step.Uses.Select(id =>
                    procedure.Tools.Concat(procedure.Supplies).FirstOrDefault(i => i.Id == id)?.Name
                    ?? id
                ),
            ],
            Torque = step.Torque is { } torque ? Of(torque, at, review) : null,
            TimerMinutes = step.TimerMinutes,
            Check = step.Check is { } check ? Of(procedure, check, at, review, targets) : null,
            Leaves = [.. Leaves(procedure, at)],
            Note = step.Note,
        };
    }

    private static BookletHazard Of(Procedure procedure, int at, StepHazard hazard)
    {
        var danger = string.Join(
            ' ',
            new[] { hazard.Nature, hazard.Consequence }.Where(text => text.Length > 0)
        );
        var about = hazard.About is { } id ? NumberOf(procedure, id) : null;
        return new(
            hazard.Signal,
            about is { } number && number != at + 1
                ? Texts.Get("booklet.about", number, danger)
                : danger,
            hazard.Avoidance
        );
    }

    private static int? NumberOf(Procedure procedure, string id)
    {
        for (var i = 0; i < procedure.Steps.Length; i++)
        {
            if (procedure.Steps[i].Id == id)
            {
                return i + 1;
            }
        }
        return null;
    }

    /// <summary>A condition with the last step before that makes it so.</summary>
    private static string MustHold(Procedure procedure, int at, string name)
    {
        var words = StepWords.Condition(name).TrimEnd('.');
        for (var before = at - 1; before >= 0; before--)
        {
            if (procedure.Steps[before].Makes.Contains(name))
            {
                return Texts.Get("booklet.madeBy", words, before + 1);
            }
        }
        return Texts.Get(
            procedure.StartsWith.Contains(name) ? "booklet.atStart" : "booklet.nowhere",
            words
        );
    }

    /// <summary>What it sets, and of what is only rough the step that sets it for good.</summary>
    private static IEnumerable<string> Leaves(Procedure procedure, int at)
    {
        var step = procedure.Steps[at];
        if (step.Adjusts.IsEmpty || step.State == StepState.None)
        {
            yield break;
        }
        if (step.State == StepState.Final)
        {
            yield return Texts.Get("booklet.final", StepWords.Adjusters(step.Adjusts));
            yield break;
        }
        foreach (var group in step.Adjusts.GroupBy(adjuster => SetForGood(procedure, at, adjuster)))
        {
            var names = StepWords.Adjusters(group);
            yield return group.Key is { } number
                ? Texts.Get("booklet.rough", names, number)
                : Texts.Get("booklet.roughOnly", names);
        }
    }

    private static int? SetForGood(Procedure procedure, int at, string adjuster)
    {
        for (var after = at + 1; after < procedure.Steps.Length; after++)
        {
            if (
                procedure.Steps[after] is { State: StepState.Final } later
                && later.Adjusts.Contains(adjuster)
            )
            {
                return after + 1;
            }
        }
        return null;
    }

    private static BookletTorque Of(StepTorque torque, int at, StepReview review)
    {
        var aim = review.AimOf(torque);
        var target = aim.Faults.IsEmpty
            ? review.TargetOf(TargetNames.Torque(torque.Fastener), aim)
            : null;
        return new(
            new()
            {
                Id = IdOf(at, "torque"),
                Stage = WorkStage.Torque,
                Title = StepWords.Fastener(torque.Fastener),
                Lower = aim.HasLimits ? aim.Lower : null,
                Upper = aim.HasLimits ? aim.Upper : null,
                Unit = UnitDimension.OfTorque.ToString(),
                IsTorque = true,
                Tool = target is { Source: TargetSource.Spec } ? target.Tool : null,
                Note = target is { Source: TargetSource.CommonPractice } ? target.Note : null,
                Source = target?.Source ?? TargetSource.Spec,
            },
            Texts.Get(
                "booklet.treatment",
                StepWords.ToolClass(torque.ToolClass),
                StepWords.Thread(torque.Thread)
            ),
            aim.Faults
        );
    }

    private static BookletCheck Of(
        Procedure procedure,
        StepCheck check,
        int at,
        StepReview review,
        ImmutableArray<Target> targets
    )
    {
        var aim = review.AimOf(check);
        var known = targets.FirstOrDefault(target => target.Id == check.Quantity);
        var gear =
            aim.Gear
            // What is only looked at is looked at where its words say: the chain may be off.
            ?? (check.HasNumber && check.Ring is null && check.Cog is null ? known?.Gear : null);
        return new()
        {
            Quantity = check.Quantity,
            Target = check.HasNumber ? Figures(check, at, aim, known, gear, review) : null,
            RingTeeth = aim.RingTeeth ?? gear?.RingTeeth,
            CogTeeth = aim.CogTeeth ?? gear?.CogTeeth,
            Where = gear is { } both
                ? check.HasNumber
                    ? ""
                    : Texts.Get("booklet.gear", both.RingTeeth, both.CogTeeth)
                : aim.RingTeeth is { } ring
                    ? Texts.Get("booklet.ring", ring)
                    : aim.CogTeeth is { } cog
                        ? Texts.Get("booklet.cog", cog)
                        : "",
            Convention = check.Convention ?? "",
            Expected = check.Expected ?? "",
            GoesOnRecord = check.Result is { } result && procedure.HandsOver.Contains(result),
            Faults = aim.Faults,
        };
    }

    private static Target Figures(
        StepCheck check,
        int at,
        StepAim aim,
        Target? known,
        (int, int)? gear,
        StepReview review
    )
    {
        var isSaid = aim.Faults.IsEmpty;
        return new()
        {
            Id = IdOf(at, "check"),
            Stage = known?.Stage ?? WorkStage.Inspection,
            Title = known is null
                ? Texts.Get("booklet.reading")
                : known.TitleInShort ?? known.Title,
            Gear = gear,
            Value = isSaid ? aim.Value : null,
            Lower = isSaid ? aim.Lower : null,
            Upper = isSaid ? aim.Upper : null,
            Unit = aim.Unit,
            Source =
                isSaid && review.TargetOf(check.Quantity, aim) is { } same
                    ? same.Source
                    : TargetSource.Spec,
        };
    }

    private static string Capital(string words) =>
        words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    private static string IdOf(int at, string what) => $"step-{at + 1}-{what}";
}
