using System.Security.Cryptography;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// The secret with which a server recognises its own marks. It lies in the store, because any server on one database must
/// recognise them.
/// </summary>
internal sealed class ServerSecrets
{
    private const string SettingName = "server.mark-key";
    private const int Bytes = 32;

    private readonly byte[] key;

    private ServerSecrets(byte[] key) => this.key = key;

    internal static async Task<ServerSecrets> OpenAsync(ShopStore store, TimeProvider clock)
    {
        var made = Convert.ToBase64String(RandomNumberGenerator.GetBytes(Bytes));
        return new(
            Convert.FromBase64String(
                await Settings
                    .FirstAsync(store, SettingName, made, clock.GetUtcNow().UtcTicks)
                    .ConfigureAwait(false)
            )
        );
    }

    internal byte[] Mark(ReadOnlySpan<byte> about) => HMACSHA256.HashData(key, about);
}
