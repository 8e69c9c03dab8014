using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>What records need of this device: a bike's whole log, and what the shop's server has stated of it.</summary>
internal sealed partial class DeviceShelf
{
    private const string StatementPrefix = "statement:";

    /// <summary>The whole log of a bike that was opened; null otherwise.</summary>
    internal EntryLog? EntriesOf(string? id) => BikeOf(id)?.Log;

    /// <summary>The server's last statement on a bike's log that came here; none when none did. Its signature is not checked here.</summary>
    internal ImmutableArray<CountersignedHeads> StatementsOn(LogId log)
    {
        if (Remembered(StatementPrefix + log)?.Split(' ') is not [var encoded, var signature])
        {
            return [];
        }
        try
        {
            var read = HeadStatement.Read(Convert.FromBase64String(encoded));
            return read.IsGood ? [new(read.Value, Convert.FromBase64String(signature))] : [];
        }
        catch (FormatException)
        {
            return [];
        }
    }

    /// <summary>Keeps a statement beside the log, for when the server is gone.</summary>
    internal ValueTask KeepStatementAsync(CountersignedHeads stated) =>
        SetAsync(
            StatementPrefix + stated.Statement.Log,
            $"{Convert.ToBase64String(stated.Statement.Encoded.Span)} {Convert.ToBase64String(stated.Signature.Span)}"
        );
}
