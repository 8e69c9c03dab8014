using System.Collections.Immutable;
using Cogwright.Log;
using Cogwright.Measurement;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>What the log of a bike comes to. Immutable.</summary>
/// <param name="History">The changes of its spec.</param>
/// <param name="Labels">What was read off its parts and not taken away, in the log's order.</param>
/// <param name="Work">The jobs, what every step came to, and what happened in between.</param>
/// <param name="NotUnderstood">Entries of other kinds or later versions: kept, shown as there, passed on.</param>
public sealed record BikeState(
    BikeHistory History,
    ImmutableList<PartLabel> Labels,
    BikeWork Work,
    ImmutableList<EntryId> NotUnderstood
)
{
    /// <summary>The gauges of the shop, by their ids; a bike's log has none.</summary>
    public ImmutableSortedDictionary<string, ShopGauge> Gauges { get; init; } =
        ImmutableSortedDictionary.Create<string, ShopGauge>(StringComparer.Ordinal);

    /// <summary>The procedures of the shop's own, by their ids; a bike's log has none.</summary>
    public ImmutableSortedDictionary<string, ShopProcedure> Procedures { get; init; } =
        ImmutableSortedDictionary.Create<string, ShopProcedure>(StringComparer.Ordinal);
}

/// <summary>Reads the log of one bike.</summary>
public sealed class BikeFold : IFold<BikeState>
{
    private readonly JobFold jobs = new();

    // A fold goes back and comes again: a procedure is taken apart once.
    private readonly Dictionary<Digest, JobFact?> begun = [];

    /// <summary>A fold of its own.</summary>
    public BikeFold() => Start = new(BikeHistory.Empty, [], jobs.Start, []);

    /// <inheritdoc/>
    public BikeState Start { get; }

    /// <inheritdoc/>
    public BikeState Apply(BikeState state, Entry entry, Corrections corrections) =>
        corrections.IsCorrected(entry.Id) ? state
        : SpecEntry.Read(entry) is { } change ? WithChange(state, change, entry)
        : FactOf(entry) is { } fact ? state with { Work = jobs.Apply(state.Work, fact) }
        : LabelEntry.Read(entry) is { } label ? state with { Labels = state.Labels.Add(label) }
        : GaugeEntry.Read(entry) is { } gauge
            ? state with
            {
                Gauges = state.Gauges.SetItem(gauge.Id, gauge),
            }
        : ProcedureEntry.Read(entry) is { } procedure
            ? state with
            {
                Procedures = state.Procedures.SetItem(procedure.Id, procedure),
            }
        // What it takes away is passed over above, whether it stands before or after.
        : LabelEntry.IsRemoval(entry) || JobEntry.IsTakeBack(entry) ? state
        : state with { NotUnderstood = state.NotUnderstood.Add(entry.Id) };

    private JobFact? FactOf(Entry entry)
    {
        if (entry.Kind != JobEntry.ProcedureKind)
        {
            return JobEntry.Read(entry);
        }
        if (!begun.TryGetValue(entry.Hash, out var fact))
        {
            begun[entry.Hash] = fact = JobEntry.Read(entry);
        }
        return fact;
    }

    /// <summary>What was worked out from figures that are others now is to be looked at again.</summary>
    private BikeState WithChange(BikeState state, SpecChange change, Entry entry)
    {
        var parts = ChangedParts.Of(change);
        return state with
        {
            History = state.History.With(change),
            // The bike as it came in is no change.
            Work =
                parts.IsEmpty || state.Work.Runs.IsEmpty
                    ? state.Work
                    : jobs.Apply(
                        state.Work,
                        new FiguresChanged(
                            new(entry.Id.ToString(), entry.WallClockTicks, entry.Author),
                            parts
                        )
                    ),
        };
    }
}

/// <summary>What an entry of a bike's log sets: the paths of its fields, or the step that was done.</summary>
public sealed class BikeSubjects : ISubjectReader
{
    /// <inheritdoc/>
    public IEnumerable<string> SubjectsOf(Entry entry) =>
        SpecEntry.Read(entry)?.Fields.Keys
        ?? (JobEntry.StepOf(entry) is { } step ? [step] : Enumerable.Empty<string>());
}
