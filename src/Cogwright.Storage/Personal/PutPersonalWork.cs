using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Takes in a personal datum.</summary>
internal sealed class PutPersonalWork(
    StoreOptions options,
    LogId log,
    PersonalDatum datum,
    string contentType
) : WriteWork<PersonalAnswer>
{
    private PersonalAnswer answer = new(PersonalStatus.Stored);

    internal override Guid Log => log.Value;

    internal override bool LocksShop => true;

    internal override long SizeBytes => datum.Data.Length;

    internal override async Task RunAsync(WriteTransaction transaction)
    {
        await transaction.LockAsync(Log).ConfigureAwait(false);
        var commands = transaction.Commands;
        var digest = datum.Digest.ToBytes();
        if (
            await commands
                .ScalarAsync(
                    """SELECT 1 FROM "Erasures" WHERE "Digest" = @digest""",
                    ("digest", digest)
                )
                .ConfigureAwait(false)
            is not null
        )
        {
            answer = Refused(StoreFaultKind.Erased, Texts.Get("personal.erased", datum.Digest));
            return;
        }
        if (
            await commands
                .ScalarAsync(
                    """SELECT 1 FROM "Personal" WHERE "Digest" = @digest""",
                    ("digest", digest)
                )
                .ConfigureAwait(false)
            is not null
        )
        {
            answer = new PersonalAnswer(PersonalStatus.Exists);
            return;
        }
        if (await OverQuotaAsync(commands).ConfigureAwait(false) is { } over)
        {
            answer = Refused(StoreFaultKind.OverQuota, over);
            return;
        }
        await commands
            .RunAsync(
                """
                INSERT INTO "Personal" ("Digest", "Log", "ContentType", "SizeBytes", "StoredTicks", "Salt", "Data")
                VALUES (@digest, @log, @type, @size, @now, @salt, @data)
                """,
                ("digest", digest),
                ("log", Log),
                ("type", contentType),
                ("size", SizeBytes),
                ("now", transaction.NowTicks),
                ("salt", datum.Salt.ToArray()),
                ("data", datum.Data.ToArray())
            )
            .ConfigureAwait(false);
        if (contentType.StartsWith("text/", StringComparison.Ordinal))
        {
            await transaction.UnfoldAsync(Log).ConfigureAwait(false);
        }
        answer = new PersonalAnswer(PersonalStatus.Stored);
    }

    protected override PersonalAnswer Answer(ErasedBytes bytes) => answer;

    private async Task<string?> OverQuotaAsync(CommandSet commands)
    {
        var ofJob = (long)
            (
                await commands
                    .ScalarAsync(
                        """SELECT CAST(COALESCE(SUM("SizeBytes"), 0) AS BIGINT) FROM "Personal" WHERE "Log" = @log""",
                        ("log", Log)
                    )
                    .ConfigureAwait(false)
            )!;
        if (ofJob + SizeBytes > options.PhotoQuotaBytesPerJob)
        {
            return Texts.Get(
                "personal.overQuotaOfJob",
                log,
                ofJob,
                SizeBytes,
                options.PhotoQuotaBytesPerJob
            );
        }
        var ofShop = (long)
            (
                await commands
                    .ScalarAsync(
                        """SELECT CAST(COALESCE(SUM("SizeBytes"), 0) AS BIGINT) FROM "Personal" """
                    )
                    .ConfigureAwait(false)
            )!;
        return ofShop + SizeBytes > options.PhotoQuotaBytes
            ? Texts.Get("personal.overQuotaOfShop", ofShop, SizeBytes, options.PhotoQuotaBytes)
            : null;
    }

    private static PersonalAnswer Refused(StoreFaultKind kind, string text) =>
        new(PersonalStatus.Refused, new StoreFault(kind, text));
}
