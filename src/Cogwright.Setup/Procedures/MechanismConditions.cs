using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Cogwright.Setup.Procedures;

/// <summary>A state of the mechanism that steps make or clear, and that can block a step. Immutable.</summary>
/// <param name="Name">Its name in files, such as <c>chain-off</c>.</param>
/// <param name="Group">Conditions of one group exclude one another: making one clears the others; empty when it is alone.</param>
public sealed record MechanismCondition(string Name, string Group = "")
{
    /// <summary>What it means, in one sentence.</summary>
    public string About => Texts.Get("condition." + Name);
}

/// <summary>The closed list of conditions. Names are stable: files use them.</summary>
public static class MechanismConditions
{
    private const string InboardStop = "inboard-stop";
    private const string Hanger = "hanger";

    // Between stop and spokes: what moves the derailleur or the cogs when it is tightened.
    private static readonly ImmutableArray<string> CarriesTheStop =
    [
        Fasteners.RearAxle,
        Fasteners.Lockring,
        Fasteners.RearMount,
    ];

    /// <summary>The drive's battery is out, or the bike has no motor that turns the cranks.</summary>
    public const string DriveBatteryOut = "drive-battery-out";

    /// <summary>The inboard stop was proven before any powered shift: pushed by hand against it, or by slow cranking by hand where a motor moves the derailleur.</summary>
    public const string InboardStopProven = "inboard-stop-proven-by-hand";

    /// <summary>The rear derailleur hangs off its hanger.</summary>
    public const string DerailleurOff = "rear-derailleur-off";

    /// <summary>The rear wheel is out.</summary>
    public const string WheelOut = "wheel-out";

    /// <summary>The chain is off the bike or open.</summary>
    public const string ChainOff = "chain-off";

    /// <summary>The chain is closed and runs over all its sprockets.</summary>
    public const string ChainOn = "chain-on";

    /// <summary>The hanger was read with the gauge and is straight.</summary>
    public const string HangerRead = "hanger-read";

    /// <summary>The chain was counted a second time.</summary>
    public const string CountedTwice = "chain-counted-twice";

    /// <summary>The rear end stands where the chain is longest, or it is rigid.</summary>
    public const string LongestPosition = "rear-end-at-longest";

    /// <summary>Shock, strap and pressure are as they are ridden: nothing holds the rear end down.</summary>
    public const string RearEndFree = "rear-end-free";

    /// <summary>The rear wheel sits fully in the dropouts and its axle is tight.</summary>
    public const string WheelSeated = "wheel-seated";

    /// <summary>The joint of the chain was loaded by a pedal stroke against a held brake.</summary>
    public const string JointLoaded = "chain-joint-loaded";

    /// <summary>Both brakes hold.</summary>
    public const string BrakesChecked = "brakes-checked";

    /// <summary>Every bolt that was touched is tight.</summary>
    public const string TorquesDone = "torques-done";

    /// <summary>The spring of the rear derailleur's cage carries no load.</summary>
    public const string SpringRelaxed = "spring-relaxed";

    /// <summary>Every gear in use was tried on the stand and is as it should be.</summary>
    public const string StandTested = "stand-tested";

    /// <summary>Every gear in use was tried against a dragging brake and is as it should be.</summary>
    public const string LoadTested = "load-tested";

    /// <summary>All conditions.</summary>
    public static ImmutableArray<MechanismCondition> All { get; } =
    [
        new("bike-held"),
        new(DriveBatteryOut, "battery"),
        new("drive-battery-in", "battery"),
        new(ChainOff, "chain"),
        new(ChainOn, "chain"),
        new(DerailleurOff, "rear-derailleur"),
        new("rear-derailleur-on", "rear-derailleur"),
        new("cable-slack", "cable"),
        new("cable-anchored", "cable"),
        new(WheelOut, "wheel"),
        new(WheelSeated, "wheel"),
        new(HangerRead),
        new("stops-backed-off"),
        new("outboard-stop-set"),
        new(InboardStopProven),
        new("units-paired"),
        new("front-cage-outboard", "front-cage"),
        new("front-cage-inboard", "front-cage"),
        new(CountedTwice),
        new("sag-pressure-recorded"),
        new(LongestPosition, "rear-end"),
        new("rear-end-at-sag", "rear-end"),
        new(RearEndFree, "rear-end"),
        new("damper-off", "damper"),
        new("damper-on", "damper"),
        new(SpringRelaxed),
        new(JointLoaded),
        new(TorquesDone),
        new(BrakesChecked),
        new(StandTested),
        new(LoadTested),
    ];

    /// <summary>Those that were proven and lapse when what they were proven on is touched.</summary>
    internal static ImmutableArray<string> Proofs { get; } =
    [InboardStopProven, HangerRead, JointLoaded];

    /// <summary>The names of all conditions.</summary>
    public static ImmutableArray<string> Names { get; } =
    [.. All.Select(condition => condition.Name)];

    /// <summary>For each condition of a group those of which only one holds at a time.</summary>
    private static readonly FrozenDictionary<string, ImmutableArray<string>> Beside = All.Where(c =>
            c.Group.Length > 0
        )
        .ToFrozenDictionary(
            c => c.Name,
            c =>
                All.Where(other => other.Group == c.Group)
                    .Select(other => other.Name)
                    .ToImmutableArray()
        );

    /// <summary>
    /// The conditions that hold after a step. A proof does not outlive what it was made on, whatever the step says it clears:
    /// the inboard stop's lapses when something that spoils it is set (<see cref="AdjusterEdges"/>), when the wheel comes out,
    /// or when the hanger, the derailleur, the cassette or the axle is moved; a hanger's when it is bent or tightened; a
    /// chain joint's when the chain comes off. A step that proves it anew makes it anew.
    /// </summary>
    /// <param name="before">Those that held before.</param>
    /// <param name="step">The step.</param>
    public static ImmutableHashSet<string> After(
        ImmutableHashSet<string> before,
        ProcedureStep step
    )
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(step);
        return before.Except(EndedBy(step)).Union(step.Makes);
    }

    /// <summary>What a step ends, what it makes anew among them: what it clears, what cannot hold beside what it makes, proofs.</summary>
    internal static IEnumerable<string> EndedBy(ProcedureStep step) =>
        step
            .Makes.SelectMany(made => Beside.TryGetValue(made, out var group) ? group : [])
            .Concat(Lapsed(step))
            .Concat(step.Clears);

    /// <summary>Proofs that a step makes void by what it does, whether or not its file says so.</summary>
    private static IEnumerable<string> Lapsed(ProcedureStep step)
    {
        var wheelComesOut = step.Makes.Contains(WheelOut) || step.Clears.Contains(WheelSeated);
        if (step.Makes.Contains(ChainOff) || step.Clears.Contains(ChainOn))
        {
            yield return JointLoaded;
        }
        if (wheelComesOut)
        {
            yield return BrakesChecked;
            yield return TorquesDone;
        }
        var hangerMoves =
            step.Acts.Contains(StepActs.BendHanger)
            || step.Adjusts.Contains(Hanger)
            || step.Torque?.Fastener == Fasteners.HangerScrews;
        if (hangerMoves)
        {
            yield return HangerRead;
        }
        if (
            hangerMoves
            || wheelComesOut
            || step.Torque is { } torque && CarriesTheStop.Contains(torque.Fastener)
            || step.Adjusts.Any(adjuster =>
                adjuster == InboardStop
                || AdjusterEdges.SetAgainAfter(adjuster).Contains(InboardStop)
            )
        )
        {
            yield return InboardStopProven;
        }
    }
}
