namespace Cogwright.Log;

/// <summary>Signs for a server. The server supplies it; this room has no keys and, in a browser, no means to sign.</summary>
public interface ICountersigner
{
    /// <summary>The name of the key.</summary>
    string Key { get; }

    /// <summary>Signs some bytes.</summary>
    ValueTask<ReadOnlyMemory<byte>> SignAsync(ReadOnlyMemory<byte> bytes);
}
