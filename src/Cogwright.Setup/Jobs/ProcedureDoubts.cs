using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>Why a procedure may not be meant for a bike, told before it is begun.</summary>
public static class ProcedureDoubts
{
    private static readonly ImmutableArray<string> OfAMotor = ["offset-step"];

    private static readonly ImmutableArray<string> OfACable =
    [
        "barrel-adjuster",
        "rear-cable",
        "front-cable",
    ];

    private static readonly ImmutableArray<string> OfAFrontDerailleur =
    [
        "front-angle",
        "front-cable",
        "front-height",
        "front-inboard-stop",
        "front-outboard-stop",
    ];

    /// <summary>The doubts as sentences; empty when there is none.</summary>
    /// <param name="procedure">The procedure.</param>
    /// <param name="work">How the bike is shifted.</param>
    /// <param name="review">What steps ask for on it.</param>
    public static ImmutableArray<string> Of(Procedure procedure, WorkSpec work, StepReview review)
    {
        ArgumentNullException.ThrowIfNull(procedure);
        ArgumentNullException.ThrowIfNull(work);
        ArgumentNullException.ThrowIfNull(review);
        var doubts = ImmutableArray.CreateBuilder<string>();
        var isMotor = work.Actuation is Actuation.MotorWired or Actuation.MotorWireless;
        if (!isMotor && (Sets(OfAMotor) || Does(StepActs.CrankToInboardStop)))
        {
            doubts.Add(Texts.Get("doubt.motor"));
        }
        if (
            work.Actuation != Actuation.Cable
            && (Sets(OfACable) || Does(StepActs.PushToInboardStop))
        )
        {
            doubts.Add(Texts.Get("doubt.cable"));
        }
        if (!work.FrontDerailleur && Sets(OfAFrontDerailleur))
        {
            doubts.Add(Texts.Get("doubt.front"));
        }
        foreach (var step in procedure.Steps)
        {
            var faults = (
                step.Check is { HasNumber: true } check ? review.AimOf(check).Faults : []
            ).Concat(step.Torque is { } torque ? review.AimOf(torque).Faults : []);
            foreach (var fault in faults)
            {
                doubts.Add(Texts.Get("doubt.step", step.Action, fault));
            }
        }
        return doubts.ToImmutable();

        bool Sets(ImmutableArray<string> adjusters) =>
            procedure.Steps.Any(step => step.Adjusts.Intersect(adjusters).Any());

        bool Does(string act) => procedure.Steps.Any(step => step.Acts.Contains(act));
    }
}
