using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup;

/// <summary>A stop of the walk round with what bike and procedure say of it. Immutable.</summary>
/// <param name="Stop">The stop.</param>
/// <param name="Target">The job's own target for it; null for a fastener that no set-up tightens.</param>
/// <param name="Step">What the procedure says of it, or null.</param>
public sealed record PlannedStop(WalkStop Stop, Target? Target, StepTorque? Step)
{
    /// <summary>How its thread is treated: as the procedure says, else as the trade does.</summary>
    public ThreadTreatment Treatment =>
        (Step?.Thread is { } id ? ThreadTreatment.Find(id) : null) ?? Stop.Fastener.Treatment;

    /// <summary>The least sure kind of tool that the procedure lets at it, or null.</summary>
    public ToolKind? LeastSure =>
        Step?.ToolClass is { } name
            ? Enum.GetValues<ToolKind>().First(kind => ToolClass.NameOf(kind) == name)
            : null;

    /// <summary>The hazard that stands before it, or null.</summary>
    public string? Caution => Target?.Caution ?? Stop.Fastener.Caution;

    /// <summary>What to know of the figure where no part gives it: in the words of the job's target, which knows the bike; or null.</summary>
    public string? FigureNote =>
        Stop.Figure.Source is TorqueSource.TradeRange or TorqueSource.None
            ? Target?.Note ?? Stop.FigureNote
            : null;
}

/// <summary>The walk round of a bike: which fasteners, with whose figure. Immutable.</summary>
/// <param name="Stops">The stops in their order.</param>
/// <param name="Faults">Fasteners named that the bike has not, and figures of the procedure that cannot be, in sentences.</param>
public sealed record TorqueWalk(ImmutableArray<PlannedStop> Stops, ImmutableArray<string> Faults)
{
    /// <summary>The walk round of a bike.</summary>
    /// <param name="catalogue">The bike's quantities.</param>
    /// <param name="work">The bike's work.</param>
    /// <param name="targets">The bike's targets.</param>
    /// <param name="only">The fasteners that were disturbed, or null for all that a set-up tightens.</param>
    /// <param name="procedure">The procedure that the work follows, or null.</param>
    public static TorqueWalk Of(
        QuantityCatalogue catalogue,
        WorkSpec work,
        ImmutableArray<Target> targets,
        ImmutableArray<string>? only = null,
        Procedure? procedure = null
    )
    {
        var torques = targets
            .Where(target => target.IsTorque && target.Stage == WorkStage.Torque)
            .ToDictionary(target => target.Id);
        var review = new StepReview(catalogue, work, targets);
        var figures = new Dictionary<string, TorqueFigure>();
        var faults = ImmutableArray.CreateBuilder<string>();
        foreach (var fastener in only ?? [.. Fasteners.All])
        {
            if (torques.TryGetValue(TargetNames.Torque(fastener), out var target))
            {
                figures[fastener] = FigureOf(
                    target,
                    OfProcedure(review, StepOf(procedure, fastener), faults)
                );
            }
            else if (only is not null && Fasteners.All.Contains(fastener))
            {
                // What a set-up tightens and this bike has not is a slip.
                faults.Add(
                    Texts.Get(
                        "walk.notOnBike",
                        fastener,
                        string.Join(
                            ", ",
                            Fasteners.All.Where(name =>
                                torques.ContainsKey(TargetNames.Torque(name))
                            )
                        )
                    )
                );
            }
            else if (only is not null)
            {
                // What a set-up never tightens is known from the trade alone.
                figures[fastener] = TorqueFigure.Of(
                    null,
                    null,
                    FastenerCatalogue.Find(fastener)?.UsualRange
                );
            }
        }
        return new(
            [
                .. WalkRound
                    .Of(figures)
                    .Select(stop => new PlannedStop(
                        stop,
                        torques.GetValueOrDefault(TargetNames.Torque(stop.Fastener.Id)),
                        StepOf(procedure, stop.Fastener.Id)
                    )),
            ],
            faults.ToImmutable()
        );
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

    // What has no value on this bike is no figure; one that cannot be is a fault.
    private static TorqueRange? OfProcedure(
        StepReview review,
        StepTorque? torque,
        ImmutableArray<string>.Builder faults
    )
    {
        if (
            torque is null
            || review.AimOf(torque)
                is not { Faults.IsEmpty: true, Lower: { } lower, Upper: { } upper }
        )
        {
            return null;
        }
        if (lower > 0 && lower <= upper && upper <= TorqueRange.GreatestNm)
        {
            return new(lower, upper);
        }
        faults.Add(Texts.Get("walk.procedureFigure", torque.Fastener, lower, upper));
        return null;
    }
}
