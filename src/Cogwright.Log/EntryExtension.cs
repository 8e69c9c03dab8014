namespace Cogwright.Log;

/// <summary>A field that this version does not know: kept byte for byte, hashed and passed on.</summary>
/// <param name="Tag">Its tag, greater than those of <see cref="EntryTag"/>.</param>
/// <param name="Value">Its bytes; may be empty.</param>
public sealed record EntryExtension(byte Tag, ReadOnlyMemory<byte> Value);
