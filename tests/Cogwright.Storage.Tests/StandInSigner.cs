using System.Security.Cryptography;
using Cogwright.Log;

namespace Cogwright.Storage.Tests;

/// <summary>Signs with HMAC-SHA256: enough to see what is signed and checked.</summary>
internal sealed class StandInSigner : ICountersigner, ICountersignatureCheck
{
    private readonly byte[] secret = "an invented shop"u8.ToArray();

    public string Key => "shop:1";

    public ValueTask<ReadOnlyMemory<byte>> SignAsync(ReadOnlyMemory<byte> bytes) =>
        ValueTask.FromResult<ReadOnlyMemory<byte>>(HMACSHA256.HashData(secret, bytes.Span));

    public ValueTask<bool> HoldsAsync(
        string key,
        ReadOnlyMemory<byte> bytes,
        ReadOnlyMemory<byte> signature
    ) =>
        ValueTask.FromResult(
            key == Key
                && HMACSHA256.HashData(secret, bytes.Span).AsSpan().SequenceEqual(signature.Span)
        );
}
