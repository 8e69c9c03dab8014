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
    private static readonly ImmutableArray<string> ToProve =
    [
        MechanismConditions.DriveBatteryOut,
        MechanismConditions.WheelSeated,
        MechanismConditions.HangerRead,
    ];

    /// <summary>The chain goes onto the largest cog while it is driven: by the cranks, or by a rider.</summary>
    public const string PoweredShiftToLargestCog = "powered-shift-to-largest-cog";

    /// <summary>A cable-driven derailleur is pushed against its inboard stop by hand, which proves it.</summary>
    public const string PushToInboardStop = "push-to-inboard-stop";

    /// <summary>A motor-driven derailleur is brought to its inboard stop by slow cranking by hand, which proves it.</summary>
    public const string CrankToInboardStop = "crank-to-inboard-stop";

    /// <summary>The hanger is bent.</summary>
    public const string BendHanger = "bend-hanger";

    /// <summary>The cranks are turned.</summary>
    public const string TurnCranks = "turn-cranks";

    /// <summary>All acts.</summary>
    public static ImmutableArray<StepAct> All { get; } =
    [
        // A derailleur that passes the largest cog goes into the spokes and locks the wheel.
        new(
            PoweredShiftToLargestCog,
            Harm.Serious,
            [MechanismConditions.InboardStopProven, MechanismConditions.HangerRead]
        ),
        // The hand is at spokes and chain while the wheel turns.
        new(PushToInboardStop, Harm.Serious, ToProve),
        // The stop is not proven yet: on a hanger that nobody read, the cage may be in the spokes before the cog is reached.
        new(CrankToInboardStop, Harm.Serious, ToProve),
        // A finger, a rag or a glove is drawn between chain and teeth; a motor turns the chain by itself.
        new(TurnCranks, Harm.Serious, [MechanismConditions.DriveBatteryOut]),
        // Cut too short it tears the derailleur off; only adding pitches mends it. The pin flies.
        new(
            "cut-chain",
            Harm.Serious,
            [MechanismConditions.CountedTwice, MechanismConditions.LongestPosition]
        ),
        // With a loose wheel or the derailleur on it, the gauge lies and the derailleur bends. What was bent often or far breaks in use, next to the spokes.
        new(
            BendHanger,
            Harm.Serious,
            [MechanismConditions.WheelSeated, MechanismConditions.DerailleurOff]
        ),
        // The cage whips back when what held it goes.
        new("free-sprung-cage", Harm.Minor, [MechanismConditions.SpringRelaxed]),
        // Whatever gives way now does so under a rider.
        new(
            "test-ride",
            Harm.Serious,
            [
                MechanismConditions.StandTested,
                MechanismConditions.BrakesChecked,
                MechanismConditions.TorquesDone,
                MechanismConditions.WheelSeated,
                MechanismConditions.JointLoaded,
                MechanismConditions.HangerRead,
                MechanismConditions.InboardStopProven,
            ]
        ),
    ];

    /// <summary>Conditions that stand between an act and somebody's harm.</summary>
    public static ImmutableArray<string> Guards { get; } =
    [.. All.Where(act => act.Worst == Harm.Serious).SelectMany(act => act.Needs).Distinct()];

    /// <summary>Those that lead to the largest cog or to the stop behind it.</summary>
    internal static ImmutableArray<string> ToLargestCog { get; } =
    [PoweredShiftToLargestCog, PushToInboardStop, CrankToInboardStop];

    /// <summary>The names of all acts.</summary>
    public static ImmutableArray<string> Names { get; } = [.. All.Select(act => act.Name)];

    /// <summary>The act of that name, or null.</summary>
    public static StepAct? Find(string name) => All.FirstOrDefault(act => act.Name == name);
}
