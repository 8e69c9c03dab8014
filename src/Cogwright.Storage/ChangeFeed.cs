using System.Collections.Concurrent;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Hands what has changed to all who watch. Each gets a log once, with its last number, however slow it is.</summary>
internal sealed class ChangeFeed
{
    private readonly ConcurrentDictionary<ChangeWatch, bool> watches = [];
    private readonly ConcurrentDictionary<LogId, long> known = [];

    /// <summary>Says that a log has come to a number. A number that is known already says nothing.</summary>
    internal void Publish(LogId log, long receipt)
    {
        while (true)
        {
            var before = known.GetOrAdd(log, 0);
            if (receipt <= before)
            {
                return;
            }
            if (known.TryUpdate(log, receipt, before))
            {
                break;
            }
        }
        foreach (var watch in watches.Keys)
        {
            watch.Offer(log, receipt);
        }
    }

    internal ChangeWatch Watch()
    {
        var watch = new ChangeWatch(each => watches.TryRemove(each, out _));
        watches.TryAdd(watch, true);
        return watch;
    }

    internal void Complete()
    {
        foreach (var watch in watches.Keys)
        {
            watch.Dispose();
        }
    }
}
