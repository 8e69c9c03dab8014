using System.Collections.Immutable;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using Cogwright.Web.Bikes;
using Cogwright.Web.Device;

namespace Cogwright.Web.Jobs;

/// <summary>The work on the bike on the stand: what its log comes to, and the way to add to it.</summary>
/// <param name="shelf">Where the logs are.</param>
/// <param name="bench">The stand.</param>
internal sealed class JobDesk(DeviceShelf shelf, Workbench bench)
{
    private JobReview? review;
    private BikeWork? reviewed;
    private StepReview? steps;
    private ComputedBike? computed;
    private ImmutableArray<ExpectedGear> expected = [];
    private ComputedBike? expectedOf;

    /// <summary>The work.</summary>
    internal BikeWork Work => shelf.WorkOf(bench.Id);

    /// <summary>What there is to know of it.</summary>
    internal JobReview Review
    {
        get
        {
            var work = Work;
            if (review is null || !ReferenceEquals(work, reviewed))
            {
                (review, reviewed) = (new(work), work);
            }
            return review;
        }
    }

    /// <summary>The job that is open and was begun last, or null.</summary>
    internal Job? Open => Work.Jobs.LastOrDefault(job => !job.IsClosed);

    /// <summary>What steps ask for on this bike; null while it cannot be computed or is not to be worked on.</summary>
    internal StepReview? Steps
    {
        get
        {
            if (bench.AsSpec is not { } bike || bike.Targets.IsEmpty)
            {
                return null;
            }
            if (steps is null || !ReferenceEquals(bike, computed))
            {
                (steps, computed) = (new(bike.Catalogue, bike.File.Work, bike.Targets), bike);
            }
            return steps;
        }
    }

    /// <summary>Steps that two devices did without having seen one another.</summary>
    internal ImmutableArray<StepConflict> Conflicts => shelf.StepConflictsOf(bench.Id);

    /// <summary>Whether a job can be handed over: something was done, nothing is open, and nothing was done twice unseen.</summary>
    /// <param name="job">The job's id.</param>
    internal bool CanHandOver(string job) =>
        Work.Runs.Any(run => run.Job == job) && Review.OpenOf(job).IsEmpty && Conflicts.IsEmpty;

    /// <summary>Takes somebody's words down beside the log; they are on the device when this ends.</summary>
    /// <param name="job">The job.</param>
    /// <param name="what">One of <see cref="PersonalWords"/>.</param>
    /// <param name="words">The words; empty takes them out of force.</param>
    internal async Task AddWordsAsync(string job, string what, string words)
    {
        if (await bench.OwnAsync().ConfigureAwait(true) is { } bike)
        {
            await shelf.AddWordsAsync(new(Guid.Parse(bike)), job, what, words).ConfigureAwait(true);
        }
    }

    /// <summary>Adds a fact; it is on the device when this ends. A demo bike becomes one's own.</summary>
    /// <param name="fact">The fact, by <see cref="JobEntry"/>.</param>
    /// <returns>The entry's id, or null when no bike is on the stand.</returns>
    internal async Task<string?> AddAsync(EntryDraft fact) =>
        await bench.OwnAsync().ConfigureAwait(true) is { } bike
            ? await shelf.AddFactAsync(new(Guid.Parse(bike)), fact).ConfigureAwait(true)
            : null;

    /// <summary>Takes a fact back with a later entry.</summary>
    /// <param name="id">The entry that was a mistake.</param>
    /// <param name="reason">Why.</param>
    internal Task TakeBackAsync(string id, string reason) =>
        Guid.TryParse(bench.Id, out var bike)
            ? shelf.TakeFactBackAsync(new(bike), new(Guid.Parse(id)), reason)
            : Task.CompletedTask;

    /// <summary>A step that is done, with what it asks for on this bike at this moment: what a record will say of it.</summary>
    /// <param name="step">The step.</param>
    /// <param name="done">What came of it.</param>
    internal StepDone WithAsked(ProcedureStep step, StepDone done) =>
        AimOf(step) is { Faults.IsEmpty: true } aim
        && (aim.Lower ?? aim.Value ?? aim.Upper) is not null
            ? done with
            {
                Lower = aim.Lower,
                Aim = aim.Value,
                Upper = aim.Upper,
                Unit = aim.Unit,
            }
            : done;

    /// <summary>What a step asks for on this bike now; null when it asks for no figure, or the bike cannot be worked out.</summary>
    /// <param name="step">The step.</param>
    internal StepAim? AimOf(ProcedureStep step) =>
        Steps is not { } now ? null
        : step.Torque is { } torque ? now.AimOf(torque)
        : step.Check is { HasNumber: true } check ? now.AimOf(check)
        : null;

    /// <summary>A step in its run.</summary>
    internal ProcedureStep StepAt(StepPlace place) =>
        Work.Runs[place.Run].Procedure.Steps[place.Step];

    /// <summary>The pass of the test that a step is; null when it is none, or the model does not know the bike's gears.</summary>
    internal TestReview? TestAt(StepPlace place) =>
        bench.Bike is { } bike
            ? TestReview.Of(Work, Review.Recheck, place, ExpectedOf(bike))
                is { Gears.IsEmpty: false } test
                ? test
                : null
            : null;

    private ImmutableArray<ExpectedGear> ExpectedOf(ComputedBike bike)
    {
        if (!ReferenceEquals(bike, expectedOf))
        {
            (expected, expectedOf) = (TestExpectations.Of(bike), bike);
        }
        return expected;
    }

    /// <summary>What it came to, or null when it was not done.</summary>
    internal StepResult? ResultAt(StepPlace place) => Work.Runs[place.Run].Results[place.Step];
}
