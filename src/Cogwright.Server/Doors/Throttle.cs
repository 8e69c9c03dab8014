namespace Cogwright.Server;

/// <summary>
/// Slows down guessing: so many wrong tries are free, each one after that makes the next wait twice as long. Counts are this
/// server's own and are forgotten when it stops.
/// </summary>
/// <param name="clock">The clock.</param>
/// <param name="free">How many wrong tries are free.</param>
internal sealed class Throttle(TimeProvider clock, int free)
{
    // A wait long enough that 10 000 PINs take weeks, and short enough that a mechanic is not sent home.
    private static readonly TimeSpan First = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(15);

    /// <summary>After so long without a try, everything is forgiven.</summary>
    internal static readonly TimeSpan Forgotten = TimeSpan.FromHours(6);

    // What somebody who tries names at random can cost in memory.
    private const int MostKeys = 20_000;

    private readonly Dictionary<string, (int Wrong, DateTimeOffset Last)> tries = [];
    private readonly Lock gate = new();

    /// <summary>Counts a try as wrong before it is looked at, so that tries side by side count too.</summary>
    /// <returns>How long to wait; null: it may be looked at.</returns>
    internal TimeSpan? Begin(string key)
    {
        var now = clock.GetUtcNow();
        lock (gate)
        {
            var (wrong, last) = tries.GetValueOrDefault(key);
            if (wrong > 0 && now - last >= Forgotten)
            {
                wrong = 0;
            }
            if (wrong >= free && last + WaitAfter(wrong) - now is { Ticks: > 0 } left)
            {
                return left;
            }
            MakeRoom(key, now);
            tries[key] = (wrong + 1, now);
            return null;
        }
    }

    /// <summary>The try was right.</summary>
    internal void Forgive(string key)
    {
        lock (gate)
        {
            tries.Remove(key);
        }
    }

    private TimeSpan WaitAfter(int wrong) =>
        // Doubling stops long before it overflows.
        TimeSpan.FromTicks(Math.Min(First.Ticks << Math.Min(wrong - free, 20), Longest.Ticks));

    private void MakeRoom(string key, DateTimeOffset now)
    {
        if (tries.Count < MostKeys || tries.ContainsKey(key))
        {
            return;
        }
        foreach (var old in tries.Where(each => now - each.Value.Last >= Forgotten).ToList())
        {
            tries.Remove(old.Key);
        }
        if (tries.Count >= MostKeys)
        {
            tries.Remove(tries.MinBy(each => each.Value.Last).Key);
        }
    }
}
