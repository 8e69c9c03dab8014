namespace Cogwright.Storage;

/// <summary>What must not come back with a backup: erased data, revoked links, people who were shut out, sessions.</summary>
/// <param name="ErasedAgain">How many data were erased again.</param>
/// <param name="ShutOutAgain">How many accounts were shut out again.</param>
internal readonly record struct CarriedOver(long ErasedAgain, long ShutOutAgain)
{
    /// <summary>Takes over erasures, revocations and who is shut out from the present data.</summary>
    /// <param name="commands">The arriving data.</param>
    /// <param name="present">The schema of the present data: a name that this program made.</param>
    internal static async Task<CarriedOver> RunAsync(CommandSet commands, string present)
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
        return new CarriedOver(erased, await ShutOutAsync(commands, present).ConfigureAwait(false));
    }

    /// <summary>Ends every session: whoever was shut out since the backup must not come in again by it.</summary>
    internal static Task<int> EndSessionsAsync(CommandSet commands, long nowTicks) =>
        commands.RunAsync(
            """UPDATE "DeviceSessions" SET "RevokedTicks" = @now WHERE "RevokedTicks" IS NULL""",
            ("now", nowTicks)
        );

    /// <summary>
    /// Who is switched off now stays so, and who is locked out for a time stays so for that time. Who is not here any more was
    /// taken out, if the present data are a later state of the backup; in other data nobody of the backup ever was.
    /// </summary>
    private static async Task<long> ShutOutAsync(CommandSet commands, string present)
    {
        var shutOut = await commands
            .RunAsync(
                $"""
                UPDATE "AspNetUsers" SET "Active" = FALSE
                WHERE "Active" AND (
                    EXISTS (
                        SELECT 1 FROM "{present}"."AspNetUsers" AS "later"
                        WHERE "later"."Id" = "AspNetUsers"."Id" AND NOT "later"."Active")
                    OR (
                        NOT EXISTS (
                            SELECT 1 FROM "{present}"."AspNetUsers" AS "later" WHERE "later"."Id" = "AspNetUsers"."Id")
                        AND EXISTS (
                            SELECT 1 FROM "{present}"."Epochs" AS "life"
                            WHERE "life"."Epoch" = (SELECT "Epoch" FROM "Epochs" ORDER BY "Number" DESC LIMIT 1))))
                """
            )
            .ConfigureAwait(false);
        await commands
            .RunAsync(
                $"""
                UPDATE "AspNetUsers" SET "LockoutEnd" =
                    (SELECT "later"."LockoutEnd" FROM "{present}"."AspNetUsers" AS "later" WHERE "later"."Id" = "AspNetUsers"."Id")
                WHERE EXISTS (
                    SELECT 1 FROM "{present}"."AspNetUsers" AS "later"
                    WHERE "later"."Id" = "AspNetUsers"."Id" AND "later"."LockoutEnd" > COALESCE("AspNetUsers"."LockoutEnd", 0))
                """
            )
            .ConfigureAwait(false);
        return shutOut;
    }
}
