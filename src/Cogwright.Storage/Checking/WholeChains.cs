using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>The ends of whole chains, worked out from the entries alone: what the writer keeps up step by step.</summary>
internal static class WholeChains
{
    internal static HashSet<ChainTip> EndsOf(IEnumerable<Entry> entries)
    {
        var whole = new Dictionary<(DeviceId Device, long Sequence, Digest Hash), Entry>();
        var followed = new HashSet<(DeviceId Device, long Sequence, Digest Hash)>();
        foreach (var entry in entries.OrderBy(entry => entry.Sequence))
        {
            if (entry.Previous is { } previous)
            {
                var before = (entry.Device, entry.Sequence - 1, previous);
                if (!whole.ContainsKey(before))
                {
                    continue;
                }
                followed.Add(before);
            }
            whole.TryAdd((entry.Device, entry.Sequence, entry.Hash), entry);
        }
        return
        [
            .. whole
                .Where(each => !followed.Contains(each.Key))
                .Select(each => each.Value)
                .Select(entry => new ChainTip(entry.Device, entry.Sequence, entry.Id, entry.Hash)),
        ];
    }
}
