using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// Holds a log against countersigned statements: a cut tail, a rewritten past and a statement left out show here. An empty
/// answer means that everything the statements speak of is here, unchanged; the log may have grown since.
/// </summary>
public static class StatementCheck
{
    /// <summary>Holds a log against one statement, its signature left aside.</summary>
    public static ImmutableArray<StatementFinding> Against(HeadStatement statement, EntryLog log)
    {
        ArgumentNullException.ThrowIfNull(statement);
        ArgumentNullException.ThrowIfNull(log);
        if (statement.Log != log.Id)
        {
            return
            [
                Finding(
                    StatementStatus.OtherLog,
                    statement,
                    null,
                    "check.otherLog",
                    statement.Log,
                    log.Id
                ),
            ];
        }
        ImmutableArray<StatementFinding> chains =
        [
            .. statement
                .Tips.Where(tip => log.WithHash(tip.Hash) is not { } held || !IsAt(tip, held))
                .Select(tip => OfChain(statement, tip, log)),
        ];
        if (!chains.IsEmpty)
        {
            return chains;
        }
        var count = log.CountUpTo(statement.Tips);
        return count == statement.Count
            ? []
            :
            [
                Finding(
                    StatementStatus.CountDiffers,
                    statement,
                    null,
                    "check.count",
                    statement.Count,
                    count
                ),
            ];
    }

    /// <summary>
    /// Checks the statements on one log among themselves, ascending by serial: every signature, that none was left out
    /// between, and that none holds less than the one before.
    /// </summary>
    public static async ValueTask<ImmutableArray<StatementFinding>> AmongAsync(
        IReadOnlyList<CountersignedHeads> statements,
        ICountersignatureCheck signatures
    )
    {
        ArgumentNullException.ThrowIfNull(statements);
        ArgumentNullException.ThrowIfNull(signatures);
        var found = ImmutableArray.CreateBuilder<StatementFinding>();
        HeadStatement? before = null;
        foreach (var (statement, signature) in statements)
        {
            var holds = await signatures
                .HoldsAsync(statement.Key, statement.Encoded, signature)
                .ConfigureAwait(false);
            if (!holds)
            {
                found.Add(
                    Finding(
                        StatementStatus.SignatureWrong,
                        statement,
                        null,
                        "check.signature",
                        statement.Key
                    )
                );
            }
            found.AddRange(Follows(before, statement));
            before = statement;
        }
        return found.ToImmutable();
    }

    private static IEnumerable<StatementFinding> Follows(
        HeadStatement? before,
        HeadStatement statement
    )
    {
        if (before is null)
        {
            // The first one handed in may be any: a record prints only the last ones.
            yield break;
        }
        if (before.Log != statement.Log)
        {
            yield return Finding(
                StatementStatus.OtherLog,
                statement,
                null,
                "check.otherLog",
                statement.Log,
                before.Log
            );
            yield break;
        }
        if (statement.Serial != before.Serial + 1 || statement.Previous != before.Hash)
        {
            yield return Finding(
                StatementStatus.StatementMissing,
                statement,
                null,
                "check.missing",
                before.Serial
            );
        }
        foreach (var tip in before.Tips.Where(tip => !IsCovered(tip, statement)))
        {
            yield return Finding(
                StatementStatus.Shrunk,
                statement,
                tip,
                "check.shrunk",
                tip.Device,
                tip.Sequence
            );
        }
    }

    /// <summary>As far as tips alone can tell: the same end, or one further along.</summary>
    private static bool IsCovered(ChainTip tip, HeadStatement later) =>
        later.Tips.Any(other =>
            other.Device == tip.Device && (other.Sequence > tip.Sequence || other == tip)
        );

    private static bool IsAt(ChainTip tip, Entry held) =>
        (held.Device, held.Sequence, held.Id) == (tip.Device, tip.Sequence, tip.Id);

    private static StatementFinding OfChain(HeadStatement statement, ChainTip tip, EntryLog log)
    {
        var last = log.LastSequenceOf(tip.Device);
        return last < tip.Sequence
            ? Finding(
                StatementStatus.TailMissing,
                statement,
                tip,
                "check.tail",
                tip.Device,
                last + 1,
                tip.Sequence
            )
            : Finding(
                StatementStatus.Rewritten,
                statement,
                tip,
                "check.rewritten",
                tip.Device,
                tip.Sequence,
                tip.Id
            );
    }

    private static StatementFinding Finding(
        StatementStatus status,
        HeadStatement statement,
        ChainTip? tip,
        string key,
        params ReadOnlySpan<object?> values
    ) => new(status, statement.Serial, tip, Texts.Get(key, [statement.Serial, .. values]));
}
