using BenchmarkDotNet.Attributes;
using Cogwright.Log;
using Cogwright.Storage;
using Microsoft.Data.Sqlite;

namespace Cogwright.Benchmarks;

/// <summary>
/// Fifty entries taken in: by fifty callers at once, as one sending, and by the rival, which only inserts a row for each,
/// with a commit for each and with one for all. SQLite, write-ahead log, synchronous=FULL, on the disk of the temporary folder.
/// </summary>
[MemoryDiagnoser]
public class StorageBenchmark
{
    private const int Count = 50;
    private readonly string folder = Directory.CreateTempSubdirectory("cogwright-bench-").FullName;
    private readonly Random random = new(1);
    private readonly DeviceId device = new(Guid.CreateVersion7());
    private EntryLog log = new(new LogId(Guid.CreateVersion7()));
    private EntryStamp? stamp;
    private ShopStore store = null!;
    private SqliteConnection rival = null!;
    private SqliteCommand insert = null!;
    private Entry[] entries = [];

    [GlobalSetup]
    public void Open()
    {
        store = ShopStore.OpenAsync(new StoreOptions(folder)).GetAwaiter().GetResult();
        rival = new SqliteConnection($"Data Source={Path.Combine(folder, "raw.db")};Pooling=False");
        rival.Open();
        using var make = rival.CreateCommand();
        make.CommandText =
            "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; CREATE TABLE e (id BLOB PRIMARY KEY, bytes BLOB)";
        make.ExecuteNonQuery();
        insert = rival.CreateCommand();
        insert.CommandText = "INSERT INTO e VALUES (@id, @bytes)";
        insert.Parameters.AddWithValue("@id", Array.Empty<byte>());
        insert.Parameters.AddWithValue("@bytes", Array.Empty<byte>());
    }

    [GlobalCleanup]
    public void Close()
    {
        store.DisposeAsync().AsTask().GetAwaiter().GetResult();
        insert.Dispose();
        rival.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [IterationSetup]
    public void Prepare()
    {
        if (log.Count > 20_000)
        {
            log = new EntryLog(new LogId(Guid.CreateVersion7()));
        }
        entries = [.. Enumerable.Range(0, Count).Select(_ => Next())];
    }

    [Benchmark]
    public Task FiftyCallers() =>
        Task.WhenAll(entries.Select(entry => store.AppendAsync(log.Id, [entry])));

    [Benchmark]
    public Task OneSending() => store.AppendAsync(log.Id, entries);

    [Benchmark(Baseline = true)]
    public void RawCommitEach() => InsertAll();

    [Benchmark]
    public void RawCommitOnce()
    {
        using var transaction = rival.BeginTransaction();
        insert.Transaction = transaction;
        InsertAll();
        transaction.Commit();
        insert.Transaction = null;
    }

    private void InsertAll()
    {
        foreach (var entry in entries)
        {
            insert.Parameters[0].Value = entry.Id.Value.ToByteArray(bigEndian: true);
            insert.Parameters[1].Value = entry.Encoded.ToArray();
            insert.ExecuteNonQuery();
        }
    }

    private Entry Next()
    {
        Span<byte> chance = stackalloc byte[EntryId.RandomBytes];
        random.NextBytes(chance);
        stamp = EntryStamp.Next(stamp?.Id, DateTime.UtcNow.Ticks, chance);
        var entry = log.Prepare(
            device,
            stamp,
            new EntryDraft("account:1", "note", 1, "{\"gapMm\":6.1}"u8.ToArray())
        ).Value!;
        log.Add(entry);
        return entry;
    }
}
