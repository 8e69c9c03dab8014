using System.Diagnostics;
using System.Globalization;
using System.Text;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>What the first and the second visit cost. Times are told, never judged: a machine under test is busy.</summary>
public sealed class StartTests(Shop shop)
{
    /// <summary>Most that a first visit may download (bytes on the wire): about 2 s at 20 Mbit/s.</summary>
    private const long MostBytes = 5_000_000;

    [Fact]
    public async Task FirstVisit_OfThePublishedApp_DownloadsNoMoreThanItMay()
    {
        await using var visit = await shop.FirstVisitAsync(Size.Phone);
        var first = await VisitOnceAsync(visit, visit.Page);
        var second = await VisitOnceAsync(visit, await visit.Context.NewPageAsync());
        var isPublished =
            Environment.GetEnvironmentVariable("COGWRIGHT_ADDRESS") is not { Length: > 0 };
        var report = new StringBuilder()
            .AppendLine("# How the web app starts")
            .AppendLine()
            .AppendLine(
                isPublished
                    ? "Published and trimmed, from `./run` on this machine."
                    : "A server that was already running; perhaps neither trimmed nor compressed."
            )
            .AppendLine()
            .AppendLine(
                "| Visit | list of bikes to be used (s) | requests | downloaded (MB) | load |"
            )
            .AppendLine("|---|---|---|---|---|");
        foreach (var (name, start) in new[] { ("first", first), ("second", second) })
        {
            report.AppendLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"| {name} | {start.Time.TotalSeconds:0.00} | {start.Requests} | {start.Bytes / 1e6:0.00} | {start.Load} |"
                )
            );
        }
        var path = Path.Combine(Path.GetDirectoryName(Shop.Pictures)!, "web-start.md");
        await File.WriteAllTextAsync(
            path,
            report.ToString(),
            TestContext.Current.CancellationToken
        );
        if (isPublished)
        {
            Assert.InRange(first.Bytes, 1, MostBytes);
        }
        Assert.True(second.Bytes <= first.Bytes, "the second visit downloads more than the first");
    }

    /// <summary>How long it took, and how busy the machine was just then (processes that want to run, over the last minute).</summary>
    private async Task<(TimeSpan Time, int Requests, long Bytes, string Load)> VisitOnceAsync(
        Visit visit,
        IPage page
    )
    {
        var wire = await visit.Context.NewCDPSessionAsync(page);
        await wire.SendAsync("Network.enable");
        var (requests, bytes) = (0, 0L);
        wire.Event("Network.loadingFinished").OnEvent += (_, e) =>
        {
            requests++;
            bytes += (long)e!.Value.GetProperty("encodedDataLength").GetDouble();
        };
        var watch = Stopwatch.StartNew();
        await page.GotoAsync(shop.Address);
        await page.WaitForSelectorAsync(".bikes a", new() { Timeout = 120_000 });
        var time = watch.Elapsed;
        await page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        var load = await File.ReadAllTextAsync(
            "/proc/loadavg",
            TestContext.Current.CancellationToken
        );
        return (time, requests, bytes, load.Split(' ')[0]);
    }
}
