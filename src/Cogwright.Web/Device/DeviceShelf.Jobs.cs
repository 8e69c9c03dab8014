using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Cogwright.Care;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Measurement;
using Cogwright.Setup.Jobs;

namespace Cogwright.Web.Device;

/// <content>The work on a bike.</content>
internal sealed partial class DeviceShelf
{
    private static readonly CareFacts NoCare = new();
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

    /// <summary>The ends of a bike's log: whoever has them can tell whether anything before was taken out or changed.</summary>
    internal ImmutableArray<string> HeadsOf(string? id) =>
        BikeOf(id)?.Log is { } log
            ? [.. log.Heads.Select(head => log.Find(head)!.Hash.ToString())]
            : [];

    /// <summary>Steps of a bike that devices did without having seen one another.</summary>
    internal ImmutableArray<StepConflict> StepConflictsOf(string? id) =>
        BikeOf(id)?.StepConflicts(Device) ?? [];

    /// <summary>Takes somebody's words down beside the log; they and the entry that names them are on the device when this ends.</summary>
    /// <param name="log">The bike.</param>
    /// <param name="job">The job.</param>
    /// <param name="what">One of <see cref="PersonalWords"/>.</param>
    /// <param name="words">The words; empty: those that were taken down are not in force any more.</param>
    internal Task AddWordsAsync(LogId log, string job, string what, string words)
    {
        if (words.Length == 0)
        {
            return AppendAsync(log, JobEntry.Words(job, what, null));
        }
        var datum = new PersonalDatum(
            RandomNumberGenerator.GetBytes(PersonalDatum.SaltBytes),
            Encoding.UTF8.GetBytes(words)
        );
        return AppendAsync(
            log,
            JobEntry.Words(job, what, datum.Digest),
            photo: PhotoRow.Of(log, datum, "text/plain")
        );
    }

    /// <summary>The gauges of the shop, by name, those that are not used any more last; none before <see cref="OpenShopAsync"/>.</summary>
    internal ImmutableArray<ShopGauge> Gauges =>
        open.GetValueOrDefault(ShopLog.Id) is { } shop
            ?
            [
                .. shop
                    .State.Gauges.Values.OrderBy(gauge => gauge.IsRetired)
                    .ThenBy(gauge => gauge.Name, StringComparer.OrdinalIgnoreCase),
            ]
            : [];

    /// <summary>The procedures of the shop's own, those that are not used any more last; none before <see cref="OpenShopAsync"/>.</summary>
    internal ImmutableArray<ShopProcedure> Procedures =>
        open.GetValueOrDefault(ShopLog.Id) is { } shop
            ? [.. shop.State.Procedures.Values.OrderBy(procedure => procedure.IsRetired)]
            : [];

    /// <summary>Sets the whole text of a procedure; it is on the device when this ends.</summary>
    /// <param name="procedure">The procedure; without an id it is a new one.</param>
    internal Task SetProcedureAsync(ShopProcedure procedure) =>
        AppendAsync(ShopLog.Id, ProcedureEntry.Draft(procedure), Texts.Get("procedures.title"));

    /// <summary>Reads what the shop has of its own.</summary>
    internal async Task OpenShopAsync()
    {
        await ReadyAsync().ConfigureAwait(true);
        await (catchingUp ?? Task.CompletedTask).ConfigureAwait(true);
        await LoadAsync(ShopLog.Id).ConfigureAwait(true);
    }

    /// <summary>Sets all of a gauge; it is on the device when this ends.</summary>
    /// <param name="gauge">The gauge; without an id it is a new one.</param>
    internal Task SetGaugeAsync(ShopGauge gauge) =>
        AppendAsync(ShopLog.Id, GaugeEntry.Draft(gauge), Texts.Get("gauges.title"));

    /// <summary>The wear and care of a bike as its log tells it, without the number of its cogs; nothing of a bike that is not open.</summary>
    internal CareFacts CareOf(string? id) => BikeOf(id)?.State.Care ?? NoCare;

    /// <summary>What falls due on a bike with what its jobs say of the first check.</summary>
    internal ImmutableArray<DueItem> WithJobs(
        string? id,
        ImmutableArray<DueItem> due,
        DateOnly today
    ) => BikeOf(id) is { } bike ? BikeCare.WithJobs(due, bike.State, today) : due;

    /// <summary>The shop's limits and intervals; common practice before <see cref="OpenShopAsync"/>.</summary>
    internal CareTable CareTable =>
        open.GetValueOrDefault(ShopLog.Id)?.State.CareTable ?? CareTable.CommonPractice;

    /// <summary>Sets all of the shop's own limits and intervals; they are on the device when this ends.</summary>
    /// <param name="table">The table.</param>
    internal Task SetCareTableAsync(CareTable table) =>
        AppendAsync(ShopLog.Id, CareEntry.Draft(table), Texts.Get("care.limits"));

    /// <summary>Takes a fact back with a later entry; both stay in the log.</summary>
    /// <param name="log">The bike.</param>
    /// <param name="id">The entry that was a mistake.</param>
    /// <param name="reason">Why, in somebody's words.</param>
    internal Task TakeFactBackAsync(LogId log, EntryId id, string reason) =>
        AppendAsync(log, JobEntry.TakeBack(id, reason));
}
