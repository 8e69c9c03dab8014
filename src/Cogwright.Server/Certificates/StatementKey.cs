using System.Security.Cryptography;
using Cogwright.Log;
using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>
/// Signs head statements with ECDSA over P-256 and SHA-256. The private key lies in the data folder and nowhere else, not even
/// in a backup; the public keys of every server of the shop lie in the store.
/// </summary>
internal sealed class StatementKey : ICountersigner, ICountersignatureCheck, IDisposable
{
    private const string FileName = "statements-p256.pem";
    private const string SettingPrefix = "statements.key.";

    private readonly ShopStore store;
    private readonly ECDsa key;

    private StatementKey(ShopStore store, ECDsa key)
    {
        this.store = store;
        this.key = key;
        var spki = key.ExportSubjectPublicKeyInfo();
        Key = "p256:" + Convert.ToHexStringLower(SHA256.HashData(spki))[..32];
    }

    /// <inheritdoc/>
    public string Key { get; }

    internal static async Task<StatementKey> OpenAsync(ShopStore store, ServerOptions options)
    {
        KeyFile.MakeFolder(options.KeyFolder);
        var path = Path.Combine(options.KeyFolder, FileName);
        var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        try
        {
            if (File.Exists(path))
            {
                key.ImportFromPem(await File.ReadAllTextAsync(path).ConfigureAwait(false));
            }
            else
            {
                KeyFile.Write(path, key.ExportPkcs8PrivateKeyPem());
            }
            var opened = new StatementKey(store, key);
            await Settings
                .FirstAsync(
                    store,
                    SettingPrefix + opened.Key,
                    Convert.ToBase64String(key.ExportSubjectPublicKeyInfo()),
                    options.Clock.GetUtcNow().UtcTicks
                )
                .ConfigureAwait(false);
            return opened;
        }
        catch (Exception e) when (e is CryptographicException or ArgumentException)
        {
            key.Dispose();
            throw new ServerFaultException(Texts.Get("key.unreadable", path), e);
        }
    }

    /// <inheritdoc/>
    public ValueTask<ReadOnlyMemory<byte>> SignAsync(ReadOnlyMemory<byte> bytes)
    {
        lock (key)
        {
            return ValueTask.FromResult<ReadOnlyMemory<byte>>(
                key.SignData(bytes.Span, HashAlgorithmName.SHA256)
            );
        }
    }

    /// <inheritdoc/>
    public async ValueTask<bool> HoldsAsync(
        string key,
        ReadOnlyMemory<byte> bytes,
        ReadOnlyMemory<byte> signature
    )
    {
        if (
            await Settings.FindAsync(store, SettingPrefix + key).ConfigureAwait(false)
            is not { } spki
        )
        {
            return false;
        }
        using var known = ECDsa.Create();
        known.ImportSubjectPublicKeyInfo(Convert.FromBase64String(spki), out _);
        return known.VerifyData(bytes.Span, signature.Span, HashAlgorithmName.SHA256);
    }

    /// <summary>The public keys by name, each a SubjectPublicKeyInfo in base 64.</summary>
    internal async Task<IReadOnlyDictionary<string, string>> PublicKeysAsync()
    {
        await using var context = store.NewContext();
        var keys = await context
            .ShopSettings.Where(setting => setting.Name.StartsWith(SettingPrefix))
            .ToListAsync()
            .ConfigureAwait(false);
        return keys.ToDictionary(each => each.Name[SettingPrefix.Length..], each => each.Value);
    }

    public void Dispose() => key.Dispose();
}
