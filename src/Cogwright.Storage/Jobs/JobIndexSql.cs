using System.Collections.Immutable;

namespace Cogwright.Storage;

/// <summary>
/// What each database calls the two tables of words, one with what the shop wrote and one with what customers said: SQLite's are
/// full-text tables, PostgreSQL's hold vectors of words with an index of their own. Both are outside Entity Framework's model.
/// </summary>
/// <param name="Put">Puts in a job's words: <c>@number</c>, <c>@words</c>.</param>
/// <param name="PutSaid">Puts in a job's words with the customer's: <c>@number</c>, <c>@words</c>.</param>
/// <param name="Delete">Deletes the words of a log: <c>@log</c>.</param>
/// <param name="DeleteSaid">Deletes what customers said in a log: <c>@log</c>.</param>
/// <param name="Find">The highest numbers that have the words: <c>@query</c>, <c>@most</c>.</param>
/// <param name="FindSaid">The same of what customers said.</param>
/// <param name="Words">Words as a parameter.</param>
/// <param name="Query">Beginnings of words, all of which must be there, as a parameter.</param>
internal sealed record JobIndexSql(
    string Put,
    string PutSaid,
    string Delete,
    string DeleteSaid,
    string Find,
    string FindSaid,
    Func<IEnumerable<string>, object> Words,
    Func<ImmutableArray<string>, string> Query
)
{
    // Words are letters and digits alone (SearchWords): in quotation marks they are nothing else to either database.
    internal static JobIndexSql Sqlite { get; } =
        new(
            """INSERT INTO "JobSearch" ("rowid", "Words") VALUES (@number, @words)""",
            """INSERT INTO "JobSaid" ("rowid", "Words") VALUES (@number, @words)""",
            """DELETE FROM "JobSearch" WHERE "rowid" IN (SELECT "Number" FROM "Jobs" WHERE "Log" = @log)""",
            """DELETE FROM "JobSaid" WHERE "rowid" IN (SELECT "Number" FROM "Jobs" WHERE "Log" = @log)""",
            """SELECT "rowid" FROM "JobSearch" WHERE "JobSearch" MATCH @query ORDER BY "rowid" DESC LIMIT @most""",
            """SELECT "rowid" FROM "JobSaid" WHERE "JobSaid" MATCH @query ORDER BY "rowid" DESC LIMIT @most""",
            words => string.Join(' ', words),
            asked => string.Join(" AND ", asked.Select(word => $"\"{word}\"*"))
        );

    internal static JobIndexSql Postgres { get; } =
        new(
            """INSERT INTO "JobSearch" ("Number", "Words") VALUES (@number, array_to_tsvector(@words))""",
            """INSERT INTO "JobSaid" ("Number", "Words") VALUES (@number, array_to_tsvector(@words))""",
            """DELETE FROM "JobSearch" WHERE "Number" IN (SELECT "Number" FROM "Jobs" WHERE "Log" = @log)""",
            """DELETE FROM "JobSaid" WHERE "Number" IN (SELECT "Number" FROM "Jobs" WHERE "Log" = @log)""",
            """SELECT "Number" FROM "JobSearch" WHERE "Words" @@ @query::tsquery ORDER BY "Number" DESC LIMIT @most""",
            """SELECT "Number" FROM "JobSaid" WHERE "Words" @@ @query::tsquery ORDER BY "Number" DESC LIMIT @most""",
            words => words.ToArray(),
            asked => string.Join(" & ", asked.Select(word => $"'{word}':*"))
        );
}
