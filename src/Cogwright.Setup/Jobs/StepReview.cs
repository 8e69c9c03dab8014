using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Setup.Jobs;

/// <summary>What a check asks for on one bike. Immutable.</summary>
/// <param name="Value">What it should be, or null when only limits are given.</param>
/// <param name="Lower">The least that it may be, or null.</param>
/// <param name="Upper">The most that it may be, or null.</param>
/// <param name="Unit">Unit of these; empty for a bare number.</param>
/// <param name="Gear">The gear that it is read in, or null.</param>
/// <param name="Faults">What in the procedure has no value on this bike, in sentences.</param>
public sealed record StepAim(
    double? Value,
    double? Lower,
    double? Upper,
    string Unit,
    (int RingTeeth, int CogTeeth)? Gear,
    ImmutableArray<string> Faults
)
{
    /// <summary>Teeth of the ring that the chain lies on, or null; it may be told without a cog.</summary>
    public int? RingTeeth { get; init; }

    /// <summary>Teeth of the cog that the chain lies on, or null.</summary>
    public int? CogTeeth { get; init; }

    /// <summary>Whether a reading can be judged: against one limit of two it would only seem to be.</summary>
    public bool HasLimits => Faults.IsEmpty && (Lower is not null || Upper is not null);
}

/// <summary>What a reading at a step comes to. Immutable.</summary>
/// <param name="Outcome">The outcome, or null when the reading is asked about first.</param>
/// <param name="Judgement">Verdict, probability and deciding uncertainty, or null.</param>
/// <param name="Sentences">The verdict in words.</param>
/// <param name="Questions">What to ask before it is trusted.</param>
/// <param name="ToDo">The correction, in the order of doing.</param>
/// <param name="After">What will then hold in every gear.</param>
public sealed record StepVerdict(
    StepOutcome? Outcome,
    Judgement? Judgement,
    ImmutableArray<string> Sentences,
    ImmutableArray<string> Questions,
    ImmutableArray<string> ToDo,
    ImmutableArray<string> After
);

/// <summary>Holds what is read at a step against what the step asks for on this bike.</summary>
/// <param name="catalogue">What the model says of the bike.</param>
/// <param name="work">How it is shifted and what its makers ask for; without problems (<see cref="WorkCheck"/>).</param>
/// <param name="targets">Its targets.</param>
public sealed class StepReview(
    QuantityCatalogue catalogue,
    WorkSpec work,
    ImmutableArray<Target> targets
)
{
    private readonly SpecQuantities quantities = SpecQuantities.Of(catalogue, work);

    /// <summary>What a check asks for.</summary>
    /// <param name="check">The check.</param>
    public StepAim AimOf(StepCheck check)
    {
        ArgumentNullException.ThrowIfNull(check);
        var faults = ImmutableArray.CreateBuilder<string>();
        var unit = "";
        // A share is read as it is written: 50 %, not 0.5.
        var factor = IsShare(check) ? 100 : 1;
        var target = Number(check.Target) * factor;
        var tolerance = Number(check.Tolerance) * factor;
        var least = Number(check.Least) * factor ?? (target - (tolerance ?? 0));
        var most = Number(check.Most) * factor ?? (target + (tolerance ?? 0));
        unit = factor == 100 ? "%" : unit;
        var (ring, cog) = (Teeth(check.Ring), Teeth(check.Cog));
        return new(
            target,
            least,
            most,
            unit,
            ring is { } r && cog is { } c ? (r, c) : null,
            faults.ToImmutable()
        )
        {
            RingTeeth = ring,
            CogTeeth = cog,
        };

        double? Number(Expression? expression)
        {
            if (expression is null)
            {
                return null;
            }
            var result = ExpressionMeaning.Evaluate(expression, quantities);
            if (result.Value is not { } value)
            {
                faults.Add(result.Fault!.Message);
                return null;
            }
            unit = value.Dimension == UnitDimension.Plain ? "" : value.Dimension.ToString();
            return value.Number;
        }

        int? Teeth(Expression? expression)
        {
            var own = unit;
            var teeth = Number(expression);
            unit = own;
            return teeth is { } number ? (int)Math.Round(number) : null;
        }
    }

    private static bool IsShare(StepCheck check)
    {
        var figures = new[] { check.Target, check.Tolerance, check.Least, check.Most }
            .OfType<Expression>()
            .ToArray();
        return figures.Length > 0 && Array.TrueForAll(figures, f => f is NumberTerm { Unit: "%" });
    }

    /// <summary>What a fastener's torque is on this bike (N·m).</summary>
    /// <param name="torque">The torque of a step.</param>
    public StepAim AimOf(StepTorque torque)
    {
        ArgumentNullException.ThrowIfNull(torque);
        return AimOf(
            new StepCheck
            {
                Quantity = torque.Fastener,
                Least = torque.Least,
                Most = torque.Most,
            }
        );
    }

    /// <summary>What a reading comes to.</summary>
    /// <param name="check">What the step asks for.</param>
    /// <param name="reading">The reading, in the unit of the check.</param>
    /// <param name="turned">Turns of the adjuster since the last reading (clockwise positive), or null.</param>
    /// <param name="before">
    /// What the step came to before, or null: with two readings and the turns between them the correction uses what the adjuster
    /// does on this bike.
    /// </param>
    public StepVerdict Judge(
        StepCheck check,
        Reading reading,
        double? turned = null,
        StepResult? before = null
    )
    {
        ArgumentNullException.ThrowIfNull(check);
        ArgumentNullException.ThrowIfNull(reading);
        var aim = AimOf(check);
        if (!aim.HasLimits)
        {
            return new(null, null, [], aim.Faults, [], []);
        }
        var gear = aim.Gear ?? targets.FirstOrDefault(target => target.Id == check.Quantity)?.Gear;
        if (TargetOf(check.Quantity, aim) is not null)
        {
            var earlier = Earlier(check, before, gear);
            var result = ReadingReview.Judge(
                catalogue,
                targets,
                work,
                [.. earlier, new(check.Quantity, gear, reading, turned)],
                Trial(gear, reading, turned, before)
            )[^1];
            return new(
                result.Judgement is { } of ? OutcomeOf(of) : null,
                result.Judgement,
                result.Sentences,
                result.Questions,
                result.ToDo,
                result.After
            );
        }
        var judgement = Measurement.Judgement.Of(reading, new(aim.Lower, aim.Upper));
        return new(
            OutcomeOf(judgement),
            judgement,
            [.. VerdictWords.Of(judgement, aim.Unit)],
            [],
            [],
            []
        );
    }

    /// <summary>The target of this bike that asks for the same, or null: then its correction is known, and where it comes from.</summary>
    /// <param name="quantity">What is measured: the name of a target (<see cref="TargetNames"/>).</param>
    /// <param name="aim">What is asked for.</param>
    public Target? TargetOf(string quantity, StepAim aim)
    {
        ArgumentNullException.ThrowIfNull(aim);
        return
            targets.FirstOrDefault(target => target.Id == quantity) is { } target
            && Same(target.Lower, aim.Lower)
            && Same(target.Upper, aim.Upper)
            && (aim.Gear is null || target.Gear is null || aim.Gear == target.Gear)
            ? target
            : null;
    }

    private static bool Same(double? one, double? other) =>
        one is null || other is null
            ? one is null && other is null
            : Math.Abs(one.Value - other.Value) < 1e-9;

    private static ImmutableArray<TakenReading> Earlier(
        StepCheck check,
        StepResult? before,
        (int, int)? gear
    )
    {
        var all = ImmutableArray.CreateBuilder<TakenReading>();
        for (var at = before; at is not null; at = at.Before)
        {
            if (at.Done.Value is { } value)
            {
                all.Add(
                    new(check.Quantity, gear, new(value, at.Done.Uncertainty ?? 0), at.Done.Turned)
                );
            }
        }
        // The oldest first.
        all.Reverse();
        return all.ToImmutable();
    }

    /// <summary>The last reading, the turns since, and this one, where they say what the body-angle screw does.</summary>
    private static TrialTurn? Trial(
        (int RingTeeth, int CogTeeth)? gear,
        Reading reading,
        double? turned,
        StepResult? before
    ) =>
        gear is { } at && turned is { } turns && turns != 0 && before?.Done.Value is { } last
            ? new(at, last, reading.Value, turns)
            : null;

    private static StepOutcome OutcomeOf(Judgement judgement) =>
        judgement.Verdict switch
        {
            Verdict.Within => StepOutcome.Within,
            Verdict.Outside => StepOutcome.Outside,
            _ => StepOutcome.TooClose,
        };
}
