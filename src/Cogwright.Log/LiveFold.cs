namespace Cogwright.Log;

/// <summary>
/// The state of a log, kept up to date: entries at the end are applied to the last state; when one comes in earlier, or
/// corrects an earlier one, the fold goes back to the nearest state kept before that place. The result is that of
/// <see cref="EntryLog.Fold{TState}"/>, always.
/// </summary>
/// <param name="log">The log that it follows.</param>
/// <param name="fold">What the log means.</param>
public sealed class LiveFold<TState>(EntryLog log, IFold<TState> fold)
{
    // Going back costs at most this many entries more than needed; a log of 100 000 keeps 400 states.
    private const int EntriesBetweenStatesKept = 256;

    private readonly List<TState> kept = [];
    private TState last = fold.Start;
    private int length;
    private int entered;

    /// <summary>How many times an entry was applied, since the beginning; shows what going back has cost.</summary>
    internal long Applied { get; private set; }

    /// <summary>The state after all entries that are in the order now.</summary>
    public TState State
    {
        get
        {
            var unchanged = log.UnchangedSince(entered, length);
            entered = log.Count;
            if (unchanged < length)
            {
                GoBackTo(unchanged);
            }
            while (length < log.Count)
            {
                Step();
            }
            return last;
        }
    }

    private void GoBackTo(int unchanged)
    {
        var states = unchanged / EntriesBetweenStatesKept;
        kept.RemoveRange(states, kept.Count - states);
        length = states * EntriesBetweenStatesKept;
        last = states == 0 ? fold.Start : kept[states - 1];
    }

    private void Step()
    {
        last = fold.Apply(last, log[length], log.Corrections);
        length++;
        Applied++;
        if (length % EntriesBetweenStatesKept == 0)
        {
            kept.Add(last);
        }
    }
}
