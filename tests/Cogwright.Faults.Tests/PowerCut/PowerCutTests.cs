using System.Globalization;
using System.Security.Cryptography;
using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;

namespace Cogwright.Faults.Tests;

/// <summary>
/// The power goes at random moments while entries and photos are taken in and erased; what had not been synced is lost, or
/// part of it is. As shipped nothing acknowledged may be missing. With less than FULL it must be missing now and then, or the
/// recording would prove nothing.
/// </summary>
public sealed class PowerCutTests
{
    private enum Survivors
    {
        None,
        FirstOnes,
        AnyOnes,
    }

    private sealed record Cut(
        Dictionary<string, byte[]> Files,
        HashSet<EntryId> Acknowledged,
        HashSet<Digest> Stored,
        HashSet<Digest> Erased
    );

    [Fact]
    public async Task PowerCut_AsShipped_LosesNothingAcknowledged()
    {
        var cuts = await CutsAsync("FULL", Campaign.Of(120, 1500));

        var lost = new List<string>();
        foreach (var cut in cuts)
        {
            lost.AddRange(await LostAsync(cut));
        }

        Campaign.Report(
            "power-cut.txt",
            string.Create(
                CultureInfo.InvariantCulture,
                $"{cuts.Count} power cuts, up to {cuts.Max(cut => cut.Acknowledged.Count)} entries acknowledged before one, {lost.Count} faults.\n"
            )
        );
        Assert.Empty(lost);
        Assert.True(cuts[^1].Acknowledged.Count > 100);
    }

    [Theory]
    [InlineData("NORMAL")]
    [InlineData("OFF")]
    public async Task PowerCut_WithLessThanShipped_LosesSomething(string synchronous)
    {
        var cuts = await CutsAsync(synchronous, 20);

        var lost = new List<string>();
        foreach (var cut in cuts)
        {
            lost.AddRange(await LostAsync(cut));
        }

        Assert.NotEmpty(lost);
    }

    /// <summary>Writes until the power was cut often enough: each cut is a copy of what would be left, the writing goes on.</summary>
    private static async Task<List<Cut>> CutsAsync(string synchronous, int count)
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-cut-").FullName;
        var options = new StoreOptions(folder) { SqliteSynchronous = synchronous };
        // The store itself was made in quiet times, so that only entries can be lost.
        await using (await ShopStore.OpenAsync(options with { SqliteSynchronous = "FULL" })) { }
        var random = new Random(count);
        var disk = new RecordingDisk(folder);
        disk.Load();
        SqliteDisk.Attach(disk);
        var acknowledged = new HashSet<EntryId>();
        var stored = new HashSet<Digest>();
        var erased = new HashSet<Digest>();
        var cuts = new List<Cut>();
        var next = 200L;
        disk.BeforeChange = number =>
        {
            // One writer: changes come one after the other.
            if (number < next || cuts.Count == count)
            {
                return;
            }
            next = number + random.Next(1, 120);
            lock (acknowledged)
            {
                cuts.Add(
                    new Cut(
                        disk.Cut(Choose((Survivors)(cuts.Count % 3), random)),
                        [.. acknowledged],
                        [.. stored],
                        [.. erased]
                    )
                );
            }
        };
        await using (var store = await ShopStore.OpenAsync(options))
        {
            await Task.WhenAll(
                Enumerable
                    .Range(1, 4)
                    .Select(device => WriteAsync(store, device, () => cuts.Count < count))
            );
        }
        disk.BeforeChange = null;
        Directory.Delete(folder, recursive: true);
        return cuts;

        async Task WriteAsync(ShopStore store, int device, Func<bool> goesOn)
        {
            var bench = new Bench(device, Bench.Job(device % 2));
            for (var n = 0; goesOn(); n++)
            {
                var entry = bench.Write();
                await store.AppendAsync(bench.Log.Id, [entry]);
                lock (acknowledged)
                {
                    acknowledged.Add(entry.Id);
                }
                if (n % 8 == device)
                {
                    await StoreAndEraseAsync(store, bench.Log.Id);
                }
            }
        }

        async Task StoreAndEraseAsync(ShopStore store, LogId log)
        {
            var kept = NewDatum();
            var gone = NewDatum();
            await store.PutPersonalAsync(log, kept, "image/jpeg");
            lock (acknowledged)
            {
                stored.Add(kept.Digest);
            }
            await store.PutPersonalAsync(log, gone, "image/jpeg");
            await store.EraseAsync(log, gone.Digest);
            lock (acknowledged)
            {
                erased.Add(gone.Digest);
            }
        }
    }

    private static PersonalDatum NewDatum() =>
        new(
            RandomNumberGenerator.GetBytes(PersonalDatum.SaltBytes),
            RandomNumberGenerator.GetBytes(9000)
        );

    private static Func<DiskChange, DiskChange?> Choose(Survivors survivors, Random random)
    {
        var left = random.Next(0, 40);
        return survivors switch
        {
            Survivors.None => _ => null,
            // The last of those that made it is cut off in the middle.
            Survivors.FirstOnes => change =>
                left-- switch
                {
                    > 0 => change,
                    0 when change.Data is { } data => change with
                    {
                        Data = data[..(data.Length / 2)],
                    },
                    _ => null,
                },
            _ => change => random.Next(2) == 0 ? change : null,
        };
    }

    /// <summary>What is missing or wrong after the power is back.</summary>
    private static async Task<List<string>> LostAsync(Cut cut)
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-after-").FullName;
        try
        {
            foreach (var (name, content) in cut.Files)
            {
                await File.WriteAllBytesAsync(Path.Combine(folder, name), content);
            }
            await using var store = await ShopStore.OpenAsync(new StoreOptions(folder));
            var found = new List<string>(
                (await store.CheckAsync()).Findings.Select(finding => finding.Text)
            );
            var held = new HashSet<EntryId>();
            foreach (var log in await store.LogsAsync())
            {
                held.UnionWith((await store.LoadAsync(log.Log)).Ordered.Select(entry => entry.Id));
                var personal = await store.PersonalOfAsync(log.Log);
                cut.Stored.ExceptWith(personal.Held);
                cut.Erased.ExceptWith(personal.Erased);
                if (personal.Held.Intersect(personal.Erased).Any())
                {
                    found.Add("A datum is held and erased.");
                }
            }
            found.AddRange(
                cut.Acknowledged.Except(held).Select(id => $"Entry {id} was acknowledged.")
            );
            found.AddRange(cut.Stored.Select(digest => $"Datum {digest} was acknowledged."));
            found.AddRange(
                cut.Erased.Select(digest => $"The erasure of {digest} was acknowledged.")
            );
            return found;
        }
        catch (StoreFaultException e)
        {
            return [e.Message];
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
