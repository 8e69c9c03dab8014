using Cogwright.Facts;
using Cogwright.Parts;

namespace Cogwright.Web.Bikes;

/// <summary>Summaries kept as long as their bikes do not change: choosing a chain takes a moment, and the list is looked at often.</summary>
internal sealed class BikeSummaries
{
    private readonly Dictionary<string, (int Changes, BikeSummary Summary)> kept = [];

    /// <summary>The summary if it was made already.</summary>
    internal BikeSummary? Find(string id, BikeHistory history) =>
        kept.TryGetValue(id, out var found) && found.Changes == history.Changes.Count
            ? found.Summary
            : null;

    /// <summary>The summary, made when it is not there.</summary>
    internal BikeSummary Of(string id, BikeHistory history, PartLibrary? parts = null)
    {
        if (Find(id, history) is { } found)
        {
            return found;
        }
        var made = BikeSummary.Of(history, parts);
        kept[id] = (history.Changes.Count, made);
        return made;
    }
}
