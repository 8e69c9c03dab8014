using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>Values that the servers of a shop agree on.</summary>
internal static class Settings
{
    /// <summary>Keeps a value, unless there is one: whoever comes first has set it for all.</summary>
    /// <returns>The value that holds.</returns>
    internal static async Task<string> FirstAsync(
        ShopStore store,
        string name,
        string value,
        long nowTicks
    )
    {
        if (await FindAsync(store, name).ConfigureAwait(false) is { } held)
        {
            return held;
        }
        try
        {
            await using var context = store.NewContext();
            context.ShopSettings.Add(
                new ShopSetting
                {
                    Name = name,
                    Value = value,
                    ChangedTicks = nowTicks,
                }
            );
            await context.SaveChangesAsync().ConfigureAwait(false);
            return value;
        }
        catch (DbUpdateException)
        {
            // Another server was first; if it was something else, that is thrown now.
            return await FindAsync(store, name).ConfigureAwait(false)
                ?? throw new InvalidOperationException(Texts.Get("settings.lost", name));
        }
    }

    /// <summary>Sets a value, whatever it was before.</summary>
    internal static async Task SetAsync(ShopStore store, string name, string value, long nowTicks)
    {
        await using var context = store.NewContext();
        if (
            await context
                .ShopSettings.Where(each => each.Name == name)
                .ExecuteUpdateAsync(each =>
                    each.SetProperty(one => one.Value, value)
                        .SetProperty(one => one.ChangedTicks, nowTicks)
                )
                .ConfigureAwait(false) == 0
        )
        {
            context.ShopSettings.Add(
                new ShopSetting
                {
                    Name = name,
                    Value = value,
                    ChangedTicks = nowTicks,
                }
            );
            await context.SaveChangesAsync().ConfigureAwait(false);
        }
    }

    internal static async Task<string?> FindAsync(ShopStore store, string name)
    {
        await using var context = store.NewContext();
        return await context
            .ShopSettings.Where(setting => setting.Name == name)
            .Select(setting => setting.Value)
            .SingleOrDefaultAsync()
            .ConfigureAwait(false);
    }
}
