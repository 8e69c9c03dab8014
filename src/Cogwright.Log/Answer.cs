namespace Cogwright.Log;

/// <summary>What a server says of one entry that was sent. An entry that waits for its parents there is created all the same.</summary>
/// <param name="Id">The entry.</param>
/// <param name="Hash">The hash of what the server holds under that id; of what was sent, if it was refused.</param>
/// <param name="Status">What became of it.</param>
/// <param name="Reason">Why it was refused; empty otherwise.</param>
public sealed record Answer(EntryId Id, Digest Hash, AnswerStatus Status, string Reason = "");
