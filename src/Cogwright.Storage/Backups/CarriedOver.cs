namespace Cogwright.Storage;

/// <summary>What must not come back with a backup: erased data, revoked links, sessions.</summary>
internal static class CarriedOver
{
    /// <summary>Takes over erasures and revocations from the present data.</summary>
    /// <param name="commands">The arriving data.</param>
    /// <param name="present">The schema of the present data: a name that this program made.</param>
    /// <returns>How many data were erased again.</returns>
    internal static async Task<long> RunAsync(CommandSet commands, string present)
    {
        await commands
            .RunAsync(
                $"""
                INSERT INTO "Erasures" ("Digest", "Log", "ErasedTicks")
                SELECT "Digest", "Log", "ErasedTicks" FROM "{present}"."Erasures" WHERE true ON CONFLICT ("Digest") DO NOTHING
                """
            )
            .ConfigureAwait(false);
        var erased = await commands
            .RunAsync(
                """DELETE FROM "Personal" WHERE "Digest" IN (SELECT "Digest" FROM "Erasures")"""
            )
            .ConfigureAwait(false);
        await commands
            .RunAsync(
                $"""
                UPDATE "CustomerLinks" SET "RevokedTicks" =
                    (SELECT "RevokedTicks" FROM "{present}"."CustomerLinks" AS "later" WHERE "later"."Id" = "CustomerLinks"."Id")
                WHERE "RevokedTicks" IS NULL
                """
            )
            .ConfigureAwait(false);
        return erased;
    }

    /// <summary>Ends every session: whoever was shut out since the backup must not come in again by it.</summary>
    internal static Task<int> EndSessionsAsync(CommandSet commands, long nowTicks) =>
        commands.RunAsync(
            """UPDATE "DeviceSessions" SET "RevokedTicks" = @now WHERE "RevokedTicks" IS NULL""",
            ("now", nowTicks)
        );
}
