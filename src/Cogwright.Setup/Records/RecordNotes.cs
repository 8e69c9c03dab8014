using System.Collections.Immutable;
using Cogwright.Setup.Jobs;

namespace Cogwright.Setup.Records;

/// <summary>
/// What the state of the work does not keep and a record tells: why a step was done again, and who had the job in hand when
/// somebody answered for a result. Noted while the facts are gone through, before each is applied. Immutable.
/// </summary>
public sealed record RecordNotes
{
    /// <summary>Why a step was done again, by the fact that says it was.</summary>
    public ImmutableDictionary<string, ImmutableArray<string>> Again { get; init; } =
        ImmutableDictionary.Create<string, ImmutableArray<string>>(StringComparer.Ordinal);

    /// <summary>Whose sign stood for a fact, by the fact; empty signs are left out.</summary>
    public ImmutableDictionary<string, string> Signs { get; init; } =
        ImmutableDictionary.Create<string, string>(StringComparer.Ordinal);

    /// <summary>The job that was open and begun last when something happened to the bike, by the fact that says it did.</summary>
    public ImmutableDictionary<string, string> JobOf { get; init; } =
        ImmutableDictionary.Create<string, string>(StringComparer.Ordinal);

    /// <summary>The notes with what a fact says.</summary>
    /// <param name="before">The state before the fact.</param>
    /// <param name="fact">The fact.</param>
    public RecordNotes With(BikeWork before, JobFact fact)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(fact);
        return fact switch
        {
            StepDone done when PlaceOf(before, done.Run, done.Step) is { } place => Done(
                before,
                done,
                place
            ),
            ResultExcepted excepted when before.IndexOfRun(excepted.Run) is >= 0 and var run =>
                Signed(before, fact, before.Runs[run].Job),
            JobClosed closed => Signed(before, fact, closed.Job),
            ChangeMade when before.Jobs.LastOrDefault(job => !job.IsClosed) is { } open => Signed(
                before,
                fact,
                open.Id
            ) with
            {
                JobOf = JobOf.SetItem(fact.Id, open.Id),
            },
            _ => this,
        };
    }

    private RecordNotes Done(BikeWork before, StepDone done, StepPlace place)
    {
        var run = before.Runs[place.Run];
        if (run.Results[place.Step] is not { } earlier)
        {
            return this;
        }
        var review = new JobReview(before);
        // A doubt without words of its own is no absence of doubt.
        var why =
            review.Recheck.MarkOf(place.Run, place.Step) is not { } mark
                ? [Texts.Get(earlier.IsGood ? "record.again.asked" : "record.again.notGood")]
            : RecordWords.Why(mark, review, before) is { IsEmpty: false } words ? words
            : [Texts.Get("record.again.unknown")];
        return this with { Again = Again.SetItem(done.Id, why) };
    }

    private RecordNotes Signed(BikeWork before, JobFact fact, string? job) =>
        job is not null && before.Job(job) is { InHandsOf.Length: > 0 } of
            ? this with
            {
                Signs = Signs.SetItem(fact.Id, of.InHandsOf),
            }
            : this;

    private static StepPlace? PlaceOf(BikeWork work, string run, string step)
    {
        var index = work.IndexOfRun(run);
        return index >= 0 && work.Runs[index].Numbered.ById.TryGetValue(step, out var at)
            ? new(index, at)
            : null;
    }
}
