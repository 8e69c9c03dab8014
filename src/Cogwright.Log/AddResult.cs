namespace Cogwright.Log;

/// <summary>What became of an entry that was given to a log.</summary>
/// <param name="Status">What became of it.</param>
/// <param name="Fault">Why it was refused; null otherwise.</param>
public sealed record AddResult(AddStatus Status, LogFault? Fault = null);
