using System.Net;

namespace Cogwright.Server;

/// <summary>
/// By which names a request may call this server. A page of another site can have its own name resolve to this machine
/// (DNS rebinding); it cannot have the browser send one of these names.
/// </summary>
/// <param name="shopNames">The names and addresses in the certificate for other devices.</param>
internal sealed class HostNames(IEnumerable<string> shopNames)
{
    private readonly HashSet<string> shop = shopNames
        .Select(Canonical)
        .ToHashSet(StringComparer.OrdinalIgnoreCase);

    internal static bool IsLoopback(string host) =>
        Canonical(host) is "localhost" or "127.0.0.1" or "::1";

    internal bool IsShops(string host) => shop.Contains(Canonical(host));

    // IPv6 in its shortest form, without brackets, without a scope.
    private static string Canonical(string host)
    {
        var bare = host.Trim('[', ']').Split('%')[0];
        return IPAddress.TryParse(bare, out var address)
            ? address.ToString()
            : bare.ToLowerInvariant();
    }
}
