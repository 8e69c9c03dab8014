using System.Collections.Concurrent;
using Cogwright.Log;
using Cogwright.Storage;

namespace Cogwright.Server.Tests;

/// <summary>
/// The real server, killed while devices send. The store's own campaign kills far more often; this one shows that HTTP
/// acknowledges nothing too early.
/// </summary>
public sealed class KillTests
{
    private static readonly int Kills =
        Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1" ? 40 : 6;
    private const int Devices = 4;

    private static readonly LogId Job = Bench.Job(1);

    [Fact]
    public async Task Server_KilledWhileDevicesSend_KeepsEveryAcknowledgedEntryOnce()
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-kill-").FullName;
        var random = new Random(20260302);
        var acknowledged = new ConcurrentDictionary<EntryId, Digest>();
        var benches = Enumerable.Range(1, Devices).Select(each => new Bench(each, Job)).ToList();
        // What a device has made and has no answer for is sent again after the restart, as an outbox does.
        var open = benches.Select(_ => new List<Entry>()).ToList();
        for (var kill = 0; kill < Kills; kill++)
        {
            await using var server = await ServerProcess.StartAsync(folder);
            var before = acknowledged.Count;
            var wanted = random.Next(1, 40);
            var enough = new TaskCompletionSource();
            var sending = Enumerable
                .Range(0, Devices)
                .Select(each =>
                    Task.Run(() =>
                        SendUntilKilledAsync(
                            server.Address,
                            benches[each],
                            open[each],
                            acknowledged,
                            () =>
                            {
                                if (acknowledged.Count - before >= wanted)
                                {
                                    enough.TrySetResult();
                                }
                            }
                        )
                    )
                )
                .ToArray();
            // A device that stops by itself has met an answer that it should not have.
            await await Task.WhenAny(enough.Task, Task.WhenAll(sending));
            Assert.True(
                enough.Task.IsCompleted,
                "Every device stopped before the server was killed."
            );
            await server.KillAsync();
            await Task.WhenAll(sending);
        }

        await using (var store = await ShopStore.OpenAsync(new StoreOptions(folder)))
        {
            var report = await store.CheckAsync();
            Assert.DoesNotContain(
                report.Findings,
                finding => finding.Severity == CheckSeverity.Damage
            );
            var log = await store.LoadAsync(Job);
            var held = log.Ordered.ToDictionary(entry => entry.Id, entry => entry.Hash);
            Assert.All(
                acknowledged,
                each => Assert.Equal(each.Value, held.GetValueOrDefault(each.Key))
            );
            // At most what was under way is here without an answer.
            Assert.InRange(
                held.Count,
                acknowledged.Count,
                acknowledged.Count + open.Sum(each => each.Count)
            );
        }
        Directory.Delete(folder, recursive: true);
    }

    private static async Task SendUntilKilledAsync(
        Uri address,
        Bench bench,
        List<Entry> open,
        ConcurrentDictionary<EntryId, Digest> acknowledged,
        Action onAnswer
    )
    {
        using var browser = new HttpClient { BaseAddress = address };
        browser.DefaultRequestHeaders.Add(Door.Header, "1");
        try
        {
            while (true)
            {
                if (open.Count == 0)
                {
                    open.AddRange(bench.WriteMany(3));
                }
                var page = await JobTests.SendAsync(browser, Job, open);
                foreach (var answer in page.Answers)
                {
                    Assert.NotEqual("refused", answer.Status);
                    acknowledged[new EntryId(answer.Id)] = new Digest(
                        Convert.FromHexString(answer.Hash)
                    );
                }
                open.Clear();
                onAnswer();
            }
        }
        catch (Exception e)
            when (e is HttpRequestException or IOException or OperationCanceledException)
        {
            // Killed: what is open stays open.
        }
    }
}
