namespace Cogwright.Storage;

/// <summary>The lives of a store.</summary>
internal static class Epochs
{
    /// <summary>The present life; the first one begins here.</summary>
    internal static async Task<Guid> PresentAsync(
        ShopDatabase database,
        CommandSet commands,
        long nowTicks
    )
    {
        if (await FindAsync(database, commands).ConfigureAwait(false) is { } present)
        {
            return present;
        }
        // Two servers may begin at once: one of the two numbers stays. A store with logs had a life; not to find it is damage.
        await commands
            .RunAsync(
                """
                INSERT INTO "Epochs" ("Number", "Epoch", "BeganTicks")
                SELECT 1, @epoch, @now WHERE NOT EXISTS (SELECT 1 FROM "Epochs") AND NOT EXISTS (SELECT 1 FROM "Logs")
                ON CONFLICT ("Number") DO NOTHING
                """,
                ("epoch", Guid.CreateVersion7()),
                ("now", nowTicks)
            )
            .ConfigureAwait(false);
        return await ReadAsync(database, commands).ConfigureAwait(false);
    }

    /// <summary>The present life of a store that has one.</summary>
    internal static async Task<Guid> ReadAsync(ShopDatabase database, CommandSet commands) =>
        await FindAsync(database, commands).ConfigureAwait(false)
        ?? throw StoreFaultException.Of(
            StoreFaultKind.Damaged,
            Texts.Get("store.noEpoch", database.Place)
        );

    private static async Task<Guid?> FindAsync(ShopDatabase database, CommandSet commands)
    {
        using var reader = await commands
            .ReadAsync("""SELECT "Epoch" FROM "Epochs" ORDER BY "Number" DESC LIMIT 1""")
            .ConfigureAwait(false);
        return await reader.ReadAsync().ConfigureAwait(false) ? database.GuidAt(reader, 0) : null;
    }

    /// <summary>Begins another life: what devices were told before no longer counts.</summary>
    internal static Task BeginAsync(CommandSet commands, long nowTicks) =>
        commands.RunAsync(
            """
            INSERT INTO "Epochs" ("Number", "Epoch", "BeganTicks")
            SELECT COALESCE(MAX("Number"), 0) + 1, @epoch, @now FROM "Epochs"
            """,
            ("epoch", Guid.CreateVersion7()),
            ("now", nowTicks)
        );
}
