using System.Collections.Immutable;

namespace Cogwright.Setup.Procedures;

/// <summary>What in an action can hurt or destroy. Immutable.</summary>
/// <param name="Name">Its name in files.</param>
/// <param name="Worst">The worst that can come of it; a warning of that harm must stand before it.</param>
/// <param name="Needs">Conditions that must block it.</param>
public sealed record StepAct(string Name, Harm Worst, ImmutableArray<string> Needs);

/// <summary>
/// The closed list of acts with their guards; common practice of the trade. A mechanic may do more than this, never less.
/// </summary>
public static class StepActs
{
    /// <summary>All acts.</summary>
    public static ImmutableArray<StepAct> All { get; } =
    [
        // A derailleur that passes the largest cog goes into the spokes and locks the wheel.
        new(
            "powered-shift-to-largest-cog",
            Harm.Serious,
            [MechanismConditions.InboardStopProven, MechanismConditions.HangerRead]
        ),
        // A finger, a rag or a glove is drawn between chain and teeth; a motor turns the chain by itself.
        new("turn-cranks", Harm.Serious, [MechanismConditions.DriveBatteryOut]),
        // Cut too short it tears the derailleur off; only adding pitches mends it. The pin flies.
        new(
            "cut-chain",
            Harm.Serious,
            [MechanismConditions.CountedTwice, MechanismConditions.LongestPosition]
        ),
        // With a loose wheel or the derailleur on it, the gauge lies and the derailleur bends.
        new("bend-hanger", Harm.Property, [MechanismConditions.WheelSeated]),
        // The cage whips back when what held it goes.
        new("free-sprung-cage", Harm.Minor, [MechanismConditions.SpringRelaxed]),
        // Whatever gives way now does so under a rider.
        new(
            "test-ride",
            Harm.Serious,
            [
                MechanismConditions.BrakesChecked,
                MechanismConditions.TorquesDone,
                MechanismConditions.WheelSeated,
                MechanismConditions.JointLoaded,
                MechanismConditions.HangerRead,
                MechanismConditions.InboardStopProven,
            ]
        ),
    ];

    /// <summary>The names of all acts.</summary>
    public static ImmutableArray<string> Names { get; } = [.. All.Select(act => act.Name)];

    /// <summary>The act of that name, or null.</summary>
    public static StepAct? Find(string name) => All.FirstOrDefault(act => act.Name == name);
}
