using Cogwright.Facts;

namespace Cogwright.Web.Bikes;

/// <summary>A bike in the list.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Name">What it is called.</param>
/// <param name="IsDemo">Whether it belongs to the invented demo workshop and was not changed yet.</param>
public sealed record BikeCard(string Id, string Name, bool IsDemo);

/// <summary>Where the bikes are kept: on the device first, then, when it can be reached, on the server.</summary>
public interface IBikeShelf
{
    /// <summary>
    /// Something came in or went out; raised after the shelf holds it, with the id of the bike that it is about, or null when it is
    /// about none of them alone.
    /// </summary>
    event Action<string?>? Changed;

    /// <summary>The bikes, those changed last first.</summary>
    ValueTask<IReadOnlyList<BikeCard>> ListAsync();

    /// <summary>The history of a bike, or null when there is none with that id or the device cannot read it.</summary>
    ValueTask<BikeHistory?> OpenAsync(string id);

    /// <summary>Whether the device may well have a bike with that id, but could not read it when it last tried.</summary>
    bool IsUnread(string id);

    /// <summary>Puts a new bike on the shelf.</summary>
    /// <param name="first">The bike itself.</param>
    /// <param name="fromDemo">The demo bike that it takes the place of in the list, or null.</param>
    /// <returns>Its id.</returns>
    ValueTask<string> StartAsync(SpecChange first, string? fromDemo = null);

    /// <summary>Keeps one change more; it is on the device when this ends.</summary>
    /// <returns>The history with it.</returns>
    ValueTask<BikeHistory> AddAsync(string id, SpecChange change);

    /// <summary>What was begun at a bike and is not in its log yet, as it was kept; or null.</summary>
    ValueTask<string?> DraftAsync(string id);

    /// <summary>
    /// Keeps what was begun at a bike in place of what was kept before; it is on the device when this ends, and stays there.
    /// </summary>
    ValueTask KeepDraftAsync(string id, string text);

    /// <summary>Takes the demo workshop away.</summary>
    ValueTask RemoveDemoAsync();

    /// <summary>Brings the demo workshop back as it was made; bikes of one's own stay as they are.</summary>
    ValueTask RestoreDemoAsync();
}
