using System.Collections.Immutable;
using Cogwright.Care;
using Cogwright.Log;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>
/// A bike's log in memory with what its jobs come to as a list of many shows them. Takes in entries in whatever order they come.
/// For one thread.
/// </summary>
public sealed class JobListings
{
    private readonly LiveFold<State> fold;

    /// <summary>An empty log.</summary>
    /// <param name="log">Its id.</param>
    public JobListings(LogId log)
    {
        Log = new EntryLog(log);
        fold = new(Log, new Fold());
    }

    /// <summary>The entries.</summary>
    public EntryLog Log { get; }

    /// <summary>The limits and intervals that the log sets: the shop's own does, in a bike's they are common practice.</summary>
    public CareTable CareTable => fold.State.Bike.CareTable;

    /// <summary>
    /// Its jobs, oldest first, and after them the bike itself when no job was begun or its wear makes something due; nothing for a
    /// log that is no bike's (the shop's own, or one in which nothing is understood).
    /// </summary>
    /// <param name="table">The shop's limits and intervals.</param>
    public ImmutableArray<JobListing> Jobs(CareTable table)
    {
        var (bike, notes) = fold.State;
        if (
            Log.Id == ShopLog.Id
            || (
                bike.History.Changes.IsEmpty
                && bike.Work.Jobs.IsEmpty
                && bike.Labels.IsEmpty
                && bike.Care.Chains.IsEmpty
                && bike.Care.Parts.IsEmpty
            )
        )
        {
            return [];
        }
        var name = bike.History.Sheet["name"] ?? "";
        ImmutableArray<string> ofBike =
        [
            name,
            .. bike.Labels.SelectMany(label => (string[])[label.Serial, label.Words]),
        ];
        var review = bike.Work.Jobs.Any(job => !job.IsClosed) ? new JobReview(bike.Work) : null;
        ImmutableArray<JobListing> jobs =
        [
            .. bike.Work.Jobs.Select(
                (job, i) =>
                    Of(
                        bike.Work,
                        review,
                        (name, ofBike),
                        notes.GetValueOrDefault(job.Id, Notes.None),
                        i
                    )
            ),
        ];
        // The day alone is told, which does not depend on the day on which it is asked.
        var due = BikeCare
            .WithoutTold(CareDue.Of(BikeCare.FactsOf(bike), table, DateOnly.MinValue), bike)
            .Where(item => item.Day is not null)
            .MinBy(item => item.Day);
        return jobs.IsEmpty || due is not null
            ? jobs.Add(
                new("", name)
                {
                    // With jobs on it, a bike is found by them.
                    Texts = jobs.IsEmpty ? ofBike : [],
                    LastTicks = Log.Ordered.Max(entry => entry.WallClockTicks),
                    StageSeconds = Seconds(JobTimes.None),
                    DueOn = due?.Day,
                    Due = due?.Kind,
                }
            )
            : jobs;
    }

    private static JobListing Of(
        BikeWork work,
        JobReview? review,
        (string Name, ImmutableArray<string> Texts) bike,
        Notes notes,
        int index
    )
    {
        var job = work.Jobs[index];
        var runs = work.Runs.Where(run => run.Job == job.Id).ToList();
        return new(job.Id, bike.Name)
        {
            Title = job.Title,
            Kind = job.Intake.GetValueOrDefault(IntakeFields.Kind, ""),
            Stage = job.Stage,
            InHandsOf = job.InHandsOf,
            Waits =
                job.IsClosed ? ""
                : job.Intake.GetValueOrDefault(IntakeFields.Inspection) == IntakeFields.NoGo
                    ? JobWaits.NoGo
                : runs.Count > 0 && review!.OpenOf(job.Id).IsEmpty ? JobWaits.Handover
                : job.InHandsOf.Length == 0 ? JobWaits.Hands
                : JobWaits.Work,
            BegunTicks = job.UtcTicks,
            LastTicks = Math.Max(job.UtcTicks, notes.Times.LastTicks),
            ClosedTicks = job.ClosedUtcTicks,
            DueOn = job.AwaitsCheck ? job.FirstCheck : null,
            Due = job.AwaitsCheck ? CareKind.FirstCheck : null,
            Cause = job.Comeback?.Cause ?? "",
            ComebackOf = job.Comeback?.Of ?? "",
            StageSeconds = Seconds(notes.Times),
            PauseSeconds = notes.Times.PauseTicks / TimeSpan.TicksPerSecond,
            Texts =
            [
                .. bike.Texts,
                job.Title,
                .. job.Intake.Values,
                .. job.Hands.SelectMany(hands => (string[])[hands.By, hands.Note]),
                .. runs.Select(run => run.Procedure.Title),
                .. job.Amendments.SelectMany(added => (string[])[added.By, added.Text]),
                .. notes.Texts,
            ],
            Said = [.. job.Words.Values],
        };
    }

    private static ImmutableArray<long> Seconds(JobTimes times) =>
        [.. times.WorkedTicks.Select(ticks => ticks / TimeSpan.TicksPerSecond)];

    /// <summary>What a list wants of a job's entries and their fold does not keep.</summary>
    private sealed record Notes(JobTimes Times, ImmutableList<string> Texts)
    {
        internal static Notes None { get; } = new(JobTimes.None, []);
    }

    private sealed record State(BikeState Bike, ImmutableDictionary<string, Notes> OfJobs);

    private sealed class Fold : IFold<State>
    {
        // What was written of a job in somebody's words, by the names in its entries.
        private static readonly string[] Words = ["note", "reason"];

        private readonly BikeFold bikes = new();

        public Fold() =>
            Start = new(
                bikes.Start,
                ImmutableDictionary.Create<string, Notes>(StringComparer.Ordinal)
            );

        public State Start { get; }

        public State Apply(State state, Entry entry, Corrections corrections)
        {
            var bike = bikes.Apply(state.Bike, entry, corrections);
            if (corrections.IsCorrected(entry.Id) || Said(entry) is not { } said)
            {
                return state with { Bike = bike };
            }
            // Of a job: it says so, or its run does. Of the bike: then of the job that is open.
            var job =
                bike.Work.Job(said.Job)
                ?? (
                    bike.Work.Runs.FirstOrDefault(run => run.Id == said.Run) is { } run
                        ? bike.Work.Job(run.Job)
                    : said.IsOfBike ? bike.Work.Jobs.LastOrDefault(each => !each.IsClosed)
                    : null
                );
            if (job is null)
            {
                return state with { Bike = bike };
            }
            var notes = state.OfJobs.GetValueOrDefault(job.Id, Notes.None);
            return new(
                bike,
                state.OfJobs.SetItem(
                    job.Id,
                    new(
                        notes.Times.With(
                            state.Bike.Work.Job(job.Id)?.Stage ?? JobStage.Intake,
                            entry.WallClockTicks
                        ),
                        notes.Texts.AddRange(said.Texts)
                    )
                )
            );
        }

        private static Said? Said(Entry entry) =>
            entry.Kind.StartsWith("job.", StringComparison.Ordinal)
                ? EntryBody.Read(
                    entry,
                    entry.Kind,
                    JobEntry.Version,
                    body => new Said(
                        entry.Kind == "job.begin"
                            ? entry.Id.ToString()
                            : EntryBody.TextOf(body, "job") ?? "",
                        EntryBody.TextOf(body, "run") ?? "",
                        entry.Kind is "job.condition" or "job.change",
                        [.. Words.Select(name => EntryBody.TextOf(body, name)).OfType<string>()]
                    )
                )
                : null;
    }

    private sealed record Said(string Job, string Run, bool IsOfBike, ImmutableArray<string> Texts);
}
