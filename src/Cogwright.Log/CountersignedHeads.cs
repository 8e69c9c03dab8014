namespace Cogwright.Log;

/// <summary>A statement with the server's signature over its bytes.</summary>
/// <param name="Statement">The statement.</param>
/// <param name="Signature">The signature over <see cref="HeadStatement.Encoded"/>.</param>
public sealed record CountersignedHeads(HeadStatement Statement, ReadOnlyMemory<byte> Signature);
