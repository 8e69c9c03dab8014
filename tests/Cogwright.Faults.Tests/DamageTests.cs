using System.Collections.Immutable;
using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;

namespace Cogwright.Faults.Tests;

/// <summary>Damaged files: told in plain words or found by the check, never altered by opening and checking.</summary>
public sealed class DamageTests : IDisposable
{
    private const int PageBytes = 4096;
    private static readonly LogId Job = Bench.Job(1);

    private readonly string folder = Directory.CreateTempSubdirectory("cogwright-damage-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task EveryPage_FlippedAtRandom_IsToldOrFoundOrHarmlessAndLeftAsItIs()
    {
        var (sound, entries) = await SoundAsync();
        var random = new Random(4);
        var told = 0;
        var found = 0;
        for (var round = 0; round < Campaign.Of(2, 20); round++)
        {
            for (var page = 0; page < sound.Length / PageBytes; page++)
            {
                var damaged = (byte[])sound.Clone();
                for (var flip = 0; flip < 8; flip++)
                {
                    damaged[(page * PageBytes) + random.Next(PageBytes)] ^= (byte)
                        random.Next(1, 256);
                }
                var outcome = await LookAsync(damaged, entries);
                told += outcome == Outcome.Told ? 1 : 0;
                found += outcome == Outcome.Found ? 1 : 0;
            }
        }
        Assert.True(told > 0);
        Assert.True(found > 0);
    }

    [Fact]
    public async Task File_CutShort_IsToldOrFoundAndLeftAsItIs()
    {
        var (sound, entries) = await SoundAsync();
        int[] lengths =
        [
            1,
            15,
            16,
            50,
            99,
            100,
            101,
            511,
            512,
            PageBytes - 1,
            PageBytes,
            PageBytes + 1,
            .. Enumerable.Range(2, (sound.Length / PageBytes) - 2).Select(page => page * PageBytes),
            sound.Length - 1,
        ];
        foreach (var length in lengths)
        {
            Assert.NotEqual(Outcome.Harmless, await LookAsync(sound[..length], entries));
        }
    }

    [Fact]
    public async Task File_OfAnotherProgram_IsToldAndLeftAsItIs()
    {
        var path = Path.Combine(folder, StoreOptions.DatabaseFileName);
        await using (
            var other = new Microsoft.Data.Sqlite.SqliteConnection(
                $"Data Source={path};Pooling=False"
            )
        )
        {
            await other.OpenAsync();
            await using var command = other.CreateCommand();
            command.CommandText = "CREATE TABLE Recipes (Name TEXT)";
            await command.ExecuteNonQueryAsync();
        }
        var before = await File.ReadAllBytesAsync(path);

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            ShopStore.OpenAsync(new StoreOptions(folder))
        );

        Assert.Equal(StoreFaultKind.NotOurs, fault.Fault.Kind);
        Assert.Equal(before, await File.ReadAllBytesAsync(path));
    }

    private enum Outcome
    {
        /// <summary>Opening or reading says so.</summary>
        Told,

        /// <summary>The check says so.</summary>
        Found,

        /// <summary>The damage is where nothing stands: all is there as it was.</summary>
        Harmless,
    }

    private async Task<(byte[] File, ImmutableArray<Entry> Entries)> SoundAsync()
    {
        var made = Path.Combine(folder, "sound");
        var entries = new Bench(1, Job).WriteMany(60);
        await using (var store = await ShopStore.OpenAsync(new StoreOptions(made)))
        {
            await store.AppendAsync(Job, entries);
            await store.CountersignAsync(Job, new StandInSigner());
            await store.PutPersonalAsync(
                Job,
                new PersonalDatum(new byte[PersonalDatum.SaltBytes], new byte[10_000]),
                "image/jpeg"
            );
        }
        return (
            await File.ReadAllBytesAsync(Path.Combine(made, StoreOptions.DatabaseFileName)),
            entries
        );
    }

    private static async Task<Outcome> LookAsync(byte[] damaged, ImmutableArray<Entry> entries)
    {
        var here = Directory.CreateTempSubdirectory("cogwright-damaged-").FullName;
        var path = Path.Combine(here, StoreOptions.DatabaseFileName);
        await File.WriteAllBytesAsync(path, damaged);
        var outcome = Outcome.Told;
        try
        {
            await using var store = await ShopStore.OpenAsync(new StoreOptions(here));
            var report = await store.CheckAsync(new StandInSigner());
            outcome = report.IsSound ? Outcome.Harmless : Outcome.Found;
            if (report.IsSound)
            {
                Assert.Equal(entries, (await store.PullAsync(Job, PullCursor.Start)).Entries);
            }
        }
        catch (StoreFaultException e)
        {
            Assert.NotEqual(StoreFaultKind.Unforeseen, e.Fault.Kind);
            Assert.Contains(path, e.Message, StringComparison.Ordinal);
        }
        Assert.Equal(damaged, await File.ReadAllBytesAsync(path));
        Directory.Delete(here, recursive: true);
        return outcome;
    }
}
