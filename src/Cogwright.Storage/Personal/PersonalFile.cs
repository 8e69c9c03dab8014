using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>A personal datum or photo as it lies beside a log.</summary>
/// <param name="Log">The log.</param>
/// <param name="Datum">The datum with its salt.</param>
/// <param name="ContentType">What it is, as the device said; a server must not believe it when it serves it.</param>
/// <param name="StoredTicks">When it came: 100 ns since the year 1, UTC, by the server's clock.</param>
public sealed record PersonalFile(
    LogId Log,
    PersonalDatum Datum,
    string ContentType,
    long StoredTicks
);
