namespace Cogwright.Log;

/// <summary>An entry that the server has not confirmed. A store keeps it as a row.</summary>
/// <param name="Place">Its place in the queue; ascending, never used twice.</param>
/// <param name="Id">The entry.</param>
/// <param name="Hash">Its hash.</param>
/// <param name="SizeBytes">The length of its encoding, in bytes.</param>
/// <param name="State">How far it has come.</param>
/// <param name="Reason">Why it was refused, in the server's words; empty otherwise.</param>
public sealed record OutboxItem(
    long Place,
    EntryId Id,
    Digest Hash,
    int SizeBytes,
    OutboxState State = OutboxState.Unsent,
    string Reason = ""
);
