using System.Collections.Immutable;
using System.Data.Common;
using Cogwright.Log;
using Cogwright.Parts;

namespace Cogwright.Storage;

/// <summary>
/// Reads everything once: the database's own check, every entry's bytes against its columns, receipt numbers, chains, what is
/// told of their ends, statements against entries, personal data against their digests. What cannot be read is a finding.
/// </summary>
internal sealed class StoreCheck(ShopDatabase database, ICountersignatureCheck? signatures)
{
    private readonly ImmutableArray<CheckFinding>.Builder findings =
        ImmutableArray.CreateBuilder<CheckFinding>();

    private long logs;
    private long entries;
    private long statements;
    private long personal;
    private long parts;

    internal async Task<CheckReport> RunAsync(CancellationToken cancellation)
    {
        await GuardAsync(
                null,
                async () =>
                {
                    foreach (
                        var said in await database.CheckAsync(cancellation).ConfigureAwait(false)
                    )
                    {
                        Damage(null, Texts.Get("check.database", database.Place, said));
                    }
                }
            )
            .ConfigureAwait(false);
        await GuardAsync(
                null,
                async () =>
                {
                    var all = await new LogReader(database)
                        .LogsAsync(cancellation)
                        .ConfigureAwait(false);
                    foreach (var log in all)
                    {
                        await GuardAsync(log.Log, () => CheckLogAsync(log.Log, cancellation))
                            .ConfigureAwait(false);
                        logs++;
                    }
                }
            )
            .ConfigureAwait(false);
        await GuardAsync(null, () => CheckPersonalAsync(cancellation)).ConfigureAwait(false);
        await GuardAsync(null, () => CheckPartsAsync(cancellation)).ConfigureAwait(false);
        return new CheckReport(logs, entries, statements, personal, findings.ToImmutable(), parts);
    }

    private async Task CheckLogAsync(LogId log, CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        // One state of the log, or entries that come meanwhile would look like damage.
        await using var transaction = await database
            .BeginReadingAsync(connection, cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(database, connection) { Transaction = transaction };
        var rows = await LogRows
            .ReadAsync(database, commands, log, cancellation)
            .ConfigureAwait(false);
        entries += rows.Entries.Length;
        foreach (var finding in ChainCheck.Of(log, rows.Entries))
        {
            findings.Add(
                new CheckFinding(
                    finding.Status is ChainStatus.Altered
                        ? CheckSeverity.Damage
                        : CheckSeverity.Note,
                    log,
                    finding.Text
                )
            );
        }
        for (var i = 0; i < rows.Receipts.Length; i++)
        {
            if (rows.Receipts[i] != i + 1)
            {
                Damage(log, Texts.Get("check.receipts", log, i + 1, rows.Receipts[i]));
                break;
            }
        }
        if (rows.Receipts.Length != rows.LastReceipt)
        {
            Damage(log, Texts.Get("check.count", log, rows.LastReceipt, rows.Receipts.Length));
        }
        var read = new EntryLog(log);
        Entry[] whole =
        [
            .. rows
                .Entries.Select(row => Entry.Read(row.Encoded.Span))
                .Where(entry => entry.IsGood)
                .Select(entry => entry.Value!),
        ];
        read.Merge(whole);
        CheckTips(rows, whole, read);
        await CheckStatementsAsync(commands, read, cancellation).ConfigureAwait(false);
    }

    /// <summary>An end that is told and not whole would make a device keep back what is missing here.</summary>
    private void CheckTips(LogRows rows, Entry[] whole, EntryLog read)
    {
        if (!WholeChains.EndsOf(whole).SetEquals(rows.Tips))
        {
            Damage(read.Id, Texts.Get("check.tips", read.Id));
        }
        if (read.WaitingCount > 0)
        {
            findings.Add(
                new CheckFinding(
                    CheckSeverity.Note,
                    read.Id,
                    Texts.Get("check.waiting", read.Id, read.WaitingCount)
                )
            );
        }
    }

    private async Task CheckStatementsAsync(
        CommandSet commands,
        EntryLog read,
        CancellationToken cancellation
    )
    {
        var signed = new List<CountersignedHeads>();
        using (
            var reader = await commands
                .ReadAsync(
                    """SELECT "Serial", "Encoded", "Signature" FROM "Statements" WHERE "Log" = @log ORDER BY "Serial" """,
                    ("log", read.Id.Value)
                )
                .ConfigureAwait(false)
        )
        {
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                statements++;
                var statement = HeadStatement.Read(reader.GetFieldValue<byte[]>(1));
                if (statement.IsGood)
                {
                    signed.Add(
                        new CountersignedHeads(statement.Value, reader.GetFieldValue<byte[]>(2))
                    );
                }
                else
                {
                    Damage(
                        read.Id,
                        Texts.Get(
                            "statement.unreadable",
                            database.Place,
                            read.Id,
                            reader.GetInt64(0),
                            statement.Fault
                        )
                    );
                }
            }
        }
        var among = await StatementCheck
            .AmongAsync(signed, signatures ?? new BelievedSignatures())
            .ConfigureAwait(false);
        foreach (
            var finding in among.Concat(
                signed.SelectMany(each => StatementCheck.Against(each.Statement, read))
            )
        )
        {
            Damage(read.Id, finding.Text);
        }
    }

    private async Task CheckPersonalAsync(CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync("""SELECT "Digest", "Log", "Salt", "Data", "SizeBytes" FROM "Personal" """)
            .ConfigureAwait(false);
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            personal++;
            var stated = Convert.ToHexStringLower(reader.GetFieldValue<byte[]>(0));
            var salt = reader.GetFieldValue<byte[]>(2);
            var data = reader.GetFieldValue<byte[]>(3);
            if (
                salt.Length != PersonalDatum.SaltBytes
                || data.Length != reader.GetInt64(4)
                || new PersonalDatum(salt, data).Digest.ToString() != stated
            )
            {
                Damage(
                    new LogId(database.GuidAt(reader, 1)),
                    Texts.Get("personal.altered", database.Place, stated)
                );
            }
        }
    }

    private async Task CheckPartsAsync(CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        await using var transaction = await database
            .BeginReadingAsync(connection, cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(database, connection) { Transaction = transaction };
        if (!await database.HasTableAsync(commands, "Parts").ConfigureAwait(false))
        {
            // A backup of before there was a library.
            return;
        }
        var revision =
            await commands
                .ScalarAsync("""SELECT "Revision" FROM "PartLibrary" WHERE "Number" = 1""")
                .ConfigureAwait(false) as long?;
        if (revision is null)
        {
            Damage(null, Texts.Get("parts.noRevision", database.Place));
        }
        using var reader = await commands
            .ReadAsync(
                """SELECT "Id", "Kind", "Name", "Maker", "Content", "Revision" FROM "Parts" """
            )
            .ConfigureAwait(false);
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            parts++;
            if (!IsAsWritten(reader) || reader.GetInt64(5) > revision)
            {
                Damage(null, Texts.Get("check.parts", database.Place, reader.GetString(0)));
            }
        }
    }

    private static bool IsAsWritten(DbDataReader row)
    {
        try
        {
            var part = PartText.Read(row.GetString(4));
            return part.Id == row.GetString(0)
                && PartKinds.NameOf(part.Kind) == row.GetString(1)
                && part.Name == row.GetString(2)
                && part.Maker == row.GetString(3)
                && PartText.Write(part) == row.GetString(4);
        }
        catch (FormatException)
        {
            return false;
        }
    }

    /// <summary>What cannot be read is found, and the rest is looked at all the same.</summary>
    private async Task GuardAsync(LogId? log, Func<Task> check)
    {
        try
        {
            await check().ConfigureAwait(false);
        }
        catch (Exception e) when (database.ReadingFaultOf(e) is { } fault)
        {
            Damage(log, fault.Fault.Text);
        }
    }

    private void Damage(LogId? log, string text) =>
        findings.Add(new CheckFinding(CheckSeverity.Damage, log, text));
}
