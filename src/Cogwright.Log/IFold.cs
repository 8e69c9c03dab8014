namespace Cogwright.Log;

/// <summary>
/// What a log means: a state made from its entries, one after the other. Pure: it depends on nothing but what is handed in,
/// and <typeparamref name="TState"/> is immutable, because states are kept and gone back to.
/// </summary>
public interface IFold<TState>
{
    /// <summary>The state of an empty log.</summary>
    TState Start { get; }

    /// <summary>The state after one more entry.</summary>
    /// <param name="state">The state before it.</param>
    /// <param name="entry">
    /// The entry, of whatever kind and version: one that is not understood leaves a trace in the state, so that a screen can
    /// say that it is there.
    /// </param>
    /// <param name="corrections">
    /// Which entries are corrected, also by entries that come later: a corrected one is most often passed over, its correction
    /// speaks in its place.
    /// </param>
    TState Apply(TState state, Entry entry, Corrections corrections);
}
