using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Text;
using Cogwright.Facts;
using Cogwright.Log;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Bikes;
using Cogwright.Web.Device;

public sealed class DeviceShelfTests
{
    private readonly PretendShop shop = new();

    private static SpecChange Bike(string name) => Set(("name", name), ("frame.chainstay", "410"));

    private static SpecChange Set(params (string Path, string? Text)[] fields) =>
        new(
            "set",
            fields.ToImmutableSortedDictionary(f => f.Path, f => f.Text, StringComparer.Ordinal)
        );

    private static async Task<string?> FieldAsync(PretendDevice device, string bike, string path) =>
        (await device.Shelf.OpenAsync(bike))!.Sheet[path];

    [Fact]
    public async Task Change_AfterTheReload_IsThere_WithItsPlaceInTheOutbox()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        await device.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));

        var again = device.Reloaded();

        Assert.Equal("Hesby", (await again.Shelf.ListAsync())[0].Name);
        Assert.Equal("415", await FieldAsync(again, id, "frame.chainstay"));
        Assert.Equal(2, again.Shelf.UnsentCount);
        Assert.Equal(device.Shelf.Device, again.Shelf.Device);
    }

    [Fact]
    public async Task Change_TakenBack_IsTakenBackAfterTheReloadToo()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        var history = await device.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));
        history = await device.Shelf.AddAsync(id, history.Undo()!);

        var again = (await device.Reloaded().Shelf.OpenAsync(id))!;

        Assert.Equal("410", again.Sheet["frame.chainstay"]);
        Assert.Null(again.NextUndo);
        Assert.Equal(history.NextRedo!.Id, again.NextRedo!.Id);
    }

    [Fact]
    public Task TwoTabs_WritingInTurnAndAtOnce_MakeOneChain() =>
        OneThread.RunAsync(WriteInTwoTabsAsync);

    private async Task WriteInTwoTabsAsync()
    {
        var first = new PretendDevice(shop);
        var id = await first.Shelf.StartAsync(Bike("Hesby"));
        var second = first.Reloaded();
        await second.Shelf.ReadyAsync();

        await Task.WhenAll(
            Enumerable
                .Range(0, 20)
                .Select(i =>
                    (i % 2 == 0 ? first : second)
                        .Shelf.AddAsync(id, Set(($"frame.f{i}", $"{i}")))
                        .AsTask()
                )
        );
        await first.ExchangeAsync();
        await second.ExchangeAsync();

        var log = new EntryLog(new(Guid.Parse(id)));
        log.Merge(shop.Of(log.Id));
        Assert.Empty(log.Forks);
        Assert.Equal(21, log.Count);
        Assert.Equal(21, Assert.Single(log.Tips).Sequence);
        Assert.Equal(0, first.Shelf.UnsentCount);
        Assert.Empty(first.Browser.Outbox);
        Assert.Equal("19", await FieldAsync(first, id, "frame.f19"));
        Assert.Equal("18", await FieldAsync(second, id, "frame.f18"));
    }

    [Fact]
    public async Task TwoDevices_SettingOneFieldUnseen_ConflictUntilOneSettlesIt()
    {
        var here = new PretendDevice(shop);
        var there = new PretendDevice(shop);
        var id = await here.Shelf.StartAsync(Bike("Hesby"));
        await here.ExchangeAsync();
        await there.ExchangeAsync();
        await here.Shelf.AddAsync(id, Set(("frame.chainstay", "415"), ("frame.a", "1")));
        await there.Shelf.AddAsync(id, Set(("frame.chainstay", "420"), ("frame.b", "2")));
        await here.ExchangeAsync();
        await there.ExchangeAsync();
        await here.ExchangeAsync();

        foreach (var device in new[] { here, there })
        {
            var conflict = Assert.Single(device.Shelf.ConflictsOf(id));
            Assert.Equal("frame.chainstay", conflict.Path);
            Assert.Equal(["415", "420"], conflict.Versions.Select(v => v.Value).Order());
            Assert.Equal(
                await FieldAsync(here, id, "frame.chainstay"),
                Assert.Single(conflict.Versions, v => v.Holds).Value
            );
            Assert.Equal("1", await FieldAsync(device, id, "frame.a"));
            Assert.Equal("2", await FieldAsync(device, id, "frame.b"));
        }

        await here.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));
        await here.ExchangeAsync();
        await there.ExchangeAsync();

        Assert.Empty(here.Shelf.ConflictsOf(id));
        Assert.Empty(there.Shelf.ConflictsOf(id));
        Assert.Equal("415", await FieldAsync(there, id, "frame.chainstay"));
    }

    [Fact]
    public async Task TwoDevices_SettingTheSameValue_DoNotConflict()
    {
        var here = new PretendDevice(shop);
        var there = new PretendDevice(shop);
        var id = await here.Shelf.StartAsync(Bike("Hesby"));
        await here.ExchangeAsync();
        await there.ExchangeAsync();
        await here.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));
        await there.Shelf.AddAsync(id, Set(("frame.chainstay", " 415")));
        await here.ExchangeAsync();
        await there.ExchangeAsync();

        Assert.Empty(there.Shelf.ConflictsOf(id));
    }

    [Fact]
    public async Task Storage_Full_KeepsTheChangeInMemory_SaysSo_AndKeepsItWhenThereIsRoom()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        var other = device.Reloaded();
        await other.Shelf.OpenAsync(id);
        device.Browser.Fails = KeepFault.Full;

        await device.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));
        await device.Shelf.AddAsync(id, Set(("frame.a", "1")));

        Assert.Equal(KeepFault.Full, device.Shelf.Fault);
        Assert.Equal(2, device.Shelf.UnkeptCount);
        Assert.Equal("415", await FieldAsync(device, id, "frame.chainstay"));
        Assert.Equal("410", await FieldAsync(other, id, "frame.chainstay"));
        Assert.Contains(
            DeviceFile.Read(await device.Shelf.ExportAsync())!.Logs[0].Entries,
            bytes => new EntryRow("", "", bytes).Read()!.Sequence == 2
        );

        device.Browser.Fails = null;
        await other.Shelf.AddAsync(id, Set(("frame.b", "2")));
        await device.Shelf.AddAsync(id, Set(("frame.c", "3")));

        Assert.Equal(0, device.Shelf.UnkeptCount);
        Assert.Null(device.Shelf.Fault);
        var again = device.Reloaded();
        await again.Shelf.ReadyAsync();
        Assert.Equal(5, again.Shelf.UnsentCount);
        Assert.Equal("415", await FieldAsync(again, id, "frame.chainstay"));
        Assert.Equal("3", await FieldAsync(again, id, "frame.c"));
        await again.ExchangeAsync();
        var log = new EntryLog(new(Guid.Parse(id)));
        log.Merge(shop.Of(log.Id));
        Assert.Equal((5, 0), (log.Count, log.WaitingCount));
        Assert.Empty(log.Forks);
    }

    [Fact]
    public async Task Storage_Refused_WorksInMemory_AndWhatIsSentIsSafe()
    {
        var device = new PretendDevice(shop);
        device.Browser.Fails = KeepFault.NoStore;

        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        await device.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));

        Assert.Equal("415", await FieldAsync(device, id, "frame.chainstay"));
        Assert.Equal((2, 2), (device.Shelf.UnkeptCount, device.Shelf.UnsentCount));

        await device.ExchangeAsync();

        Assert.Equal((0, 0), (device.Shelf.UnkeptCount, device.Shelf.UnsentCount));
        var elsewhere = new PretendDevice(shop);
        await elsewhere.ExchangeAsync();
        Assert.Equal("415", await FieldAsync(elsewhere, id, "frame.chainstay"));
    }

    [Fact]
    public async Task Storage_FullButSent_ComesBackAfterTheReload()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        await device.ExchangeAsync();
        device.Browser.Fails = KeepFault.Full;
        await device.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));
        await device.ExchangeAsync();
        device.Browser.Fails = null;
        await device.ExchangeAsync();

        var again = device.Reloaded();
        await again.ExchangeAsync();

        Assert.Equal("415", await FieldAsync(again, id, "frame.chainstay"));
        Assert.Equal(0, again.Shelf.UnsentCount);
    }

    [Fact]
    public async Task Storage_ThatCannotBeRead_IsSaid_AndNothingIsWrittenOverWhatItHolds()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        await device.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));
        var again = device.Reloaded();
        await again.Shelf.ReadyAsync();
        var (entries, card) = (
            new Dictionary<string, EntryRow>(device.Browser.Entries),
            device.Browser.Bikes[id]
        );
        device.Browser.CannotRead = true;
        var told = 0;
        again.Shelf.Changed += bike => told += bike is null ? 1 : 0;

        Assert.Null(await again.Shelf.OpenAsync(id));
        Assert.Null(await again.Shelf.OpenAsync(id));
        // Told once: a page that looks again whenever it is told would look without end.
        Assert.Equal((1, true), (told, again.Shelf.IsUnread(id)));
        Assert.Equal("UnknownError", again.Shelf.UnreadSaid);
        await again.Shelf.AddAsync(id, Set(("frame.a", "1")));
        await again.ExchangeAsync();
        await again.Shelf.KeepNowAsync();

        Assert.Equal(ContactState.Refused, again.Courier.State);
        Assert.Equal(1, again.Shelf.UnkeptCount);
        Assert.Equal(0, again.Shelf.RefusedCount);
        Assert.Equal(entries, device.Browser.Entries);
        Assert.Equal(card, device.Browser.Bikes[id]);
        Assert.Empty(shop.Of(new(Guid.Parse(id))));
        await Assert.ThrowsAsync<KeepException>(() =>
            again.Shelf.ImportAsync(OneEntry("device:test", "spec.set", """{"f":1}""", id))
        );

        device.Browser.CannotRead = false;
        await again.Shelf.KeepNowAsync();
        Assert.Equal(0, again.Shelf.UnkeptCount);
        Assert.Equal("415", await FieldAsync(again, id, "frame.chainstay"));
        Assert.Null(again.Shelf.UnreadSaid);
        Assert.False(again.Shelf.IsUnread(id));
        Assert.Equal("Hesby", (await again.Shelf.ListAsync())[0].Name);
        await again.ExchangeAsync();
        var log = new EntryLog(new(Guid.Parse(id)));
        log.Merge(shop.Of(log.Id));
        Assert.Equal((3, 0), (log.Count, log.WaitingCount));
        Assert.Empty(log.Forks);
    }

    [Fact]
    public async Task Storage_Full_WhenALogWithoutABikeComes_IsKeptWhenThereIsRoom()
    {
        var device = new PretendDevice(shop);
        await device.Shelf.ReadyAsync();
        device.Browser.Fails = KeepFault.Full;
        await device.Shelf.ImportAsync(
            OneEntry("device:test", "other.kind", "{}", Guid.CreateVersion7().ToString())
        );
        Assert.Equal(1, device.Shelf.UnkeptCount);

        device.Browser.Fails = null;
        await device.Shelf.KeepNowAsync();

        Assert.Equal(0, device.Shelf.UnkeptCount);
        Assert.Single(device.Browser.Entries);
    }

    [Fact]
    public async Task News_NameTheBikeThatTheyAreAbout_AndContactWithTheServerIsNone()
    {
        var here = new PretendDevice(shop);
        var first = await here.Shelf.StartAsync(Bike("Hesby"));
        var second = await here.Shelf.StartAsync(Bike("Kite"));
        await here.ExchangeAsync();
        // What was sent comes back once.
        await here.ExchangeAsync();
        var tab = here.Reloaded();
        await tab.Shelf.ReadyAsync();
        var (heardHere, heardThere) = (new List<string?>(), new List<string?>());
        here.Shelf.Changed += heardHere.Add;
        tab.Shelf.Changed += heardThere.Add;

        await here.ExchangeAsync();
        Assert.Empty(heardHere);
        Assert.NotNull(here.Shelf.LastContact);
        await here.Shelf.AddAsync(second, Set(("frame.a", "1")));
        await tab.Shelf.OpenAsync(first);

        Assert.Equal([second], heardHere);
        Assert.Equal([second], heardThere);
    }

    private static string OneEntry(string author, string kind, string body, string bike)
    {
        var log = new EntryLog(new(Guid.Parse(bike)));
        var entry = log.Prepare(
            new DeviceId(Guid.NewGuid()),
            EntryStamp.Next(null, DateTime.UtcNow.Ticks, new byte[10]),
            new EntryDraft(author, kind, 1, Encoding.UTF8.GetBytes(body))
        ).Value!;
        return new DeviceFile(
            DeviceFile.FormatName,
            DeviceFile.Latest,
            entry.Device.ToString(),
            "2026-03-02T09:00:00Z",
            [new(bike, [EntryRow.Of(entry).Bytes])]
        ).Write();
    }

    [Fact]
    public async Task DemoWorkshop_TakenAway_StaysAway_UntilItIsPutBack()
    {
        var device = new PretendDevice(shop);
        var all = (await device.Shelf.ListAsync()).Count;
        var changed = await device.Shelf.StartAsync(Bike("mine"), DemoWorkshop.Ids[0]);
        Assert.DoesNotContain(
            await device.Shelf.ListAsync(),
            card => card.Id == DemoWorkshop.Ids[0]
        );
        await device.Shelf.RemoveDemoAsync();

        var again = device.Reloaded();
        Assert.Equal([changed], (await again.Shelf.ListAsync()).Select(card => card.Id));
        Assert.True(again.Shelf.IsDemoTaken);
        await again.Shelf.RestoreDemoAsync();

        Assert.Equal(all + 1, (await again.Reloaded().Shelf.ListAsync()).Count);
    }

    [Fact]
    public async Task DeviceFile_TakenInElsewhere_BringsEverything_OnceOnly()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        await device.Shelf.AddAsync(id, Set(("frame.chainstay", "415")));
        var file = await device.Shelf.ExportAsync();

        var other = new PretendDevice(new PretendShop());
        Assert.Equal(new(true, 2, 0, 0), await other.Shelf.ImportAsync(file));
        Assert.Equal(new(true, 0, 2, 0), await other.Shelf.ImportAsync(file));
        Assert.Equal(new(false, 0, 0, 0), await other.Shelf.ImportAsync("{}"));

        var again = other.Reloaded();
        Assert.Equal("415", await FieldAsync(again, id, "frame.chainstay"));
        Assert.Equal(2, again.Shelf.UnsentCount);
        await again.ExchangeAsync();
        Assert.Equal(2, other.Shop.Of(new(Guid.Parse(id))).Count);
    }

    [Fact]
    public async Task DeviceFile_OfVersion1_CanBeRead()
    {
        // Its bytes were made apart from the product, once, and are never made anew: what devices exported must stay readable.
        var file = await File.ReadAllTextAsync(
            Path.Combine(Here(), "../../../../testdata/formats/device-v1/device.json"),
            TestContext.Current.CancellationToken
        );
        var device = new PretendDevice(shop);

        var report = await device.Shelf.ImportAsync(file);

        Assert.Equal(new(true, 3, 0, 0), report);
        var card = (await device.Shelf.ListAsync())[0];
        Assert.Equal("Heron road", card.Name);
        Assert.Equal("415", await FieldAsync(device, card.Id, "frame.chainstay"));
        Assert.Equal(1, device.Shelf.NotUnderstoodIn(card.Id));
    }

    [Fact]
    public async Task Entry_OfALaterVersion_IsKeptShownAndPassedOn()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        await device.ExchangeAsync();
        var log = new EntryLog(new(Guid.Parse(id)));
        log.Merge(shop.Of(log.Id));
        var later = log.Prepare(
            new DeviceId(Guid.NewGuid()),
            EntryStamp.Next(null, DateTime.UtcNow.Ticks, new byte[10]),
            new EntryDraft("device:x", "spec.set", 9, Encoding.UTF8.GetBytes("""{"f":1}"""))
        ).Value!;
        shop.Put(later);
        await device.ExchangeAsync();

        Assert.Equal(1, device.Shelf.NotUnderstoodIn(id));
        Assert.Equal("Hesby", await FieldAsync(device, id, "name"));
        Assert.Contains(
            Convert.ToBase64String(later.Encoded.Span),
            DeviceFile.Read(await device.Reloaded().Shelf.ExportAsync())!.Logs[0].Entries
        );
    }

    [Fact]
    public async Task Browser_WhoseDataWasCopied_GoesOnAsAnotherDevice()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Bike("Hesby"));
        var copy = new PretendDevice(shop, Copy(device.Browser));
        await device.Shelf.AddAsync(id, Set(("frame.a", "1")));
        await copy.Shelf.AddAsync(id, Set(("frame.b", "2")));
        await device.ExchangeAsync();
        await copy.ExchangeAsync();
        await device.ExchangeAsync();

        await device.Shelf.AddAsync(id, Set(("frame.c", "3")));
        await device.ExchangeAsync();

        Assert.NotEqual(copy.Shelf.Device, device.Shelf.Device);
        Assert.Equal(device.Shelf.Device.ToString(), device.Browser.Settings[Setting.Device].Value);
        Assert.Equal(4, shop.Of(new(Guid.Parse(id))).Count);
        Assert.Equal("2", await FieldAsync(device, id, "frame.b"));
    }

    private static string Here([CallerFilePath] string path = "") => path;

    private static PretendBrowser Copy(PretendBrowser from)
    {
        var to = new PretendBrowser();
        foreach (var row in from.Entries)
        {
            to.Entries.Add(row.Key, row.Value);
        }
        foreach (var row in from.Outbox)
        {
            to.Outbox.Add(row.Key, row.Value);
        }
        foreach (var row in from.Bikes)
        {
            to.Bikes.Add(row.Key, row.Value);
        }
        foreach (var row in from.Settings)
        {
            to.Settings.Add(row.Key, row.Value);
        }
        return to;
    }
}
