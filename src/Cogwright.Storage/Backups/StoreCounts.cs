using System.Text.Json.Serialization;

namespace Cogwright.Storage;

/// <summary>How much a store holds.</summary>
/// <param name="Logs">Logs.</param>
/// <param name="Entries">Entries.</param>
/// <param name="Statements">Countersigned statements.</param>
/// <param name="Personal">Personal data and photos.</param>
/// <param name="Accounts">Accounts.</param>
/// <param name="Parts">Parts of the library, without those of the demo workshop.</param>
public sealed record StoreCounts(
    long Logs,
    long Entries,
    long Statements,
    long Personal,
    long Accounts,
    long Parts = 0
)
{
    /// <summary>Whether there is nothing that anybody could miss.</summary>
    [JsonIgnore]
    public bool IsEmpty => Logs + Entries + Statements + Personal + Accounts + Parts == 0;

    internal static async Task<StoreCounts> ReadAsync(ShopDatabase database, CommandSet commands) =>
        new(
            await OfAsync(commands, """SELECT COUNT(*) FROM "Logs" """).ConfigureAwait(false),
            await OfAsync(commands, """SELECT COUNT(*) FROM "Entries" """).ConfigureAwait(false),
            await OfAsync(commands, """SELECT COUNT(*) FROM "Statements" """).ConfigureAwait(false),
            await OfAsync(commands, """SELECT COUNT(*) FROM "Personal" """).ConfigureAwait(false),
            await OfAsync(commands, """SELECT COUNT(*) FROM "AspNetUsers" """)
                .ConfigureAwait(false),
            // A backup of before there was a library is looked at as it is.
            await database.HasTableAsync(commands, "Parts").ConfigureAwait(false)
                ? await OfAsync(commands, """SELECT COUNT(*) FROM "Parts" WHERE NOT "IsDemo" """)
                    .ConfigureAwait(false)
                : 0
        );

    private static async Task<long> OfAsync(CommandSet commands, string sql) =>
        (long)(await commands.ScalarAsync(sql).ConfigureAwait(false))!;
}
