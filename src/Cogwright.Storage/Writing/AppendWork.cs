using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Takes in entries of one log.</summary>
internal sealed class AppendWork(Guid epoch, LogId log, IReadOnlyList<Entry> entries)
    : WriteWork<AnswerPage>
{
    // Evidence of what a broken or hostile device sent; it must not fill the disk.
    private const long MostRefusedPerLog = 1000;

    private readonly ImmutableArray<Answer>.Builder answers = ImmutableArray.CreateBuilder<Answer>(
        entries.Count
    );

    internal override Guid Log => log.Value;

    /// <summary>The entries that belong here, for whoever looks all of a transaction up at once.</summary>
    internal IEnumerable<Entry> Entries => entries.Where(entry => entry.Log == log);

    internal override long SizeBytes { get; } = entries.Sum(entry => (long)entry.Encoded.Length);

    internal override async Task RunAsync(WriteTransaction transaction)
    {
        answers.Clear();
        foreach (var entry in entries)
        {
            answers.Add(
                entry.Log == log
                    ? await TakeAsync(transaction, entry).ConfigureAwait(false)
                    : new Answer(
                        entry.Id,
                        entry.Hash,
                        AnswerStatus.Refused,
                        Texts.Get("append.otherLog", entry, entry.Log, log)
                    )
            );
        }
    }

    protected override AnswerPage Answer(ErasedBytes bytes) => new(epoch, answers.ToImmutable());

    private async Task<Answer> TakeAsync(WriteTransaction transaction, Entry entry)
    {
        var locked = await transaction.LockAsync(Log).ConfigureAwait(false);
        var commands = transaction.Commands;
        if (await transaction.HeldAsync(Log, entry.Id.Value).ConfigureAwait(false) is { } bytes)
        {
            var hash = new Digest(bytes);
            return hash == entry.Hash
                ? new Answer(entry.Id, hash, AnswerStatus.Exists)
                : await RefuseAsync(transaction, entry, hash).ConfigureAwait(false);
        }
        var isLinked = await ChainLinks.LinkAsync(transaction, entry).ConfigureAwait(false);
        transaction.Holds(Log, entry.Id.Value, entry.Hash.ToBytes());
        await commands
            .LaterAsync(
                """
                INSERT INTO "Entries" ("Log", "Receipt", "Id", "Device", "Sequence", "Hash", "Previous", "IsLinked", "ReceivedTicks", "Encoded")
                VALUES (@log, @receipt, @id, @device, @sequence, @hash, @previous, @linked, @now, @encoded)
                """,
                ("log", Log),
                ("receipt", locked.NextReceipt()),
                ("id", entry.Id.Value),
                ("device", entry.Device.Value),
                ("sequence", entry.Sequence),
                ("hash", entry.Hash.ToBytes()),
                ("previous", entry.Previous?.ToBytes()),
                ("linked", isLinked),
                ("now", transaction.NowTicks),
                ("encoded", entry.Encoded.ToArray())
            )
            .ConfigureAwait(false);
        if (!isLinked)
        {
            locked.Unlinked++;
        }
        else if (locked.Unlinked > 0)
        {
            await ChainLinks.LinkFollowersAsync(transaction, locked, entry).ConfigureAwait(false);
        }
        return new Answer(entry.Id, entry.Hash, AnswerStatus.Created);
    }

    private async Task<Answer> RefuseAsync(WriteTransaction transaction, Entry entry, Digest held)
    {
        await transaction
            .Commands.RunAsync(
                """
                INSERT INTO "Refused" ("Log", "Hash", "Id", "ReceivedTicks", "Encoded")
                SELECT @log, @hash, @id, @now, @encoded
                WHERE (SELECT COUNT(*) FROM "Refused" WHERE "Log" = @log) < @most
                ON CONFLICT ("Log", "Hash") DO NOTHING
                """,
                ("log", Log),
                ("hash", entry.Hash.ToBytes()),
                ("id", entry.Id.Value),
                ("now", transaction.NowTicks),
                ("encoded", entry.Encoded.ToArray()),
                ("most", MostRefusedPerLog)
            )
            .ConfigureAwait(false);
        return new Answer(
            entry.Id,
            entry.Hash,
            AnswerStatus.Refused,
            Texts.Get("append.clash", entry, held, entry.Hash)
        );
    }
}
