using System.Collections.Immutable;

namespace Cogwright.Setup.Jobs;

/// <summary>What the model says of a gear before it is tried. Immutable.</summary>
/// <param name="Gear">The gear.</param>
/// <param name="Symptoms">What it will show, by <see cref="Symptoms"/>; empty: it runs as it should.</param>
/// <param name="IsBarred">Whether it is not to be tried at all: shifting there tears parts off.</param>
public sealed record ExpectedGear(
    TestGear Gear,
    ImmutableArray<string> Symptoms,
    bool IsBarred = false
);

/// <summary>What trying a gear came to, beside what was expected of it.</summary>
public enum GearFinding
{
    /// <summary>Not tried yet.</summary>
    NotTried,

    /// <summary>Tried, and what it rests on was changed since: to be tried again.</summary>
    Again,

    /// <summary>It runs as it should, and so the model said.</summary>
    Good,

    /// <summary>It runs as it should, though the model said otherwise: something of the bike is not as its spec says.</summary>
    BetterThanExpected,

    /// <summary>Something is the matter, and the model said so.</summary>
    AsExpected,

    /// <summary>Something is the matter that the model does not know of: its cause is to be found.</summary>
    NotExpected,

    /// <summary>It is not to be tried.</summary>
    Barred,
}

/// <summary>One gear in a pass of the test. Immutable.</summary>
/// <param name="Expected">What the model says of it.</param>
/// <param name="Finding">What came of it.</param>
/// <param name="Tried">What was said of it last, or null.</param>
/// <param name="Why">Why it is to be tried again, or null.</param>
public sealed record TestedGear(
    ExpectedGear Expected,
    GearFinding Finding,
    GearTry? Tried,
    RecheckReason? Why
)
{
    /// <summary>Whether it still has to be tried.</summary>
    public bool IsLeft => Finding is GearFinding.NotTried or GearFinding.Again;

    /// <summary>
    /// Whether it keeps the bike from going on: something serious is the matter, or something that the rider is not told to
    /// avoid.
    /// </summary>
    public bool Hinders =>
        Finding is GearFinding.AsExpected or GearFinding.NotExpected
        && (
            !Tried!.Said.IsAvoided
            || Tried.Said.Symptoms.Any(name => Symptoms.Find(name) is not { IsSerious: false })
        );
}

/// <summary>A pass of the test: every gear in use, observed beside what was expected. Immutable.</summary>
public sealed record TestReview
{
    private TestReview(TestPass pass, ImmutableArray<TestedGear> gears)
    {
        Pass = pass;
        Gears = gears;
    }

    /// <summary>Which pass it is.</summary>
    public TestPass Pass { get; }

    /// <summary>Every gear, in the order in which they were given.</summary>
    public ImmutableArray<TestedGear> Gears { get; }

    /// <summary>How many gears have to be tried yet.</summary>
    public int Left => Gears.Count(gear => gear.IsLeft);

    /// <summary>What the pass comes to, or null while a gear has to be tried yet or there is none.</summary>
    public StepOutcome? Outcome =>
        Left > 0 || Gears.All(gear => gear.Finding == GearFinding.Barred) ? null
        : Gears.Any(gear => gear.Hinders) ? StepOutcome.NotAsExpected
        : StepOutcome.AsExpected;

    /// <summary>The next gear to try: in the order given, what was not tried before what is to be tried again; or null.</summary>
    public TestGear? Next =>
        (
            Gears.FirstOrDefault(gear => gear.Finding == GearFinding.NotTried)
            ?? Gears.FirstOrDefault(gear => gear.IsLeft)
        )
            ?.Expected
            .Gear;

    /// <summary>A pass as it stands.</summary>
    /// <param name="work">The state of the work.</param>
    /// <param name="recheck">What is in doubt in it.</param>
    /// <param name="place">The step that is the pass.</param>
    /// <param name="expected">What the model says of each gear that the rider may use.</param>
    /// <returns>The pass, or null when the step is none.</returns>
    public static TestReview? Of(
        BikeWork work,
        Recheck recheck,
        StepPlace place,
        ImmutableArray<ExpectedGear> expected
    )
    {
        ArgumentNullException.ThrowIfNull(work);
        ArgumentNullException.ThrowIfNull(recheck);
        var run = work.Runs[place.Run];
        if (TestPasses.Find(run.Procedure.Steps[place.Step].Check?.Quantity) is not { } pass)
        {
            return null;
        }
        var tries = run.Tries.GetValueOrDefault(
            place.Step,
            ImmutableDictionary<TestGear, GearTry>.Empty
        );
        return new(pass, [.. expected.Select(Beside)]);

        TestedGear Beside(ExpectedGear gear)
        {
            var tried = tries.GetValueOrDefault(gear.Gear);
            var why = tried is null ? null : recheck.WhyNotSince(place.Run, place.Step, tried.At);
            return new(gear, FindingOf(gear, tried, why), tried, why);
        }
    }

    /// <summary>The gears that a job's test tells the rider to avoid, each once, in the order of the runs.</summary>
    /// <param name="work">The state of the work.</param>
    /// <param name="job">The job's id.</param>
    public static ImmutableArray<TestGear> AvoidedIn(BikeWork work, string job)
    {
        ArgumentNullException.ThrowIfNull(work);
        return
        [
            .. work
                .Runs.Where(run => run.Job == job)
                .SelectMany(run => run.Tries.Values)
                .SelectMany(tries => tries)
                .Where(of => of.Value.Said.IsAvoided)
                .OrderBy(of => of.Value.At)
                .Select(of => of.Key)
                .Distinct(),
        ];
    }

    private static GearFinding FindingOf(ExpectedGear gear, GearTry? tried, RecheckReason? why) =>
        gear.IsBarred ? GearFinding.Barred
        : tried is null ? GearFinding.NotTried
        : why is not null ? GearFinding.Again
        : tried.Said.Symptoms.IsEmpty
            ? gear.Symptoms.IsEmpty ? GearFinding.Good
                : GearFinding.BetterThanExpected
        : tried.Said.Symptoms.All(gear.Symptoms.Contains) ? GearFinding.AsExpected
        : GearFinding.NotExpected;
}
