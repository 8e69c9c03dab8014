using System.Collections.Immutable;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Parts;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Device;

/// <summary>Labels of parts and their photos: kept first, sent after their entries, fetched to be shown, let go when erased.</summary>
public sealed class PhotoTests
{
    private static readonly byte[] Picture = [0xFF, 0xD8, 1, 2, 3];
    private readonly PretendShop shop = new();

    private static SpecChange Bike(string name) =>
        new("set", ImmutableSortedDictionary<string, string?>.Empty.Add("name", name));

    private static async Task<LogId> BeginAsync(PretendDevice device) =>
        new(Guid.Parse(await device.Shelf.StartAsync(Bike("Hesby"))));

    private static Task LabelAsync(PretendDevice device, LogId log, string serial = "AB 12") =>
        device.Shelf.AddLabelAsync(
            log,
            new(PartKind.RearDerailleur, null, serial, "inner face"),
            Picture
        );

    private static async Task<PartLabel> OnlyLabelAsync(PretendDevice device, LogId log)
    {
        await device.Shelf.OpenAsync(log.ToString());
        return Assert.Single(device.Shelf.LabelsOf(log.ToString()));
    }

    private static string Shown(PhotoSight sight)
    {
        Assert.Equal(PhotoState.Here, sight.State);
        return sight.Address;
    }

    [Fact]
    public async Task Label_WithAPhoto_IsThereAfterTheReload_AndTheEntryHoldsNoneOfThePhoto()
    {
        var device = new PretendDevice(shop);
        shop.Fails = ShopFault.Gone;
        var log = await BeginAsync(device);
        await LabelAsync(device, log);

        var again = device.Reloaded();
        var label = await OnlyLabelAsync(again, log);
        Assert.Equal(("AB 12", "inner face"), (label.Serial, label.Words));
        Assert.Equal(
            "data:image/jpeg;base64," + Convert.ToBase64String(Picture),
            Shown(await again.Courier.Photos.LookAsync(log, label.Photo!))
        );
        Assert.Equal(3, again.Shelf.UnsentCount);
        Assert.Equal(0, again.Shelf.NotUnderstoodIn(log.ToString()));
        var row = Assert.Single(device.Browser.Photos.Values);
        Assert.Equal(PersonalDatum.SaltBytes, row.Datum()!.Salt.Length);
        Assert.All(
            device.Browser.Entries.Values,
            entry =>
                Assert.Equal(-1, Convert.FromBase64String(entry.Bytes).AsSpan().IndexOf(Picture))
        );
    }

    [Fact]
    public async Task SamePicture_Twice_HasTwoDigests()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        await LabelAsync(device, log);

        Assert.Equal(2, device.Browser.Photos.Count);
    }

    [Fact]
    public async Task Photo_ThatSomebodyOnTheWaySwallows_StaysToBeSent()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        shop.Swallows = true;
        await device.ExchangeAsync();

        Assert.Equal(["entries", "photo"], shop.Sendings);
        Assert.Equal(1, device.Shelf.UnsentPhotosOf(log));
        Assert.False(Assert.Single(device.Browser.Photos.Values).IsSent);
        Assert.Equal(ContactState.Refused, device.Courier.State);

        shop.Swallows = false;
        await device.ExchangeAsync();
        Assert.Equal(0, device.Shelf.UnsentPhotosOf(log));
        Assert.Single(shop.Photos);
    }

    [Fact]
    public async Task Label_TakenAway_IsNotShown_StaysInTheLog_AndStaysAwayOnOtherDevices()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log, "wrong");
        await LabelAsync(device, log, "right");
        var wrong = device.Shelf.LabelsOf(log.ToString()).First(each => each.Serial == "wrong");

        await device.Shelf.RemoveLabelAsync(log, wrong.Id, "read wrong");
        await device.ExchangeAsync();
        var other = new PretendDevice(shop);
        await other.ExchangeAsync();

        Assert.Equal("right", (await OnlyLabelAsync(device, log)).Serial);
        Assert.Equal("right", (await OnlyLabelAsync(other, log)).Serial);
        Assert.Equal(0, other.Shelf.NotUnderstoodIn(log.ToString()));
        Assert.Equal(4, shop.Of(log).Count);
        Assert.Equal("Hesby", (await other.Shelf.ListAsync())[0].Name);
    }

    [Fact]
    public async Task Courier_SendsThePhotoAfterTheEntries_Once_AndAnotherDeviceShowsIt()
    {
        var device = new PretendDevice(shop);
        shop.Fails = ShopFault.Gone;
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        await device.ExchangeAsync();
        Assert.Empty(shop.Sendings);

        shop.Fails = null;
        var again = device.Reloaded();
        await again.ExchangeAsync();
        await again.ExchangeAsync();

        Assert.Equal(["entries", "photo"], shop.Sendings);
        Assert.Equal(0, again.Shelf.UnsentCount);
        Assert.True(Assert.Single(device.Browser.Photos.Values).IsSent);

        var other = new PretendDevice(shop);
        await other.ExchangeAsync();
        var label = await OnlyLabelAsync(other, log);
        Shown(await other.Courier.Photos.LookAsync(log, label.Photo!));
        // Kept: the server may go now.
        shop.Fails = ShopFault.Gone;
        var later = other.Reloaded();
        await later.Shelf.ReadyAsync();
        Shown(await later.Courier.Photos.LookAsync(log, label.Photo!));
        Assert.Equal(0, later.Shelf.UnsentCount);
    }

    [Fact]
    public async Task Photo_OfAnEntryThatWasRefused_WaitsUntilTheEntryIsTaken()
    {
        var device = new PretendDevice(shop);
        shop.Refuses = entry => entry.Kind == LabelEntry.Kind ? "no room for it" : null;
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        await device.ExchangeAsync();
        Assert.Empty(shop.Photos);

        shop.Refuses = _ => null;
        var refused = Assert.Single(await device.Shelf.RefusedAsync());
        Assert.Equal("Label: rear derailleur", refused.What);
        await device.Shelf.SendAgainAsync(log, refused.Id);
        await device.ExchangeAsync();

        Assert.Single(shop.Photos);
    }

    [Fact]
    public async Task Photo_ThatTheServerLostWithItsBackup_IsSentAgain()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        await device.ExchangeAsync();
        shop.LoseEverything();

        await device.Reloaded().ExchangeAsync();

        Assert.Single(shop.Photos);
    }

    [Fact]
    public async Task Photo_NotOnTheServerYet_IsNotHere_AndComesWhenItIs()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        await device.ExchangeAsync();
        var (digest, datum) = Assert.Single(shop.Photos);
        shop.Photos.Clear();
        var clock = new TurnedClock();
        var other = new PretendDevice(shop, clock: clock);
        await other.ExchangeAsync();
        var photo = (await OnlyLabelAsync(other, log)).Photo!;

        var before = await other.Courier.Photos.LookAsync(log, photo);
        shop.Photos[digest] = datum;
        clock.Now += TimeSpan.FromSeconds(2);

        Assert.Equal(PhotoState.NotHere, before.State);
        Shown(await other.Courier.Photos.LookAsync(log, photo));
    }

    [Fact]
    public async Task Photo_ThatIsNotWhatTheEntryNames_IsNeitherShownNorKept()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        await device.ExchangeAsync();
        var digest = Assert.Single(shop.Photos).Key;
        shop.Photos[digest] = new(new byte[PersonalDatum.SaltBytes], [9]);
        var other = new PretendDevice(shop);
        await other.ExchangeAsync();
        var photo = (await OnlyLabelAsync(other, log)).Photo!;

        Assert.Equal(PhotoState.NotHere, (await other.Courier.Photos.LookAsync(log, photo)).State);
        Assert.Empty(other.Browser.Photos);
    }

    [Fact]
    public async Task Photo_ErasedOnTheServer_GoesFromEveryDevice_AndIsSaidToBeErased()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        await device.ExchangeAsync();
        var photo = (await OnlyLabelAsync(device, log)).Photo!;
        shop.Erase(photo.Digest);

        Assert.True(await device.Courier.Photos.LetGoAsync(log, photo.Digest));
        await device.ExchangeAsync();
        var other = new PretendDevice(shop);
        await other.ExchangeAsync();

        Assert.Equal(PhotoState.Erased, (await other.Courier.Photos.LookAsync(log, photo)).State);
        shop.Fails = ShopFault.Gone;
        var again = device.Reloaded();
        await again.Shelf.ReadyAsync();
        Assert.Equal(PhotoState.Erased, (await again.Courier.Photos.LookAsync(log, photo)).State);
        Assert.Equal("", Assert.Single(device.Browser.Photos.Values).Data);
        Assert.Equal(0, again.Shelf.UnsentCount);
    }

    [Fact]
    public async Task Photo_ErasedBeforeItCame_IsNotSentAgainAndAgain()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log);
        shop.Erase((await OnlyLabelAsync(device, log)).Photo!.Digest);

        await device.ExchangeAsync();

        Assert.Equal(ContactState.Reached, device.Courier.State);
        Assert.Equal(0, device.Shelf.UnsentCount);
        Assert.Empty(shop.Photos);
    }

    [Fact]
    public async Task Storage_Full_KeepsLabelAndPhotoInThePage_SaysSo_AndKeepsThemWhenThereIsRoom()
    {
        var device = new PretendDevice(shop);
        shop.Fails = ShopFault.Gone;
        var log = await BeginAsync(device);
        device.Browser.Fails = KeepFault.Full;
        await LabelAsync(device, log);

        Assert.Equal((KeepFault.Full, 1), (device.Shelf.Fault, device.Shelf.UnkeptCount));
        var label = await OnlyLabelAsync(device, log);
        Assert.Equal("AB 12", label.Serial);
        Shown(await device.Courier.Photos.LookAsync(log, label.Photo!));
        Assert.Empty(device.Browser.Photos);

        device.Browser.Fails = null;
        await device.Shelf.KeepNowAsync();
        var again = device.Reloaded();
        label = await OnlyLabelAsync(again, log);

        Assert.Equal(0, device.Shelf.UnkeptCount);
        Shown(await again.Courier.Photos.LookAsync(log, label.Photo!));
        Assert.Equal(3, again.Shelf.UnsentCount);
    }

    [Fact]
    public async Task Storage_Full_WhatTheServerHasTakenIsSafe()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        device.Browser.Fails = KeepFault.Full;
        await LabelAsync(device, log);
        Assert.Equal(1, device.Shelf.UnkeptCount);

        await device.ExchangeAsync();

        Assert.Equal((0, 0), (device.Shelf.UnkeptCount, device.Shelf.UnsentCount));
        Assert.Single(shop.Photos);
    }

    [Fact]
    public async Task DeviceFile_HoldsThePhotosThatAreNotSent_AndBringsThemElsewhere()
    {
        var device = new PretendDevice(shop);
        var log = await BeginAsync(device);
        await LabelAsync(device, log, "sent");
        await device.ExchangeAsync();
        shop.Fails = ShopFault.Gone;
        await LabelAsync(device, log, "not sent");
        var file = await device.Shelf.ExportAsync();

        var other = new PretendDevice(new PretendShop());
        var report = await other.Shelf.ImportAsync(file);
        var twice = await other.Shelf.ImportAsync(file);
        await other.ExchangeAsync();

        Assert.Equal((3, 1, 0), (report.Fresh, report.Photos, report.Unusable));
        Assert.Equal((0, 0, 0), (twice.Fresh, twice.Photos, twice.Unusable));
        var label = other.Shelf.LabelsOf(log.ToString()).Single(each => each.Serial == "not sent");
        Shown(await other.Courier.Photos.LookAsync(log, label.Photo!));
        Assert.Equal(label.Photo!.Digest, Assert.Single(other.Shop.Photos).Key);
    }

    /// <summary>A clock that stands until somebody turns it.</summary>
    private sealed class TurnedClock : TimeProvider
    {
        internal DateTimeOffset Now { get; set; } = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
