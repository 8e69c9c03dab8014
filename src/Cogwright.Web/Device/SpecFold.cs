using System.Collections.Immutable;
using Cogwright.Log;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.Device;

/// <summary>What the log of a bike comes to. Immutable.</summary>
/// <param name="History">The changes of its spec.</param>
/// <param name="Labels">What was read off its parts and not taken away, in the log's order.</param>
/// <param name="NotUnderstood">Entries of other kinds or later versions: kept, shown as there, passed on.</param>
internal sealed record BikeState(
    BikeHistory History,
    ImmutableList<PartLabel> Labels,
    ImmutableList<EntryId> NotUnderstood
);

/// <summary>Reads the log of a bike.</summary>
internal sealed class SpecFold : IFold<BikeState>
{
    /// <inheritdoc/>
    public BikeState Start { get; } = new(BikeHistory.Empty, [], []);

    /// <inheritdoc/>
    public BikeState Apply(BikeState state, Entry entry, Corrections corrections) =>
        corrections.IsCorrected(entry.Id) ? state
        : SpecEntry.Read(entry) is { } change ? state with { History = state.History.With(change) }
        : LabelEntry.Read(entry) is { } label ? state with { Labels = state.Labels.Add(label) }
        // What it takes away is passed over above, whether it stands before or after.
        : LabelEntry.IsRemoval(entry) ? state
        : state with { NotUnderstood = state.NotUnderstood.Add(entry.Id) };
}

/// <summary>What an entry of a bike's log sets: the paths of its fields.</summary>
internal sealed class SpecSubjects : ISubjectReader
{
    /// <inheritdoc/>
    public IEnumerable<string> SubjectsOf(Entry entry) => SpecEntry.Read(entry)?.Fields.Keys ?? [];
}
