using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>Whether somebody owns the shop. The first account is its owner's; from then on everybody logs in.</summary>
internal sealed class Ownership(ShopStore store)
{
    private volatile bool exists;

    internal async Task<bool> ExistsAsync()
    {
        if (exists)
        {
            return true;
        }
        // Asked anew as long as there is none: another server on this database may have made one.
        await using var context = store.NewContext();
        exists = await context.Users.AnyAsync().ConfigureAwait(false);
        return exists;
    }
}
