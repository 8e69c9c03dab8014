using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>
/// All work on one bike as its facts tell it: the jobs, what every step came to, how the mechanism stands, and what happened in
/// between. Made by <see cref="JobFold"/>; asked by <see cref="Recheck"/> and <see cref="JobReview"/>. Immutable.
/// </summary>
public sealed record BikeWork
{
    /// <summary>How many facts were taken up.</summary>
    public int Facts { get; init; }

    /// <summary>The jobs, in the order in which they were begun.</summary>
    public ImmutableArray<Job> Jobs { get; init; } = [];

    /// <summary>The procedures begun, in that order, of all jobs.</summary>
    public ImmutableArray<ProcedureRun> Runs { get; init; } = [];

    /// <summary>Facts that name something that is not there (a run, a step, a job): kept, and told.</summary>
    public ImmutableList<JobFact> Unplaced { get; init; } = [];

    /// <summary>What happened to the bike, in order.</summary>
    public ImmutableList<ChangeMade> Changes { get; init; } = [];

    /// <summary>Conditions that were made or set and not ended since; some may have lapsed (<see cref="Recheck.Holds"/>).</summary>
    internal ConditionBits Conditions { get; init; }

    /// <summary>The fold that made it; null of a state that no fold has made.</summary>
    internal JobFold? Fold { get; init; }

    /// <summary>The number of each condition as a subject.</summary>
    internal ImmutableArray<int> ConditionSubjects { get; init; } = [];

    /// <summary>What made each condition.</summary>
    internal ImmutableArray<Cause?> Makers { get; init; } =
    [.. Enumerable.Repeat<Cause?>(null, ConditionBits.Count)];

    /// <summary>For each subject what last voided it.</summary>
    internal ImmutableArray<Cause?> Redo { get; init; } = [];

    /// <summary>For each subject what last put it in doubt.</summary>
    internal ImmutableArray<Cause?> Look { get; init; } = [];

    /// <summary>For each adjuster and part what last moved it.</summary>
    internal ImmutableArray<Cause?> Moved { get; init; } = [];

    /// <summary>
    /// The same three for what happened to the bike alone, the steps left out: what is set roughly is moved by steps and voided by
    /// what happens, and a step that comes later must not hide that something happened before it.
    /// </summary>
    internal (
        ImmutableArray<Cause?> Redo,
        ImmutableArray<Cause?> Look,
        ImmutableArray<Cause?> Moved
    ) Happened { get; init; } = ([], [], []);

    /// <summary>For each subject the step that had the last word.</summary>
    internal ImmutableArray<Cause?> Settled { get; init; } = [];

    /// <summary>The job with that id, or null.</summary>
    public Job? Job(string id)
    {
        // The last one is asked for most often.
        for (var i = Jobs.Length - 1; i >= 0; i--)
        {
            if (Jobs[i].Id == id)
            {
                return Jobs[i];
            }
        }
        return null;
    }

    /// <summary>The work after one more fact.</summary>
    /// <param name="fact">The fact.</param>
    /// <exception cref="InvalidOperationException">No fold has made this state.</exception>
    public BikeWork Then(JobFact fact) =>
        (Fold ?? throw new InvalidOperationException(nameof(Fold))).Apply(this, fact);

    internal int IndexOfRun(string id)
    {
        // The last one is asked for most often.
        for (var i = Runs.Length - 1; i >= 0; i--)
        {
            if (Runs[i].Id == id)
            {
                return i;
            }
        }
        return -1;
    }
}

/// <summary>One piece of work on the bike. Immutable.</summary>
public sealed record Job
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>What it is, in the mechanic's words.</summary>
    public required string Title { get; init; }

    /// <summary>When it began (ticks, UTC).</summary>
    public long UtcTicks { get; init; }

    /// <summary>Where it is.</summary>
    public JobStage Stage { get; init; }

    /// <summary>When it was over (ticks, UTC); null while it is open.</summary>
    public long? ClosedUtcTicks { get; init; }

    /// <summary>Whether it is over.</summary>
    public bool IsClosed => ClosedUtcTicks is not null;

    /// <summary>Why it is done again, if it is a comeback; null otherwise.</summary>
    public CameBack? Comeback { get; init; }

    /// <summary>Who has it in hand, by their sign; empty before somebody said so.</summary>
    public string InHandsOf { get; init; } = "";

    /// <summary>Who has had it in hand since when, in order.</summary>
    public ImmutableList<JobTaken> Hands { get; init; } = [];

    /// <summary>What was added to its record, in order.</summary>
    public ImmutableList<JobAmended> Amendments { get; init; } = [];

    /// <summary>The day that the rider was given for the first check; null when none was, or the job is open.</summary>
    public DateOnly? FirstCheck { get; init; }

    /// <summary>When the bike was looked at after its handover, in order.</summary>
    public ImmutableList<JobChecked> Checks { get; init; } = [];

    /// <summary>Whether the bike is still to come for its first check.</summary>
    public bool AwaitsCheck => FirstCheck is not null && Checks.IsEmpty;

    /// <summary>Digests of words that lie beside the log, by <see cref="PersonalWords"/>.</summary>
    public ImmutableSortedDictionary<string, string> Words { get; init; } =
        ImmutableSortedDictionary.Create<string, string>(StringComparer.Ordinal);

    /// <summary>What was asked and found when the bike came in, by <see cref="IntakeFields"/>.</summary>
    public ImmutableSortedDictionary<string, string> Intake { get; init; } =
        ImmutableSortedDictionary.Create<string, string>(StringComparer.Ordinal);
}

/// <summary>A procedure as it is being carried out. Immutable.</summary>
public sealed record ProcedureRun
{
    internal ProcedureRun(string id, string job, NumberedProcedure numbered)
    {
        Id = id;
        Job = job;
        Numbered = numbered;
        Results = [.. Enumerable.Repeat<StepResult?>(null, numbered.Steps.Length)];
        Exceptions = [.. Enumerable.Repeat<Cause?>(null, numbered.Steps.Length)];
    }

    /// <summary>Its id.</summary>
    public string Id { get; }

    /// <summary>The job that it belongs to.</summary>
    public string Job { get; }

    /// <summary>The procedure, as it was when it was begun.</summary>
    public Procedure Procedure => Numbered.Procedure;

    /// <summary>What each step came to, in the order of the procedure; null: not done.</summary>
    public ImmutableArray<StepResult?> Results { get; init; }

    /// <summary>For each step the <see cref="ResultExcepted"/> by which somebody answers for it as it is, or null.</summary>
    public ImmutableArray<Cause?> Exceptions { get; init; }

    /// <summary>What was said of each gear last, by the index of the step that is the pass.</summary>
    public ImmutableSortedDictionary<
        int,
        ImmutableDictionary<TestGear, GearTry>
    > Tries { get; init; } =
        ImmutableSortedDictionary<int, ImmutableDictionary<TestGear, GearTry>>.Empty;

    internal NumberedProcedure Numbered { get; }
}

/// <summary>A gear that was tried. Immutable.</summary>
/// <param name="At">The number of the fact.</param>
/// <param name="Said">What was said of it.</param>
public sealed record GearTry(int At, GearsTried Said);

/// <summary>What a step came to. Immutable.</summary>
public sealed record StepResult
{
    /// <summary>The last fact about it.</summary>
    public required StepDone Done { get; init; }

    /// <summary>The number of the fact that last confirmed it.</summary>
    public required int MadeAt { get; init; }

    /// <summary>The number of the fact that last changed it: what was made from it before then is in doubt.</summary>
    public required int MovedAt { get; init; }

    /// <summary>What it came to the time before, or null.</summary>
    public StepResult? Before { get; init; }

    /// <summary>Who had the job in hand, by their sign; empty when nobody had said so.</summary>
    public string By { get; init; } = "";

    /// <summary>Conditions that it was done without, though they must hold first.</summary>
    public ImmutableArray<string> DoneWithout => Asked?.Missing ?? [];

    /// <summary>What it was to be done on; null when it needs nothing.</summary>
    internal Footing? Asked { get; init; }

    /// <summary>Whether it is what it should be.</summary>
    public bool IsGood => Done.IsGood;
}

/// <summary>A fact that moved something, with its number. Immutable.</summary>
/// <param name="At">The number of the fact.</param>
/// <param name="Fact">The fact.</param>
/// <param name="Run">Index of the run when it is a step; below 0 otherwise.</param>
/// <param name="Step">Index of the step in its run.</param>
public sealed record Cause(int At, JobFact Fact, int Run = -1, int Step = -1);

/// <summary>
/// The state in which a step was done. What the step lacked there is worked out when somebody asks: a fold passes thousands of
/// steps, a screen shows a few.
/// </summary>
internal sealed class Footing(BikeWork work, NumberedStep step)
{
    private BikeWork? before = work;
    private ImmutableArray<string> missing;

    /// <summary>The names of the conditions that did not hold then.</summary>
    internal ImmutableArray<string> Missing
    {
        get
        {
            if (before is { } then)
            {
                missing = [.. new Recheck(then).Missing(step).Names];
                before = null;
            }
            return missing;
        }
    }
}
