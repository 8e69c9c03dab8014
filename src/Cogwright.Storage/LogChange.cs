using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>A log has grown.</summary>
/// <param name="Log">The log.</param>
/// <param name="Receipt">The receipt number of its last entry.</param>
public sealed record LogChange(LogId Log, long Receipt);
