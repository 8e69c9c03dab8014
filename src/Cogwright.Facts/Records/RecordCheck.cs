using System.Collections.Immutable;
using Cogwright.Log;
using Cogwright.Setup.Records;

namespace Cogwright.Facts.Records;

/// <summary>What a check of a record found to be wrong.</summary>
public enum RecordFault
{
    /// <summary>An entry cannot be read.</summary>
    EntryUnreadable,

    /// <summary>A chain does not hold: an entry was changed, taken out or put in.</summary>
    ChainBroken,

    /// <summary>A statement cannot be read, or is of another log.</summary>
    StatementUnreadable,

    /// <summary>The signature of a statement does not hold, or its key is missing or not the one named.</summary>
    SignatureWrong,

    /// <summary>The entries are not those that the server stated.</summary>
    StatementDiffers,

    /// <summary>What the record prints does not follow from the entries.</summary>
    PrintedDiffers,

    /// <summary>The pages of the PDF are not those that the record makes.</summary>
    PagesDiffer,

    /// <summary>The log that it was held against has other entries.</summary>
    LogDiffers,
}

/// <summary>One thing that is wrong. Immutable.</summary>
/// <param name="Fault">What.</param>
/// <param name="Where">Where.</param>
/// <param name="Text">What it is, where, and what to do next.</param>
public sealed record RecordFinding(RecordFault Fault, string Where, string Text);

/// <summary>What a check of a record came to. Immutable.</summary>
/// <param name="Findings">What is wrong; empty when nothing was found.</param>
/// <param name="Proven">What was checked and holds, in sentences; says no more than was checked.</param>
/// <param name="NotProven">What the check cannot say, in sentences; never empty.</param>
public sealed record RecordReport(
    ImmutableArray<RecordFinding> Findings,
    ImmutableArray<string> Proven,
    ImmutableArray<string> NotProven
);

/// <summary>
/// Holds a record against itself and, where one is given, against the log: chains, countersignature, what is printed. Pure but
/// for the check of signatures, which is handed in.
/// </summary>
public static class RecordCheck
{
    /// <summary>Checks a record.</summary>
    /// <param name="file">The record.</param>
    /// <param name="signatures">Checks signatures with the keys of the file.</param>
    /// <param name="trustedKey">The name of the key that is known to be the shop's; null: not known.</param>
    /// <param name="against">A full export of the log; null: none was given.</param>
    public static async ValueTask<RecordReport> OfAsync(
        RecordFile file,
        ICountersignatureCheck signatures,
        string? trustedKey = null,
        FiledEntries? against = null
    )
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(signatures);
        var check = new Running(file);
        check.Chains();
        await check.StatementsAsync(signatures, trustedKey).ConfigureAwait(false);
        check.Printed();
        check.Against(against);
        return check.Close();
    }

    private sealed class Running(RecordFile file)
    {
        private readonly ImmutableArray<RecordFinding>.Builder findings =
            ImmutableArray.CreateBuilder<RecordFinding>();

        private readonly ImmutableArray<string>.Builder proven =
            ImmutableArray.CreateBuilder<string>();

        private readonly ImmutableArray<string>.Builder open =
            ImmutableArray.CreateBuilder<string>();

        private readonly EntryLog log = new(file.Log);
        private readonly List<CountersignedHeads> stated = [];
        private ImmutableArray<CountersignedHeads> believed = [];

        internal RecordReport Close()
        {
            open.Add(Texts.Get("verify.not.people"));
            open.Add(Texts.Get("verify.not.clocks"));
            open.Add(Texts.Get("verify.not.readings"));
            open.Add(Texts.Get("verify.not.words"));
            return new(findings.ToImmutable(), proven.ToImmutable(), open.ToImmutable());
        }

        internal void Chains()
        {
            var entries = new List<Entry>();
            var places = new Dictionary<EntryId, int>();
            foreach (var (index, bytes) in file.Entries.Index())
            {
                var read = Entry.Read(bytes.Span);
                if (read.IsGood)
                {
                    entries.Add(read.Value);
                    places.TryAdd(read.Value.Id, index + 1);
                }
                else
                {
                    Found(
                        RecordFault.EntryUnreadable,
                        Place(index + 1),
                        Texts.Get("verify.entry", index + 1, read.Fault.Text)
                    );
                }
            }
            foreach (var finding in ChainCheck.Of(file.Log, entries.Select(StoredEntry.Of)))
            {
                Found(
                    RecordFault.ChainBroken,
                    finding.Id is { } id && places.TryGetValue(id, out var at) ? Place(at) : "",
                    Texts.Get("verify.chain", finding.Text)
                );
            }
            log.Merge(entries.Where(entry => entry.Log == file.Log));
            foreach (var waiting in log.Waiting)
            {
                Found(
                    RecordFault.ChainBroken,
                    waiting.Entry.Id.ToString(),
                    Texts.Get(
                        "verify.parents",
                        waiting.Entry,
                        waiting.MissingIds.Length + (waiting.MissingPrevious is null ? 0 : 1)
                    )
                );
            }
            foreach (var refused in log.Refused)
            {
                Found(
                    RecordFault.ChainBroken,
                    refused.Entry.Id.ToString(),
                    Texts.Get("verify.chain", refused.Fault.Text)
                );
            }
            if (findings.Count == 0)
            {
                proven.Add(Texts.Get("verify.chains", log.Count, log.Tips.Length));
            }
        }

        internal async ValueTask StatementsAsync(
            ICountersignatureCheck signatures,
            string? trustedKey
        )
        {
            var good = ImmutableArray.CreateBuilder<CountersignedHeads>();
            foreach (var (encoded, signature) in file.Statements)
            {
                var read = HeadStatement.Read(encoded.Span);
                if (!read.IsGood)
                {
                    Found(
                        RecordFault.StatementUnreadable,
                        Texts.Get("verify.statements"),
                        Texts.Get("verify.statement", read.Fault.Text)
                    );
                    continue;
                }
                var statement = read.Value;
                var where = Texts.Get("verify.statementAt", statement.Serial);
                if (statement.Log != file.Log)
                {
                    Found(
                        RecordFault.StatementUnreadable,
                        where,
                        Texts.Get("verify.otherLog", statement.Serial, statement.Log, file.Log)
                    );
                    continue;
                }
                stated.Add(new(statement, signature));
                if (
                    !await signatures
                        .HoldsAsync(statement.Key, encoded, signature)
                        .ConfigureAwait(false)
                )
                {
                    Found(
                        RecordFault.SignatureWrong,
                        where,
                        Texts.Get("verify.signature", statement.Serial, statement.Key)
                    );
                    continue;
                }
                if (trustedKey is not null && trustedKey != statement.Key)
                {
                    Found(
                        RecordFault.SignatureWrong,
                        where,
                        Texts.Get("verify.otherKey", statement.Serial, statement.Key, trustedKey)
                    );
                    continue;
                }
                var differs = StatementCheck.Against(statement, log);
                foreach (var finding in differs)
                {
                    Found(
                        RecordFault.StatementDiffers,
                        where,
                        Texts.Get("verify.stated", finding.Text)
                    );
                }
                if (differs.IsEmpty)
                {
                    good.Add(new(statement, signature));
                }
            }
            believed = good.ToImmutable();
            Covered(trustedKey);
        }

        private void Covered(string? trustedKey)
        {
            // Each statement speaks for itself: whoever adds one with a key of their own covers nothing for the shop's.
            foreach (var (statement, _) in believed)
            {
                proven.Add(
                    Texts.Get(
                        "verify.countersigned",
                        log.Count - JobRecord.Uncovered(log, statement),
                        log.Count,
                        statement.Key,
                        ProofWords.Time(statement.ServerTicks, file.OffsetMinutes),
                        statement.Serial
                    )
                );
            }
            foreach (var of in believed.GroupBy(each => each.Statement.Key))
            {
                if (trustedKey is null)
                {
                    open.Add(Texts.Get("verify.not.key", of.Key));
                }
                Uncovered(of.Min(each => JobRecord.Uncovered(log, each.Statement)), of.Key);
            }
            if (believed.IsEmpty)
            {
                Uncovered(log.Count, null);
            }
        }

        private void Uncovered(int count, string? key)
        {
            if (count > 0)
            {
                open.Add(
                    key is null
                        ? Texts.Get("verify.not.countersigned", count)
                        : Texts.Get("verify.not.countersignedWith", count, key)
                );
            }
        }

        internal void Printed()
        {
            var before = findings.Count;
            var made = JobRecord.Of(log, file.Job, AskOf(file, [.. stated]));
            if (made is null)
            {
                Found(
                    RecordFault.PrintedDiffers,
                    "",
                    Texts.Get("verify.noJob", file.Job, file.Log)
                );
                return;
            }
            var lines = made.Content.Lines().ToImmutableArray();
            for (var i = 0; i < Math.Max(lines.Length, file.Printed.Length); i++)
            {
                var printed = i < file.Printed.Length ? file.Printed[i] : null;
                var follows = i < lines.Length ? lines[i] : null;
                if (printed != follows)
                {
                    Found(
                        RecordFault.PrintedDiffers,
                        (printed ?? follows)!.Place,
                        Texts.Get(
                            "verify.printed",
                            (printed ?? follows)!.Place,
                            printed?.Text ?? "–",
                            follows?.Text ?? "–"
                        )
                    );
                }
            }
            if (findings.Count == before)
            {
                proven.Add(Texts.Get("verify.follows", lines.Length));
            }
            if (lines.Any(line => line.Text.Contains(RecordMarks.AsNow, StringComparison.Ordinal)))
            {
                open.Add(Texts.Get("verify.not.asNow"));
            }
        }

        internal void Against(FiledEntries? against)
        {
            if (against is null)
            {
                open.Add(Texts.Get("verify.not.log"));
                return;
            }
            var before = findings.Count;
            foreach (var text in against.Unreadable)
            {
                Found(RecordFault.LogDiffers, "--log", Texts.Get("verify.log.unreadable", text));
            }
            var theirs = against.LogOf(file.Log);
            if (theirs.Count == 0)
            {
                Found(RecordFault.LogDiffers, "--log", Texts.Get("verify.log.other", file.Log));
                return;
            }
            foreach (
                var finding in ChainCheck.Of(
                    file.Log,
                    against
                        .Entries.Where(entry => entry.Log == file.Log)
                        .DistinctBy(entry => entry.Hash)
                        .Select(StoredEntry.Of)
                )
            )
            {
                Found(RecordFault.LogDiffers, "--log", Texts.Get("verify.log.chain", finding.Text));
            }
            foreach (var entry in log.Ordered)
            {
                if (theirs.Find(entry.Id) is not { } held)
                {
                    Found(
                        RecordFault.LogDiffers,
                        entry.Id.ToString(),
                        Texts.Get("verify.log.lacks", entry)
                    );
                }
                else if (held.Hash != entry.Hash)
                {
                    Found(
                        RecordFault.LogDiffers,
                        entry.Id.ToString(),
                        Texts.Get("verify.log.rewritten", entry)
                    );
                }
            }
            var tips = log.Tips.ToLookup(tip => tip.Device);
            foreach (
                var entry in theirs.Ordered.Where(entry =>
                    log.Find(entry.Id) is null
                    && tips[entry.Device].Any(tip => tip.Sequence >= entry.Sequence)
                )
            )
            {
                Found(
                    RecordFault.LogDiffers,
                    entry.Id.ToString(),
                    Texts.Get("verify.log.hidden", entry)
                );
            }
            foreach (var (statement, _) in against.StatementsOn(file.Log))
            {
                foreach (var finding in StatementCheck.Against(statement, theirs))
                {
                    Found(
                        RecordFault.LogDiffers,
                        Texts.Get("verify.statementAt", statement.Serial),
                        Texts.Get("verify.log.stated", finding.Text)
                    );
                }
            }
            if (findings.Count == before)
            {
                proven.Add(Texts.Get("verify.log.holds", log.Count, theirs.Count - log.Count));
                if (theirs.Count > log.Count)
                {
                    open.Add(Texts.Get("verify.not.more", theirs.Count - log.Count));
                }
            }
        }

        private static string Place(int number) => Texts.Get("verify.entryAt", number);

        private void Found(RecordFault fault, string where, string text) =>
            findings.Add(new(fault, where, text));
    }

    /// <summary>The record as its entries and statements make it now; null when they have no such job.</summary>
    /// <param name="file">The record.</param>
    public static JobRecord? Remade(RecordFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        var filed = new FiledEntries([
            .. file
                .Entries.Select(bytes => Entry.Read(bytes.Span))
                .Where(read => read.IsGood)
                .Select(read => read.Value!),
        ])
        {
            Statements = file.Statements,
        };
        return JobRecord.Of(
            filed.LogOf(file.Log),
            file.Job,
            AskOf(file, filed.StatementsOn(file.Log))
        );
    }

    /// <summary>How a record is made again from its file.</summary>
    /// <param name="file">The record.</param>
    /// <param name="statements">The statements to print.</param>
    public static RecordAsk AskOf(RecordFile file, ImmutableArray<CountersignedHeads> statements)
    {
        ArgumentNullException.ThrowIfNull(file);
        return new()
        {
            Address = file.Address,
            OffsetMinutes = file.OffsetMinutes,
            Statements = statements,
        };
    }
}
