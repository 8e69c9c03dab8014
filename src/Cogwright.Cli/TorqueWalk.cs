using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Setup;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Cli;

/// <summary>A stop of the walk round with what bike and procedure say of it.</summary>
/// <param name="Stop">The stop.</param>
/// <param name="Target">The job's own target for it; null for a fastener that no set-up tightens.</param>
/// <param name="Step">What the procedure says of it, or null.</param>
internal sealed record PlannedStop(WalkStop Stop, Target? Target, StepTorque? Step)
{
    /// <summary>How its thread is treated: as the procedure says, else as the trade does.</summary>
    internal ThreadTreatment Treatment =>
        (Step?.Thread is { } id ? ThreadTreatment.Find(id) : null) ?? Stop.Fastener.Treatment;

    /// <summary>The least sure kind of tool that the procedure lets at it, or null.</summary>
    internal ToolKind? LeastSure =>
        Step?.ToolClass is { } name
            ? Enum.GetValues<ToolKind>().First(kind => ToolClass.NameOf(kind) == name)
            : null;
}

/// <summary>The walk round of a bike: which fasteners, with whose figure.</summary>
internal static class TorqueWalk
{
    /// <summary>The stops in their order.</summary>
    /// <param name="bike">The bike.</param>
    /// <param name="only">The fasteners that were disturbed, or null for all that a set-up tightens.</param>
    /// <param name="procedure">The procedure that the work follows, or null.</param>
    /// <exception cref="BadInputException">The bike has no such fastener.</exception>
    internal static IEnumerable<PlannedStop> Of(
        Bike bike,
        ImmutableArray<string>? only,
        Procedure? procedure
    )
    {
        var targets = TargetList.Make(bike.Catalogue, bike.Work);
        var torques = targets
            .Where(target => target.IsTorque && target.Stage == WorkStage.Torque)
            .ToDictionary(target => target.Id);
        var review = new StepReview(bike.Catalogue, bike.Work, targets);
        var figures = new Dictionary<string, TorqueFigure>();
        foreach (var fastener in only ?? [.. Fasteners.All])
        {
            if (torques.TryGetValue(TargetNames.Torque(fastener), out var target))
            {
                figures[fastener] = FigureOf(
                    target,
                    OfProcedure(review, StepOf(procedure, fastener))
                );
            }
            else if (only is not null)
            {
                // What a set-up never tightens is known from the trade alone; what it tightens and this bike has not is a slip.
                figures[fastener] = Fasteners.All.Contains(fastener)
                    ? throw new BadInputException(
                        Texts.Get(
                            "torque.notOnBike",
                            fastener,
                            string.Join(
                                ", ",
                                Fasteners.All.Where(name =>
                                    torques.ContainsKey(TargetNames.Torque(name))
                                )
                            )
                        )
                    )
                    : TorqueFigure.Of(null, null, FastenerCatalogue.Find(fastener)?.UsualRange);
            }
        }
        return WalkRound
            .Of(figures)
            .Select(stop => new PlannedStop(
                stop,
                torques.GetValueOrDefault(TargetNames.Torque(stop.Fastener.Id)),
                StepOf(procedure, stop.Fastener.Id)
            ));
    }

    private static TorqueFigure FigureOf(Target target, TorqueRange? procedure)
    {
        var range = target is { Lower: { } lower, Upper: { } upper }
            ? new TorqueRange(lower, upper)
            : null;
        // A procedure that names the bike's own figure instead of giving one has given none.
        var own = procedure == range ? null : procedure;
        return target.Source == TargetSource.Spec
            ? TorqueFigure.Of(range, own)
            : TorqueFigure.Of(null, own, range);
    }

    // The last step that tightens it counts: earlier ones may only seat it.
    private static StepTorque? StepOf(Procedure? procedure, string fastener) =>
        procedure?.Steps.LastOrDefault(step => step.Torque?.Fastener == fastener)?.Torque;

    // What has no value on this bike is no figure; one that cannot be is refused.
    private static TorqueRange? OfProcedure(StepReview review, StepTorque? torque) =>
        torque is null
        || review.AimOf(torque) is not { Faults.IsEmpty: true, Lower: { } lower, Upper: { } upper }
            ? null
        : lower > 0 && lower <= upper && upper <= TorqueRange.GreatestNm ? new(lower, upper)
        : throw new BadInputException(
            Texts.Get("torque.procedureFigure", torque.Fastener, lower, upper)
        );
}
