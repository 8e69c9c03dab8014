using Cogwright.Web.Device;

namespace Cogwright.Web.Tests.Device;

/// <summary>A browser in which something does not work: what is entered is kept and sent as far as it goes.</summary>
public sealed class BrowserTests
{
    [Fact]
    public async Task Start_WithoutTheBrowsersScripts_ExchangesAllTheSame()
    {
        var scripts = new BrokenScripts(_ => "Failed to fetch dynamically imported module");
        var device = new PretendDevice(new PretendShop());
        using var browser = new BrowserDevice(scripts);
        using var version = new AppVersion(scripts);
        var store = device.Browser.NewTab();
        var courier = new Courier(device.Shelf, device.Shop, browser, store, TimeProvider.System);
        var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        courier.Changed += () =>
        {
            if (courier.State == ContactState.Reached)
            {
                reached.TrySetResult();
            }
        };

        _ = new DeviceStart(device.Shelf, browser, courier, version).RunAsync();
        await reached.Task.WaitAsync(TestContext.Current.CancellationToken);

        Assert.True(device.Shop.Requests > 0);
    }

    [Theory]
    [InlineData("Error: BlockedError: another tab holds the storage", nameof(KeepFault.Held))]
    [InlineData("Error: SecurityError: denied", nameof(KeepFault.NoStore))]
    public async Task Store_ThatDoesNotOpen_SaysWhyAtTheFirstWriteToo(string said, string fault)
    {
        using var store = new BrowserStore(new BrokenScripts(call => call == "open" ? said : null));

        var opening = await Assert.ThrowsAsync<KeepException>(() => store.OpenAsync().AsTask());
        var writing = await Assert.ThrowsAsync<KeepException>(() =>
            store.WriteAsync([StoreWrite.Put(new SettingRow(Setting.Contact, "1"))]).AsTask()
        );

        Assert.Equal((fault, fault), (opening.Fault.ToString(), writing.Fault.ToString()));
    }
}
