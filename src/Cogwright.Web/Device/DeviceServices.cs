using Cogwright.Web.Bikes;
using Cogwright.Web.Parts;

namespace Cogwright.Web.Device;

/// <summary>Puts the parts of this folder together.</summary>
internal static class DeviceServices
{
    internal static void AddDevice(this IServiceCollection services, string address)
    {
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<IDeviceStore, BrowserStore>();
        services.AddSingleton<BrowserDevice>();
        services.AddSingleton<ISignals>(all => all.GetRequiredService<BrowserDevice>());
        services.AddSingleton<IShop>(new HttpShop(new HttpClient { BaseAddress = new(address) }));
        services.AddSingleton<ILibraryKeep, BrowserLibraryKeep>();
        services.AddSingleton<IShopParts>(
            new HttpShopParts(new HttpClient { BaseAddress = new(address) })
        );
        services.AddSingleton<DeviceShelf>();
        services.AddSingleton<IBikeShelf>(all => all.GetRequiredService<DeviceShelf>());
        services.AddSingleton<Courier>();
        services.AddSingleton<AppVersion>();
        services.AddSingleton<DeviceStart>();
    }
}
