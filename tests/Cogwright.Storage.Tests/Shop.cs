namespace Cogwright.Storage.Tests;

/// <summary>A store in a folder of its own, on one of the two databases, gone after the test.</summary>
internal sealed class Shop : IAsyncDisposable
{
    private Shop(StoreOptions options) => Options = options;

    internal StoreOptions Options { get; set; }

    internal string Folder => Options.DataFolder;

    internal ShopStore Store { get; private set; } = null!;

    internal static async Task<Shop> OpenAsync(
        string? connectionString,
        Func<StoreOptions, StoreOptions>? set = null
    )
    {
        var options = new StoreOptions(NewFolder()) { ConnectionString = connectionString };
        var shop = new Shop(set is null ? options : set(options));
        shop.Store = await ShopStore.OpenAsync(shop.Options);
        return shop;
    }

    internal static string NewFolder() =>
        Directory.CreateTempSubdirectory("cogwright-shop-").FullName;

    /// <summary>Closes the store and opens it again.</summary>
    internal async Task ReopenAsync()
    {
        await Store.DisposeAsync();
        Store = await ShopStore.OpenAsync(Options);
    }

    public async ValueTask DisposeAsync()
    {
        await Store.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }
}
