namespace Cogwright.Log;

/// <summary>Checks a server's signatures. Asynchronous because a browser's own cryptography is.</summary>
public interface ICountersignatureCheck
{
    /// <summary>Whether the signature is that of the named key over these bytes; false also if the key is not known.</summary>
    ValueTask<bool> HoldsAsync(
        string key,
        ReadOnlyMemory<byte> bytes,
        ReadOnlyMemory<byte> signature
    );
}
