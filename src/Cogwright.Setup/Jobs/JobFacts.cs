using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>
/// One fact of the work on a bike. Its id and time are those of the entry that states it; the order of facts is the order of
/// the log, never that of the times. Immutable.
/// </summary>
/// <param name="From">The entry that states it.</param>
public abstract record JobFact(FactSource From)
{
    /// <summary>The entry's id.</summary>
    public string Id => From.Id;
}

/// <summary>The entry that states a fact. Immutable.</summary>
/// <param name="Id">Its id.</param>
/// <param name="UtcTicks">When the device's clock said it was (ticks, UTC); shown, never compared.</param>
/// <param name="By">Who or which device said it; shown.</param>
public sealed record FactSource(string Id, long UtcTicks, string By);

/// <summary>A job begins: its id is the fact's own.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Title">What the job is, in the mechanic's words.</param>
public sealed record JobBegun(FactSource From, string Title) : JobFact(From);

/// <summary>What was asked and found when the bike came in; a field that is not named keeps what it was.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="Fields">Answers by <see cref="IntakeFields"/>; an empty one takes the answer back.</param>
public sealed record IntakeNoted(
    FactSource From,
    string Job,
    ImmutableSortedDictionary<string, string> Fields
) : JobFact(From);

/// <summary>A job is at a stage.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="Stage">The stage.</param>
public sealed record StageReached(FactSource From, string Job, JobStage Stage) : JobFact(From);

/// <summary>A procedure is begun: its run has the fact's own id. What it says it starts with was looked at and is so.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="Procedure">The procedure as it was that day.</param>
public sealed record ProcedureBegun(FactSource From, string Job, Procedure Procedure)
    : JobFact(From);

/// <summary>What came of a step.</summary>
public enum StepOutcome
{
    /// <summary>Done; there is nothing to be judged.</summary>
    Done,

    /// <summary>The reading is within its limits.</summary>
    Within,

    /// <summary>The reading is outside its limits.</summary>
    Outside,

    /// <summary>The reading is too close to a limit for this gauge.</summary>
    TooClose,

    /// <summary>It looks, feels or sounds as it should.</summary>
    AsExpected,

    /// <summary>It does not.</summary>
    NotAsExpected,
}

/// <summary>A step was done, or done again.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Run">The run of its procedure.</param>
/// <param name="Step">Its id in the procedure.</param>
/// <param name="Outcome">What came of it.</param>
public sealed record StepDone(FactSource From, string Run, string Step, StepOutcome Outcome)
    : JobFact(From)
{
    /// <summary>Whether it was only looked at again and nothing was turned: what was made from it stays good.</summary>
    public bool Held { get; init; }

    /// <summary>The reading (in the unit of the check), or null.</summary>
    public double? Value { get; init; }

    /// <summary>Unit of the reading and of what was asked for; empty without either, and of a bare number.</summary>
    public string Unit { get; init; } = "";

    /// <summary>Standard uncertainty of the reading, in its unit; null without one.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>What it was read with; empty when nothing was.</summary>
    public string Gauge { get; init; } = "";

    /// <summary>The day of that gauge's last calibration; null when none is known.</summary>
    public DateOnly? Calibrated { get; init; }

    /// <summary>The least that was asked for when it was done (in <see cref="Unit"/>), or null.</summary>
    public double? Lower { get; init; }

    /// <summary>What was aimed at when it was done (in <see cref="Unit"/>), or null.</summary>
    public double? Aim { get; init; }

    /// <summary>The most that was asked for when it was done (in <see cref="Unit"/>), or null.</summary>
    public double? Upper { get; init; }

    /// <summary>Whether it says itself what was asked for; older entries do not.</summary>
    public bool SaysWhatWasAsked => Lower is not null || Aim is not null || Upper is not null;

    /// <summary>Turns of the adjuster since the last reading (clockwise positive), or null when none were told.</summary>
    public double? Turned { get; init; }

    /// <summary>What else was seen, in the mechanic's words.</summary>
    public string Note { get; init; } = "";

    /// <summary>Whether it is what it should be.</summary>
    public bool IsGood =>
        Outcome is StepOutcome.Done or StepOutcome.Within or StepOutcome.AsExpected;
}

/// <summary>One ring with one cog, as the test names it. Immutable.</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="CogTeeth">Teeth of the cog.</param>
public readonly record struct TestGear(int RingTeeth, int CogTeeth);

/// <summary>Gears were tried in a pass of the test; what is said of a gear later outweighs what was said of it before.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Run">The run of the procedure.</param>
/// <param name="Step">The step that is the pass (<see cref="TestPasses"/>).</param>
/// <param name="Gears">The gears.</param>
public sealed record GearsTried(
    FactSource From,
    string Run,
    string Step,
    ImmutableArray<TestGear> Gears
) : JobFact(From)
{
    /// <summary>What was the matter with each of them, by <see cref="Jobs.Symptoms"/>; empty: nothing.</summary>
    public ImmutableArray<string> Symptoms { get; init; } = [];

    /// <summary>Whether the rider is told to avoid them.</summary>
    public bool IsAvoided { get; init; }

    /// <summary>What else was seen, in the mechanic's words.</summary>
    public string Note { get; init; } = "";
}

/// <summary>The mechanic says how the mechanism stands.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Condition">One of <see cref="MechanismConditions"/>.</param>
/// <param name="Holds">Whether it holds.</param>
public sealed record ConditionSaid(FactSource From, string Condition, bool Holds) : JobFact(From);

/// <summary>Something happened to the bike that no step says: a knock, a part replaced.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Change">One of <see cref="BikeChanges"/>.</param>
/// <param name="Note">In the mechanic's words; empty when nothing is added.</param>
public sealed record ChangeMade(FactSource From, string Change, string Note) : JobFact(From);

/// <summary>Figures of parts were changed in the spec: what was worked out from them is to be looked at again.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Parts">Kinds of part, by <see cref="ProcedureWords.Parts"/>.</param>
public sealed record FiguresChanged(FactSource From, ImmutableArray<string> Parts) : JobFact(From);

/// <summary>Somebody answers for a result as it is.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Run">The run.</param>
/// <param name="Step">The step whose result it is.</param>
/// <param name="Reason">Why; never empty.</param>
public sealed record ResultExcepted(FactSource From, string Run, string Step, string Reason)
    : JobFact(From);

/// <summary>Somebody has the job in hand from now on.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="By">Their sign in the shop, such as two letters.</param>
/// <param name="Note">What whoever had it before leaves to be known; empty when nothing.</param>
public sealed record JobTaken(FactSource From, string Job, string By, string Note) : JobFact(From);

/// <summary>Somebody's own words, or who they are: they lie beside the log and can be erased.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="What">One of <see cref="PersonalWords"/>.</param>
/// <param name="Digest">The digest of the words with their salt; empty: they are taken back.</param>
public sealed record WordsTaken(FactSource From, string Job, string What, string Digest)
    : JobFact(From);

/// <summary>A job is done because an earlier one did not last.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="Of">The id of the earlier job; empty when nobody knows which.</param>
/// <param name="Cause">One of <see cref="ComebackCauses"/>; empty: it is no comeback after all.</param>
/// <param name="Note">In the mechanic's words; empty when nothing is added.</param>
public sealed record CameBack(FactSource From, string Job, string Of, string Cause, string Note)
    : JobFact(From);

/// <summary>The job is over.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
public sealed record JobClosed(FactSource From, string Job) : JobFact(From)
{
    /// <summary>The day that the rider was given for the first check; null when none was.</summary>
    public DateOnly? FirstCheck { get; init; }
}

/// <summary>The bike came back after its handover and was looked at: the first check.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="Note">What was found, in the mechanic's words; empty: nothing.</param>
public sealed record JobChecked(FactSource From, string Job, string Note) : JobFact(From);

/// <summary>Something is added to the record of a job that is over. Nothing of what was handed over changes by it.</summary>
/// <param name="From">The entry that states it.</param>
/// <param name="Job">The job.</param>
/// <param name="By">Who adds it, by their sign in the shop.</param>
/// <param name="Text">What is added; never empty.</param>
public sealed record JobAmended(FactSource From, string Job, string By, string Text)
    : JobFact(From);
