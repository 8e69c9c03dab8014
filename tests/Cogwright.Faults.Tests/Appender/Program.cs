using System.Globalization;
using System.Security.Cryptography;
using Cogwright.Faults;
using Cogwright.Log;
using Cogwright.Storage;

// Appends to a store until it is killed, and says of each entry that it was acknowledged: "log id" on a line of its own, after
// the store's answer and never before. Four devices at once: two in one log, two in logs of their own.
//
//   Cogwright.Faults.Appender <data folder> <folder of a store to warm up on>
//
//   Cogwright.Faults.Appender lock <database file>
//
//   Cogwright.Faults.Appender import <data folder> <how many parts>
//
// It is started ahead of time, does everything once on a store that nobody looks at, says "ready", and begins at a line on its
// input: so one can be killed while the next one is still starting.
if (args is ["lock", var path])
{
    LockedDatabase.HoldUntilTold(path);
    return;
}
if (args is ["import", var shop, var parts])
{
    await EndlessImport
        .RunAsync(shop, int.Parse(parts, CultureInfo.InvariantCulture))
        .ConfigureAwait(false);
    return;
}
await using (
    var scratch = await ShopStore.OpenAsync(new StoreOptions(args[1])).ConfigureAwait(false)
)
{
    await WriteAsync(scratch, NewLog(), 2, TextWriter.Null).ConfigureAwait(false);
}
Console.WriteLine("ready");
if (Console.ReadLine() is null)
{
    return;
}

// The input ends with whoever started it: nothing is appended for nobody.
_ = Task.Run(() =>
{
    while (Console.ReadLine() is not null) { }
    Environment.Exit(1);
});
var store = await ShopStore.OpenAsync(new StoreOptions(args[0])).ConfigureAwait(false);
LogId[] logs = [NewLog(), NewLog(), NewLog()];
var devices = Enumerable
    .Range(0, 4)
    .Select(device =>
        Task.Run(() => WriteAsync(store, logs[device / 2 + device % 2], int.MaxValue, Console.Out))
    );
await Task.WhenAll(devices).ConfigureAwait(false);

static async Task WriteAsync(ShopStore store, LogId id, int count, TextWriter output)
{
    var log = new EntryLog(id);
    var device = new DeviceId(Guid.CreateVersion7());
    EntryStamp? stamp = null;
    var chance = new byte[EntryId.RandomBytes];
    Entry? last = null;
    for (var i = 0; i < count; i++)
    {
        RandomNumberGenerator.Fill(chance);
        stamp = EntryStamp.Next(stamp?.Id, DateTime.UtcNow.Ticks, chance);
        var entry = log.Prepare(
            device,
            stamp,
            new EntryDraft("account:1", "note", 1, "{\"gapMm\":6.1}"u8.ToArray())
        ).Value!;
        log.Add(entry);
        // Each is sent once more with the next one, as after an answer that was lost.
        var answers = await store
            .AppendAsync(id, last is null ? [entry] : [last, entry])
            .ConfigureAwait(false);
        if (answers.Answers[^1].Status != AnswerStatus.Created)
        {
            throw new InvalidOperationException(answers.Answers[^1].ToString());
        }
        lock (output)
        {
            output.WriteLine($"{id} {entry.Id}");
            output.Flush();
        }
        last = entry;
    }
}

static LogId NewLog() => new(Guid.CreateVersion7());
