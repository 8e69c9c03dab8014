namespace Cogwright.Storage;

/// <summary>The tables that hold what logs were worked out to, and nothing that is not in the logs.</summary>
internal static class Projection
{
    internal static IReadOnlyList<string> Tables { get; } =
    ["JobSaid", "JobSearch", "Jobs", "FoldedLogs"];

    /// <summary>
    /// Empties them, if they are there: after a restore nothing may be left that was worked out from what was erased since.
    /// </summary>
    internal static async Task ClearAsync(ShopDatabase database, CommandSet commands)
    {
        foreach (var table in Tables)
        {
            if (await database.HasTableAsync(commands, table).ConfigureAwait(false))
            {
                await commands.RunAsync($"DELETE FROM \"{table}\"").ConfigureAwait(false);
            }
        }
    }
}
