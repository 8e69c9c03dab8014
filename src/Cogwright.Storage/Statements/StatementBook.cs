using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>The countersigned statements.</summary>
internal sealed class StatementBook(
    ShopDatabase database,
    LogReader logs,
    ShopWriter writer,
    TimeProvider clock
)
{
    // Servers that countersign one log at the same moment take turns; more than a handful of turns is a fault.
    private const int MostTurns = 20;

    internal async Task<CountersignedHeads> CountersignAsync(
        LogId log,
        ICountersigner signer,
        CancellationToken cancellation
    )
    {
        for (var turn = 0; turn < MostTurns; turn++)
        {
            // The statement before first: the log read after it holds at least as much.
            var before = await ReadAsync(log, lastOnly: true, cancellation).ConfigureAwait(false);
            var loaded = await logs.LoadAsync(log, cancellation).ConfigureAwait(false);
            var made = HeadStatement.On(
                loaded,
                clock.GetUtcNow().UtcTicks,
                signer.Key,
                before is [var last] ? last.Statement : null
            );
            if (!made.IsGood)
            {
                throw StoreFaultException.Of(StoreFaultKind.Nothing, made.Fault.Text);
            }
            var signature = await signer.SignAsync(made.Value.Encoded).ConfigureAwait(false);
            var signed = new CountersignedHeads(made.Value, signature);
            if (
                await writer
                    .WriteAsync(new AddStatementWork(signed), cancellation)
                    .ConfigureAwait(false)
            )
            {
                return signed;
            }
        }
        throw StoreFaultException.Of(StoreFaultKind.Locked, Texts.Get("statement.turns", log));
    }

    internal async Task<ImmutableArray<CountersignedHeads>> ReadAsync(
        LogId log,
        bool lastOnly,
        CancellationToken cancellation
    )
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync(
                """
                SELECT "Serial", "Encoded", "Signature" FROM "Statements"
                WHERE "Log" = @log AND "Serial" >= CASE WHEN @last THEN (SELECT MAX("Serial") FROM "Statements" WHERE "Log" = @log) ELSE 0 END
                ORDER BY "Serial"
                """,
                ("log", log.Value),
                ("last", lastOnly)
            )
            .ConfigureAwait(false);
        var statements = ImmutableArray.CreateBuilder<CountersignedHeads>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            var read = HeadStatement.Read(reader.GetFieldValue<byte[]>(1));
            statements.Add(
                read.IsGood
                    ? new CountersignedHeads(read.Value, reader.GetFieldValue<byte[]>(2))
                    : throw StoreFaultException.Of(
                        StoreFaultKind.Damaged,
                        Texts.Get(
                            "statement.unreadable",
                            database.Place,
                            log,
                            reader.GetInt64(0),
                            read.Fault
                        )
                    )
            );
        }
        return statements.ToImmutable();
    }
}
