using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Setup.Jobs;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>The hours that the shop plans for each kind of work: its own, and common practice where it has set none.</summary>
internal static class WorkPlan
{
    /// <summary>Nobody plans a longer one (h).</summary>
    internal const double MostHours = 200;

    private const string Setting = "overview.plan";

    /// <summary>The plan.</summary>
    internal static async Task<ImmutableArray<PlannedWork>> ReadAsync(ShopStore store)
    {
        var set = await OwnAsync(store).ConfigureAwait(false);
        return
        [
            .. WorkKinds.All.Select(kind =>
                set.TryGetValue(kind.Name, out var hours)
                    ? new PlannedWork(kind.Name, hours, true)
                    : new PlannedWork(kind.Name, kind.PlannedHours, false)
            ),
        ];
    }

    /// <summary>Sets the hours of one kind; null: common practice again.</summary>
    internal static async Task SetAsync(ShopStore store, string kind, double? hours, long nowTicks)
    {
        var set = await OwnAsync(store).ConfigureAwait(false);
        set.Remove(kind);
        if (hours is { } own)
        {
            set.Add(kind, own);
        }
        await Settings
            .SetAsync(store, Setting, JsonSerializer.Serialize(set), nowTicks)
            .ConfigureAwait(false);
    }

    private static async Task<SortedDictionary<string, double>> OwnAsync(ShopStore store) =>
        await Settings.FindAsync(store, Setting).ConfigureAwait(false) is { } text
            ? JsonSerializer.Deserialize<SortedDictionary<string, double>>(text)!
            : [];
}

/// <summary>The hours planned for one kind of work.</summary>
/// <param name="Kind">Its stable name.</param>
/// <param name="Hours">Time at the bike (h).</param>
/// <param name="IsOwn">Whether the shop has set it; if not, it is common practice.</param>
internal sealed record PlannedWork(string Kind, double Hours, bool IsOwn);
