using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>A log that is here.</summary>
/// <param name="Log">The log.</param>
/// <param name="LastReceipt">How many entries it has, those that wait for others included.</param>
/// <param name="CreatedTicks">When its first entry came: 100 ns since the year 1, UTC, by the server's clock.</param>
public sealed record LogSummary(LogId Log, long LastReceipt, long CreatedTicks);
