using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;
using Microsoft.Data.Sqlite;

namespace Cogwright.Faults.Tests;

/// <summary>Alone, so that the figures are of the store and not of other tests.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;

/// <summary>Fifty clients write at once, each waiting for its answer. Figures go to artifacts/reports/load.txt; none is asserted.</summary>
[Collection(nameof(Alone))]
public sealed class LoadTests
{
    private const int Clients = 50;

    private static readonly TimeSpan Length = TimeSpan.FromSeconds(Campaign.Of(10, 60));

    // One client needs no longer to show what it does.
    private static readonly TimeSpan RawLength = TimeSpan.FromSeconds(3);

    [Fact]
    public async Task FiftyClients_OnBothDatabases_LoseNothing()
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-load-").FullName;
        var raw = await RawAsync(Path.Combine(folder, "raw.db"));
        var sqlite = await LoadAsync(new StoreOptions(Path.Combine(folder, "shop")));
        await using var server = PostgresServer.Start();
        var postgres = await LoadAsync(
            new StoreOptions(folder) { ConnectionString = server.NewDatabase() }
        );
        Directory.Delete(folder, recursive: true);

        Campaign.Report(
            "load.txt",
            Line("raw SQLite, one client, one row a transaction, WAL, FULL", RawLength, raw)
                + Line("this store on SQLite, 50 clients", Length, sqlite)
                + Line("this store on PostgreSQL, 50 clients", Length, postgres)
        );
    }

    private static async Task<double[]> LoadAsync(StoreOptions options)
    {
        await using var store = await ShopStore.OpenAsync(options);
        var acknowledged = new ConcurrentBag<EntryId>();
        var times = new ConcurrentBag<double>();
        var end = Stopwatch.GetTimestamp() + (long)(Length.TotalSeconds * Stopwatch.Frequency);
        await Task.WhenAll(
            Enumerable
                .Range(1, Clients)
                .Select(device =>
                    Task.Run(async () =>
                    {
                        var bench = new Bench(device, Bench.Job(device));
                        while (Stopwatch.GetTimestamp() < end)
                        {
                            var entry = bench.Write();
                            var begun = Stopwatch.GetTimestamp();
                            var page = await store.AppendAsync(bench.Log.Id, [entry]);
                            times.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
                            Assert.Equal(AnswerStatus.Created, page.Answers[0].Status);
                            acknowledged.Add(entry.Id);
                        }
                    })
                )
        );
        var held = new HashSet<EntryId>();
        foreach (var log in await store.LogsAsync())
        {
            held.UnionWith((await store.LoadAsync(log.Log)).Ordered.Select(entry => entry.Id));
        }
        Assert.Equal(acknowledged.Count, held.Count);
        Assert.Empty(acknowledged.Except(held));
        return [.. times];
    }

    /// <summary>The rival: the same bytes, nothing but a row with a key, one commit for each.</summary>
    private static async Task<double[]> RawAsync(string path)
    {
        await using var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        await connection.OpenAsync();
        await using var make = connection.CreateCommand();
        make.CommandText =
            "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; CREATE TABLE e (id BLOB PRIMARY KEY, bytes BLOB)";
        await make.ExecuteNonQueryAsync();
        await using var insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO e VALUES (@id, @bytes)";
        insert.Parameters.AddWithValue("@id", Array.Empty<byte>());
        insert.Parameters.AddWithValue("@bytes", Array.Empty<byte>());
        var bench = new Bench(1, Bench.Job(1));
        var times = new List<double>();
        var end = Stopwatch.GetTimestamp() + (long)(RawLength.TotalSeconds * Stopwatch.Frequency);
        while (Stopwatch.GetTimestamp() < end)
        {
            var entry = bench.Write();
            insert.Parameters[0].Value = entry.Id.Value.ToByteArray(bigEndian: true);
            insert.Parameters[1].Value = entry.Encoded.ToArray();
            var begun = Stopwatch.GetTimestamp();
            await insert.ExecuteNonQueryAsync();
            times.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }
        return [.. times];
    }

    private static string Line(string name, TimeSpan length, double[] times)
    {
        Array.Sort(times);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{name}: {times.Length / length.TotalSeconds:F0} entries/s, median {At(times, 0.5):F2} ms, p99 {At(times, 0.99):F2} ms, worst {times[^1]:F1} ms\n"
        );
    }

    private static double At(double[] times, double part) =>
        times[(int)(part * (times.Length - 1))];
}
