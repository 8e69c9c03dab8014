using System.Collections.Concurrent;
using System.Security.Cryptography;
using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;

namespace Cogwright.Faults.Tests;

/// <summary>A backup is made while fifty clients write, and restored elsewhere.</summary>
public sealed class BackupDrillTests
{
    [Fact]
    public Task Drill_OnSqlite_RestoresEverythingAcknowledgedBefore() => DrillAsync(() => null);

    [Fact]
    public async Task Drill_OnPostgres_RestoresEverythingAcknowledgedBefore()
    {
        await using var server = PostgresServer.Start();
        await DrillAsync(() => server.NewDatabase());
    }

    private static async Task DrillAsync(Func<string?> database)
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-drill-").FullName;
        var options = new StoreOptions(Path.Combine(folder, "shop"))
        {
            ConnectionString = database(),
        };
        var elsewhere = new StoreOptions(Path.Combine(folder, "elsewhere"))
        {
            ConnectionString = database(),
        };
        var backup = Path.Combine(folder, "backup");
        var acknowledged = new ConcurrentDictionary<EntryId, bool>();
        EntryId[] before;
        BackupManifest manifest;
        var photos = new List<Digest>();
        await using (var store = await ShopStore.OpenAsync(options))
        {
            for (var photo = 0; photo < 8; photo++)
            {
                var datum = new PersonalDatum(
                    RandomNumberGenerator.GetBytes(PersonalDatum.SaltBytes),
                    RandomNumberGenerator.GetBytes(1024 * 1024)
                );
                await store.PutPersonalAsync(Bench.Job(1), datum, "image/jpeg");
                photos.Add(datum.Digest);
            }
            var goesOn = true;
            var writing = Enumerable
                .Range(1, 50)
                .Select(device =>
                    Task.Run(async () =>
                    {
                        var bench = new Bench(device, Bench.Job(device % 10));
                        while (Volatile.Read(ref goesOn))
                        {
                            var entry = bench.Write();
                            await store.AppendAsync(bench.Log.Id, [entry]);
                            acknowledged[entry.Id] = true;
                        }
                    })
                )
                .ToArray();
            while (acknowledged.Count < 500 && !writing.Any(each => each.IsFaulted))
            {
                await Task.Yield();
            }
            before = [.. acknowledged.Keys];
            manifest = await store.BackupAsync(backup);
            Volatile.Write(ref goesOn, false);
            await Task.WhenAll(writing);
        }

        var plan = await Restore.PlanAsync(backup, elsewhere);
        var report = await Restore.RunAsync(plan, replace: false);
        await using var restored = await ShopStore.OpenAsync(elsewhere);
        var held = new HashSet<EntryId>();
        foreach (var log in await restored.LogsAsync())
        {
            var loaded = await restored.LoadAsync(log.Log);
            Assert.Equal(0, loaded.WaitingCount);
            held.UnionWith(loaded.Ordered.Select(entry => entry.Id));
        }

        Assert.Empty(report.Check.Findings);
        Assert.Empty(before.Except(held));
        Assert.Equal(manifest.Counts.Entries, held.Count);
        Assert.Equal([.. photos.Order()], (await restored.PersonalOfAsync(Bench.Job(1))).Held);
        await restored.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }
}
