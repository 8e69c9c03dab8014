using System.Collections.Immutable;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Facts;
using Cogwright.Web.Device;

public sealed class CourierTests
{
    private readonly PretendShop shop = new();

    private static SpecChange Set(string path, string? text) =>
        new("set", ImmutableSortedDictionary<string, string?>.Empty.Add(path, text));

    [Fact]
    public async Task ServerGone_TheWorkGoesOn_AndAllIsSentWhenItIsBack()
    {
        var device = new PretendDevice(shop);
        shop.Fails = ShopFault.Gone;
        var id = await device.Shelf.StartAsync(Set("name", "Hesby"));
        await device.ExchangeAsync();
        await device.Shelf.AddAsync(id, Set("frame.a", "1"));

        Assert.Equal(ContactState.Gone, device.Courier.State);
        Assert.Equal(2, device.Shelf.UnsentCount);
        Assert.Null(device.Shelf.LastContact);

        shop.Fails = null;
        var again = device.Reloaded();
        await again.ExchangeAsync();

        Assert.Equal(ContactState.Reached, again.Courier.State);
        Assert.Equal(0, again.Shelf.UnsentCount);
        Assert.NotNull(again.Shelf.LastContact);
        Assert.Equal(2, shop.Of(new(Guid.Parse(id))).Count);
        Assert.Equal(0, device.Reloaded().Shelf.UnsentCount);
    }

    [Fact]
    public async Task Server_RestoredFromABackup_GetsWhatItLost()
    {
        var device = new PretendDevice(shop);
        var first = await device.Shelf.StartAsync(Set("name", "Hesby"));
        var second = await device.Shelf.StartAsync(Set("name", "Kite"));
        await device.ExchangeAsync();
        shop.LoseEverything();

        await device.Reloaded().ExchangeAsync();

        Assert.Single(shop.Of(new(Guid.Parse(first))));
        Assert.Single(shop.Of(new(Guid.Parse(second))));
    }

    [Fact]
    public async Task Entry_Refused_StaysWithItsReason_UntilItIsSentAgain()
    {
        var device = new PretendDevice(shop);
        shop.Refuses = _ => "no room for it";
        var id = await device.Shelf.StartAsync(Set("name", "Hesby"));
        await device.ExchangeAsync();

        var again = device.Reloaded();
        await again.Shelf.ReadyAsync();
        var refused = Assert.Single(await again.Shelf.RefusedAsync());
        Assert.Equal(("Hesby", "no room for it"), (refused.Bike, refused.Reason));
        Assert.Equal((0, 1), (again.Shelf.UnsentCount, again.Shelf.RefusedCount));

        shop.Refuses = _ => null;
        await again.Shelf.SendAgainAsync(refused.Log, refused.Id);
        await again.ExchangeAsync();

        Assert.Equal((0, 0), (again.Shelf.UnsentCount, again.Shelf.RefusedCount));
        Assert.Single(shop.Of(new(Guid.Parse(id))));
    }

    [Fact]
    public async Task Entry_ThatTheServerCannotRead_DoesNotHoldUpTheOthers()
    {
        var device = new PretendDevice(shop);
        var id = await device.Shelf.StartAsync(Set("name", "Hesby"));
        await device.Shelf.AddAsync(id, Set("frame.bad", "1"));
        await device.Shelf.AddAsync(id, Set("frame.good", "1"));
        shop.IsBad = entry => SpecEntry.Read(entry)!.Fields.ContainsKey("frame.bad");

        await device.ExchangeAsync();

        Assert.Equal((0, 1), (device.Shelf.UnsentCount, device.Shelf.RefusedCount));
        Assert.Equal(2, shop.Of(new(Guid.Parse(id))).Count);
    }

    [Fact]
    public async Task LogIn_Wanted_KeepsEverything_AndGoesOnAfterIt()
    {
        var device = new PretendDevice(shop);
        shop.Fails = ShopFault.LogIn;
        await device.Shelf.StartAsync(Set("name", "Hesby"));
        await device.ExchangeAsync();
        Assert.Equal((ContactState.LogIn, 1), (device.Courier.State, device.Shelf.UnsentCount));
        Assert.NotNull(await device.Courier.LogInAsync("ines", "wrong"));

        shop.Fails = null;
        Assert.Null(await device.Courier.LogInAsync("ines", "right"));
        await device.Courier.TryAsync();

        Assert.Equal((ContactState.Reached, 0), (device.Courier.State, device.Shelf.UnsentCount));
    }

    [Fact]
    public async Task LogOut_Done_MakesTheNextEntryNobodys_AndUndoneSaysSo()
    {
        var account = Guid.NewGuid();
        shop.Account = account;
        var device = new PretendDevice(shop);
        await device.Shelf.ReadyAsync();
        Assert.Null(await device.Courier.LogInAsync("ines", "right"));
        var id = await device.Shelf.StartAsync(Set("name", "Hesby"));
        await device.ExchangeAsync();
        shop.Fails = ShopFault.Gone;
        Assert.NotNull(await device.Courier.LogOutAsync());
        Assert.Equal(account, device.Courier.Person!.Account);

        shop.Fails = null;
        Assert.Null(await device.Courier.LogOutAsync());
        await device.Shelf.AddAsync(id, Set("frame.a", "1"));
        await device.ExchangeAsync();

        Assert.Null(device.Courier.Person!.Account);
        Assert.Equal(
            [$"account:{account}", $"device:{device.Shelf.Device}"],
            shop.Of(new(Guid.Parse(id))).Select(entry => entry.Author)
        );
    }

    [Fact]
    public async Task Server_ThatKnowsNothingNew_IsAskedLittle()
    {
        var device = new PretendDevice(shop);
        for (var i = 0; i < 50; i++)
        {
            await device.Shelf.StartAsync(Set("name", $"Hesby {i}"));
        }
        await device.ExchangeAsync();
        var before = shop.Requests;

        await device.Reloaded().ExchangeAsync();

        Assert.InRange(shop.Requests - before, 1, 60);
        before = shop.Requests;
        await device.Reloaded().ExchangeAsync();
        Assert.InRange(shop.Requests - before, 1, 4);
    }

    [Fact]
    public async Task Log_ThatIsRefused_DoesNotKeepTheOthersFromBeingFetched()
    {
        var there = new PretendDevice(shop);
        var first = await there.Shelf.StartAsync(Set("name", "Hesby"));
        var second = await there.Shelf.StartAsync(Set("name", "Kite"));
        await there.ExchangeAsync();
        foreach (var locked in new[] { first, second })
        {
            shop.Locked = new(Guid.Parse(locked));
            var here = new PretendDevice(shop);
            var listens = 0;
            here.Signals.Opened = () => listens++;
            await here.ExchangeAsync();
            await here.ExchangeAsync();

            Assert.Equal(1, listens);
            Assert.Single(await here.Shelf.ListAsync(), card => !card.IsDemo);
            Assert.Equal(ContactState.Refused, here.Courier.State);
            Assert.Equal("this one is locked", here.Courier.Said);
        }
    }

    [Fact]
    public async Task Entry_OnTheServerThatCannotBeRead_IsKeptCountedAndExported()
    {
        var there = new PretendDevice(shop);
        var id = await there.Shelf.StartAsync(Set("name", "Hesby"));
        await there.ExchangeAsync();
        byte[] bytes = [1, 2, 3];
        shop.Unreadable[new(Guid.Parse(id))] = bytes;
        var here = new PretendDevice(shop);
        await here.ExchangeAsync();
        await here.ExchangeAsync();

        foreach (var device in new[] { here, here.Reloaded() })
        {
            Assert.NotNull(await device.Shelf.OpenAsync(id));
            Assert.Equal(1, device.Shelf.NotUnderstoodIn(id));
            Assert.Single(
                DeviceFile.Read(await device.Shelf.ExportAsync())!.Logs[0].Entries,
                Convert.ToBase64String(bytes)
            );
        }
        await here.Shelf.AddAsync(id, Set("frame.a", "1"));
        await here.ExchangeAsync();
        Assert.Equal(2, shop.Of(new(Guid.Parse(id))).Count);
    }

    [Fact]
    public async Task Stream_ThatBreaksOffAtOnce_IsOpenedLessAndLessOften()
    {
        var clock = new HastyClock();
        var device = new PretendDevice(shop, clock: clock);
        var opened = 0;
        var enough = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        device.Signals.Opened = () =>
        {
            if (++opened < 8)
            {
                device.Signals.EndStream();
            }
            else
            {
                enough.SetResult();
            }
        };

        _ = device.Courier.RunAsync();
        await enough.Task;

        var pauses = clock.Waits.Where(wait => wait > TimeSpan.FromSeconds(1)).ToList();
        Assert.Equal(6, pauses.Count);
        for (var i = 0; i < pauses.Count; i++)
        {
            Assert.InRange(pauses[i].TotalSeconds / Math.Pow(2, i + 1), 0.75, 1.25);
        }
    }

    [Fact]
    public async Task Browser_ThatFails_IsToldAndTriedAgain()
    {
        var device = new PretendDevice(shop);
        device.Signals.Opened = () => throw new Microsoft.JSInterop.JSException("no");

        await device.ExchangeAsync();

        Assert.Equal((ContactState.Refused, "no"), (device.Courier.State, device.Courier.Said));
        Assert.False(device.Courier.IsBusy);
    }

    [Fact]
    public void Wait_AfterFailures_DoublesToFiveMinutes_AndIsNotTheSameForAll()
    {
        Assert.Equal(2, Courier.WaitAfter(1, null, 0.5).TotalSeconds);
        Assert.Equal(8, Courier.WaitAfter(3, null, 0.5).TotalSeconds);
        Assert.Equal(300, Courier.WaitAfter(40, null, 0.5).TotalSeconds);
        Assert.True(Courier.WaitAfter(5, null, 0) < Courier.WaitAfter(5, null, 1));
        Assert.Equal(90, Courier.WaitAfter(1, TimeSpan.FromSeconds(90), 0.5).TotalSeconds);
    }
}
