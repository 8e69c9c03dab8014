using Cogwright.Web.Device;
using Microsoft.AspNetCore.Components;

namespace Cogwright.Web.Pieces;

/// <summary>A piece of a page that shows how this device stands, and shows itself anew when that changes.</summary>
public abstract class DevicePiece : FollowingPiece
{
    [Inject]
    private protected DeviceShelf Shelf { get; init; } = null!;

    [Inject]
    private protected Courier Courier { get; init; } = null!;

    [Inject]
    private protected BrowserDevice Browser { get; init; } = null!;

    [Inject]
    private protected AppVersion Version { get; init; } = null!;

    private bool isLooking;
    private bool hasMoreToSee;

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        Shelf.Changed += Refresh;
        Courier.Changed += Refresh;
        Version.Changed += Refresh;
    }

    /// <summary>Called before it shows itself anew.</summary>
    protected virtual Task OnDeviceChangedAsync() => Task.CompletedTask;

    /// <summary>Hands everything on this device to the person as one file.</summary>
    protected async Task ExportAsync() =>
        await Browser
            .DownloadAsync(
                $"cogwright-device-{DateTime.Now:yyyy-MM-dd-HHmm}.json",
                await Shelf.ExportAsync().ConfigureAwait(true)
            )
            .ConfigureAwait(true);

    /// <summary>A time as a clock on the wall shows it.</summary>
    protected static string Clock(DateTime utc) =>
        utc.ToLocalTime()
            .ToString("yyyy-MM-dd HH:mm", System.Globalization.CultureInfo.InvariantCulture);

    private void Refresh(string? bike) => Refresh();

    // A whole shop may come in at once: one look at a time, and one more after the last of it.
    private void Refresh()
    {
        hasMoreToSee = true;
        if (!isLooking)
        {
            Follow(LookAsync);
        }
    }

    private async Task LookAsync()
    {
        isLooking = true;
        try
        {
            while (hasMoreToSee)
            {
                hasMoreToSee = false;
                await OnDeviceChangedAsync().ConfigureAwait(true);
                StateHasChanged();
            }
        }
        finally
        {
            isLooking = false;
        }
    }

    /// <inheritdoc/>
    protected override void StopFollowing()
    {
        Shelf.Changed -= Refresh;
        Courier.Changed -= Refresh;
        Version.Changed -= Refresh;
    }
}
