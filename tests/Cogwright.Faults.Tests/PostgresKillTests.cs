using System.Collections.Concurrent;
using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;

namespace Cogwright.Faults.Tests;

/// <summary>PostgreSQL itself is stopped as if by a power cut to its processes, while two servers write.</summary>
public sealed class PostgresKillTests
{
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
