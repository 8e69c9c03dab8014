using System.Collections.Immutable;
using Cogwright.Log;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>Entries to take in.</summary>
/// <param name="Entries">The bytes of each entry, base 64, as docs/theory/log.md describes them.</param>
internal sealed record AppendRequest(byte[][] Entries);

/// <summary>What became of entries that were sent.</summary>
/// <param name="Epoch">The life of the server's store.</param>
/// <param name="Answers">One for each entry, in the order sent.</param>
internal sealed record AppendAnswer(Guid Epoch, ImmutableArray<EntryAnswer> Answers);

/// <summary>What became of one entry.</summary>
/// <param name="Id">The entry.</param>
/// <param name="Hash">Of what the server holds under that id; of what was sent, if that was refused. Hexadecimal.</param>
/// <param name="Status">"created", "exists" or "refused".</param>
/// <param name="Reason">Why it was refused; empty otherwise.</param>
internal sealed record EntryAnswer(Guid Id, string Hash, string Status, string Reason)
{
    internal static EntryAnswer Of(Answer answer) =>
        new(
            answer.Id.Value,
            answer.Hash.ToString(),
            answer.Status switch
            {
                AnswerStatus.Created => "created",
                AnswerStatus.Exists => "exists",
                _ => "refused",
            },
            answer.Reason
        );
}

/// <summary>Some entries as they were received.</summary>
/// <param name="Epoch">The life of the server's store.</param>
/// <param name="After">The receipt number behind which the page begins.</param>
/// <param name="Last">The receipt number of the last entry on it.</param>
/// <param name="Entries">The bytes of each entry, base 64.</param>
/// <param name="Tips">The ends of all chains.</param>
/// <param name="HasMore">Whether more are there.</param>
internal sealed record PullAnswer(
    Guid Epoch,
    long After,
    long Last,
    ImmutableArray<ReadOnlyMemory<byte>> Entries,
    ImmutableArray<TipAnswer> Tips,
    bool HasMore
)
{
    internal static PullAnswer Of(PullPage page) =>
        new(
            page.Epoch,
            page.After,
            page.Last,
            [.. page.Entries.Select(entry => entry.Encoded)],
            [.. page.Tips.Select(TipAnswer.Of)],
            page.HasMore
        );
}

/// <summary>The ends of the chains of a job.</summary>
/// <param name="Epoch">The life of the server's store.</param>
/// <param name="Tips">The ends.</param>
internal sealed record TipsAnswer(Guid Epoch, ImmutableArray<TipAnswer> Tips);

/// <summary>The end of a device's chain.</summary>
/// <param name="Device">The device.</param>
/// <param name="Sequence">The number of its last entry.</param>
/// <param name="Id">That entry.</param>
/// <param name="Hash">Its hash, hexadecimal.</param>
internal sealed record TipAnswer(Guid Device, long Sequence, Guid Id, string Hash)
{
    internal static TipAnswer Of(ChainTip tip) =>
        new(tip.Device.Value, tip.Sequence, tip.Id.Value, tip.Hash.ToString());
}

/// <summary>A job that is here.</summary>
/// <param name="Job">The job.</param>
/// <param name="LastReceipt">How many entries it has.</param>
/// <param name="Created">When its first entry came, by the server's clock.</param>
internal sealed record JobAnswer(Guid Job, long LastReceipt, DateTimeOffset Created)
{
    internal static JobAnswer Of(LogSummary log) =>
        new(log.Log.Value, log.LastReceipt, new DateTimeOffset(log.CreatedTicks, TimeSpan.Zero));
}

/// <summary>A signed statement about a job.</summary>
/// <param name="Serial">Its number, from 1.</param>
/// <param name="Count">How many entries the chains hold.</param>
/// <param name="Stated">The server's time.</param>
/// <param name="Key">The name of the key.</param>
/// <param name="Encoded">The bytes that are signed, base 64.</param>
/// <param name="Signature">The signature, base 64.</param>
internal sealed record StatementAnswer(
    long Serial,
    long Count,
    DateTimeOffset Stated,
    string Key,
    ReadOnlyMemory<byte> Encoded,
    ReadOnlyMemory<byte> Signature
)
{
    internal static StatementAnswer Of(CountersignedHeads heads) =>
        new(
            heads.Statement.Serial,
            heads.Statement.Count,
            new DateTimeOffset(heads.Statement.ServerTicks, TimeSpan.Zero),
            heads.Statement.Key,
            heads.Statement.Encoded,
            heads.Signature
        );
}
