using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;

namespace Cogwright.Faults.Tests;

/// <summary>A full disk, a lock that somebody else holds, a second owner, a clock that jumps.</summary>
public sealed class DiskTests : IDisposable
{
    private static readonly LogId Job = Bench.Job(1);

    private readonly string folder = Directory.CreateTempSubdirectory("cogwright-disk-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task FullDisk_WhileAppending_SaysSoAndKeepsWhatWasAcknowledged()
    {
        var bench = new Bench(1, Job);
        var acknowledged = new List<Entry>();
        StoreFaultException? fault = null;
        var limited = new StoreOptions(folder) { SqliteMostPages = 120 };
        await using (var store = await ShopStore.OpenAsync(limited))
        {
            while (fault is null)
            {
                var entry = bench.Write(new string(' ', 2000) + "{}");
                try
                {
                    await store.AppendAsync(Job, [entry]);
                    acknowledged.Add(entry);
                }
                catch (StoreFaultException e)
                {
                    fault = e;
                }
            }
            // What is there can be read as before.
            Assert.Equal(acknowledged, (await store.PullAsync(Job, PullCursor.Start)).Entries);
        }
        await using var roomy = await ShopStore.OpenAsync(new StoreOptions(folder));
        var answer = await roomy.AppendAsync(Job, [bench.Log[acknowledged.Count]]);

        Assert.Equal(StoreFaultKind.Full, fault.Fault.Kind);
        Assert.NotEmpty(acknowledged);
        Assert.Equal(AnswerStatus.Created, answer.Answers[0].Status);
        Assert.Empty((await roomy.CheckAsync()).Findings);
    }

    [Fact]
    public async Task Lock_HeldByAnotherProcess_IsToldAndPasses()
    {
        var options = new StoreOptions(folder) { LockWaitSeconds = 1 };
        await using var store = await ShopStore.OpenAsync(options);
        var bench = new Bench(1, Job);
        var first = bench.Write();
        var second = bench.Write();
        await store.AppendAsync(Job, [first]);
        StoreFaultException fault;
        using (
            var other = AppenderProcess.Locking(Path.Combine(folder, StoreOptions.DatabaseFileName))
        )
        {
            fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
                store.AppendAsync(Job, [second])
            );
            // Readers are not kept out.
            Assert.Single((await store.PullAsync(Job, PullCursor.Start)).Entries);
            other.LetGo();
        }

        var answer = await store.AppendAsync(Job, [second]);

        Assert.Equal(StoreFaultKind.Locked, fault.Fault.Kind);
        Assert.Equal(AnswerStatus.Created, answer.Answers[0].Status);
        Assert.Empty((await store.CheckAsync()).Findings);
    }

    [Fact]
    public async Task DataFolder_OpenedTwice_IsRefusedToTheSecond()
    {
        await using var store = await ShopStore.OpenAsync(new StoreOptions(folder));

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            ShopStore.OpenAsync(new StoreOptions(folder))
        );

        Assert.Equal(StoreFaultKind.InUse, fault.Fault.Kind);
    }

    [Fact]
    public async Task DataFolder_ThatIsAFile_IsToldWithItsPath()
    {
        var path = Path.Combine(folder, "a-file");
        await File.WriteAllTextAsync(path, "");

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            ShopStore.OpenAsync(new StoreOptions(path))
        );

        Assert.Equal(StoreFaultKind.Inaccessible, fault.Fault.Kind);
        Assert.Contains(path, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Clock_JumpingByYears_ChangesNeitherNumbersNorOrder()
    {
        var clock = new JumpingClock();
        await using var store = await ShopStore.OpenAsync(
            new StoreOptions(folder) { Clock = clock }
        );
        var bench = new Bench(1, Job);
        var entries = new List<Entry>();
        foreach (var years in (int[])[0, 30, -50, 3, -3, 0])
        {
            clock.Now = JumpingClock.Start.AddYears(years);
            bench.Ticks = JumpingClock.Start.AddYears(-years).UtcTicks;
            entries.AddRange(bench.WriteMany(2));
            await store.AppendAsync(Job, [.. entries.TakeLast(2)]);
        }

        var page = await store.PullAsync(Job, PullCursor.Start);

        Assert.Equal(entries, page.Entries);
        Assert.Equal(entries.Count, page.Last);
        Assert.Empty((await store.CheckAsync()).Findings);
    }

    private sealed class JumpingClock : TimeProvider
    {
        internal static DateTimeOffset Start { get; } = new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero);

        internal DateTimeOffset Now { get; set; } = Start;

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
