namespace Cogwright.Web.Parts;

/// <summary>Where the library stays on this device.</summary>
public interface ILibraryKeep
{
    /// <summary>The library as it was last kept, or null when it never was.</summary>
    ValueTask<ShopLibrary?> KeptAsync();

    /// <summary>Keeps it; where the device has no room, it is fetched again another time.</summary>
    ValueTask KeepAsync(ShopLibrary library);
}
