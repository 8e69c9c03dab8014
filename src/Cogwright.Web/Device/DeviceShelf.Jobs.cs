using Cogwright.Log;
using Cogwright.Setup.Jobs;

namespace Cogwright.Web.Device;

/// <content>The work on a bike.</content>
internal sealed partial class DeviceShelf
{
    private static readonly BikeWork NoWork = new JobFold().Start;

    /// <summary>The work on a bike as its log tells it; none of a bike that is not open.</summary>
    internal BikeWork WorkOf(string? id) => BikeOf(id)?.State.Work ?? NoWork;

    /// <summary>Adds a fact to the work on a bike; it is on the device when this ends.</summary>
    /// <param name="log">The bike.</param>
    /// <param name="fact">The fact, by <see cref="JobEntry"/>.</param>
    /// <returns>The entry's id: that of a job or a run which begins with it.</returns>
    internal async Task<string> AddFactAsync(LogId log, EntryDraft fact)
    {
        var bike = await AppendAsync(log, fact).ConfigureAwait(true);
        return bike.Log[^1].Id.ToString();
    }

    /// <summary>Takes a fact back with a later entry; both stay in the log.</summary>
    /// <param name="log">The bike.</param>
    /// <param name="id">The entry that was a mistake.</param>
    /// <param name="reason">Why, in somebody's words.</param>
    internal Task TakeFactBackAsync(LogId log, EntryId id, string reason) =>
        AppendAsync(log, JobEntry.TakeBack(id, reason));
}
