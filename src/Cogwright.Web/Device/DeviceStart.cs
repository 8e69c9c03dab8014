using Microsoft.JSInterop;

namespace Cogwright.Web.Device;

/// <summary>
/// What begins after the first page is there: exchanging entries with the server, then keeping the program on the device. Both
/// would take the processor and the network from the page that somebody waits for.
/// </summary>
internal sealed class DeviceStart(
    DeviceShelf shelf,
    BrowserDevice browser,
    Courier courier,
    AppVersion version
)
{
    private bool hasBegun;

    /// <summary>Works until the page is closed; does nothing when it was begun already.</summary>
    internal async Task RunAsync()
    {
        if (hasBegun)
        {
            return;
        }
        hasBegun = true;
        await shelf.ReadyAsync().ConfigureAwait(true);
        await WaitForQuietAsync().ConfigureAwait(true);
        var exchange = courier.RunAsync();
        await WaitForQuietAsync().ConfigureAwait(true);
        try
        {
            await version.BeginAsync().ConfigureAwait(true);
        }
        catch (JSException)
        {
            // The server went before its script came: the storage page says that the app does not open alone, and the next visit
            // tries again.
        }
        await exchange.ConfigureAwait(true);
    }

    private async Task WaitForQuietAsync()
    {
        try
        {
            await browser.QuietAsync().ConfigureAwait(true);
        }
        catch (JSException)
        {
            // It is only a courtesy: what waits to be sent must not wait for ever because of it.
        }
    }
}
