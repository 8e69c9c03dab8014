using System.Collections.Concurrent;
using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;

namespace Cogwright.Faults.Tests;

/// <summary>PostgreSQL itself is stopped as if by a power cut to its processes, while two servers write.</summary>
public sealed class PostgresKillTests
{
    [Fact]
    public async Task Postgres_RestartedWhileTheStoreIdles_IsWrittenToAsIfNothingHadBeen()
    {
        await using var server = PostgresServer.Start();
        var options = new StoreOptions(Path.GetTempPath())
        {
            // The driver looks after an idle connection each second, and so finds it broken before the store uses it.
            ConnectionString = server.NewDatabase() + ";Keepalive=1",
        };
        await using var store = await ShopStore.OpenAsync(options);
        var bench = new Bench(1, Bench.Job(1));
        var datum = new PersonalDatum(
            new byte[PersonalDatum.SaltBytes],
            "Ada Invented"u8.ToArray()
        );
        await store.AppendAsync(bench.Log.Id, [bench.Write()]);
        await store.PutPersonalAsync(bench.Log.Id, datum, "text/plain");

        server.Kill();
        server.Resume();
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        while (store.IsWriterConnected)
        {
            patience.Token.ThrowIfCancellationRequested();
            await Task.Yield();
        }
        var page = await store.AppendAsync(bench.Log.Id, [bench.Write()]);
        var erased = await store.EraseAsync(bench.Log.Id, datum.Digest);

        Assert.Equal(AnswerStatus.Created, page.Answers[0].Status);
        Assert.True(erased.WasHere);
    }

    [Fact]
    public async Task Postgres_RestartedUnnoticedByTheDriver_IsWrittenToInOrderOnce()
    {
        await using var server = PostgresServer.Start();
        var options = new StoreOptions(Path.GetTempPath())
        {
            ConnectionString = server.NewDatabase(),
        };
        await using var store = await ShopStore.OpenAsync(options);
        var bench = new Bench(1, Bench.Job(1));
        var sent = bench.WriteMany(41);
        await store.AppendAsync(bench.Log.Id, [sent[0]]);

        for (var restart = 0; restart < 2; restart++)
        {
            server.Kill();
            server.Resume();
            // At once: the driver looks after an idle connection only every few seconds.
            var pages = await Task.WhenAll(
                sent.Skip(1 + (20 * restart))
                    .Take(20)
                    .Select(entry => store.AppendAsync(bench.Log.Id, [entry]))
            );
            Assert.All(pages, page => Assert.Equal(AnswerStatus.Created, page.Answers[0].Status));
        }

        var held = await store.PullAsync(bench.Log.Id, PullCursor.Start);
        Assert.Equal(sent, held.Entries);
        Assert.Empty((await store.CheckAsync()).Findings);
    }

    [Fact]
    public async Task Postgres_KilledWhileTwoServersAppend_LosesAndDoublesNothingAcknowledged()
    {
        await using var server = PostgresServer.Start();
        var options = new StoreOptions(Path.GetTempPath())
        {
            ConnectionString = server.NewDatabase(),
        };
        await using var here = await ShopStore.OpenAsync(options);
        await using var there = await ShopStore.OpenAsync(options);
        ShopStore[] stores = [here, there];
        var acknowledged = new ConcurrentDictionary<EntryId, bool>();
        var goesOn = true;
        var faults = 0;
        var writing = Enumerable
            .Range(1, 8)
            .Select(device =>
                Task.Run(async () =>
                {
                    var bench = new Bench(device, Bench.Job(device % 3));
                    while (Volatile.Read(ref goesOn))
                    {
                        var entry = bench.Write();
                        // As a device does: sent until it is acknowledged.
                        while (!acknowledged.ContainsKey(entry.Id))
                        {
                            try
                            {
                                var page = await stores[device % 2]
                                    .AppendAsync(bench.Log.Id, [entry]);
                                Assert.NotEqual(AnswerStatus.Refused, page.Answers[0].Status);
                                acknowledged[entry.Id] = true;
                            }
                            catch (StoreFaultException e)
                                when (e.Fault.Kind == StoreFaultKind.Unreachable)
                            {
                                Interlocked.Increment(ref faults);
                                await Task.Yield();
                            }
                        }
                    }
                })
            )
            .ToArray();

        for (var kill = 0; kill < Campaign.Of(4, 25); kill++)
        {
            var reached = acknowledged.Count + 50;
            while (acknowledged.Count < reached && !writing.Any(each => each.IsFaulted))
            {
                await Task.Yield();
            }
            server.Kill();
            server.Resume();
        }
        Volatile.Write(ref goesOn, false);
        await Task.WhenAll(writing);
        var report = await here.CheckAsync();
        var held = new List<EntryId>();
        foreach (var log in await there.LogsAsync())
        {
            held.AddRange((await there.LoadAsync(log.Log)).Ordered.Select(entry => entry.Id));
        }

        Assert.True(faults > 0);
        Assert.Empty(report.Findings);
        Assert.Equal(held.Count, held.Distinct().Count());
        Assert.Empty(acknowledged.Keys.Except(held));
    }
}
