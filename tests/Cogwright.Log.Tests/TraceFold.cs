namespace Cogwright.Log.Tests;

/// <summary>What was applied so far: how many entries, and a number that every entry, its place and its standing change.</summary>
internal sealed record Trace(int Count, ulong Mix);

/// <summary>A fold that notices any difference: an entry left out, doubled, moved, or corrected elsewhere.</summary>
internal sealed class TraceFold : IFold<Trace>
{
    public Trace Start { get; } = new(0, 17);

    public Trace Apply(Trace state, Entry entry, Corrections corrections) =>
        Apply(state, entry, corrections.IsCorrected(entry.Id));

    internal static Trace Apply(Trace state, Entry entry, bool isCorrected)
    {
        var mix = (state.Mix * 6364136223846793005) + (uint)entry.Hash.GetHashCode();
        return new Trace(state.Count + 1, isCorrected ? mix ^ 0x5555 : mix);
    }
}
