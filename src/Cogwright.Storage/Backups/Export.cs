using System.Buffers.Binary;
using System.Data.Common;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>
/// Writes everything of one moment as open files: JSON lines, the raw bytes of entries, photos as photos. docs/how-to/storage.md
/// describes them. Passwords, PINs and tokens are not among them, nor their hashes.
/// </summary>
internal sealed class Export(ShopDatabase database, string folder, CancellationToken cancellation)
{
    private static readonly JsonSerializerOptions Json = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private const string KeySetting = "statements.key.";

    internal async Task<ExportReport> RunAsync()
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        await using var transaction = await database
            .BeginReadingAsync(connection, cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(database, connection) { Transaction = transaction };
        Directory.CreateDirectory(Path.Combine(folder, "logs"));
        Directory.CreateDirectory(Path.Combine(folder, "personal"));
        await File.WriteAllTextAsync(
                Path.Combine(folder, "README.txt"),
                Texts.Get("export.readme"),
                cancellation
            )
            .ConfigureAwait(false);
        foreach (var log in await LogsAsync(commands).ConfigureAwait(false))
        {
            await WriteLogAsync(commands, log).ConfigureAwait(false);
        }
        await WritePersonalAsync(commands).ConfigureAwait(false);
        await LinesAsync(
                "erasures.jsonl",
                commands,
                """SELECT "Digest", "Log", "ErasedTicks" FROM "Erasures" ORDER BY "ErasedTicks", "Digest" """,
                row => new JsonObject
                {
                    ["digest"] = Hex(row, 0),
                    ["log"] = Id(row, 1),
                    ["erasedTicks"] = row.GetInt64(2),
                }
            )
            .ConfigureAwait(false);
        await LinesAsync(
                "keys.jsonl",
                commands,
                // Public keys, with which statements are checked; the private ones are in no export.
                """SELECT "Name", "Value" FROM "ShopSettings" WHERE "Name" LIKE 'statements.key.%' ORDER BY "Name" """,
                row => new JsonObject
                {
                    ["name"] = row.GetString(0)[KeySetting.Length..],
                    ["spkiBase64"] = row.GetString(1),
                }
            )
            .ConfigureAwait(false);
        await LinesAsync(
                "accounts.jsonl",
                commands,
                """
                SELECT "u"."Id", "u"."UserName", "u"."DisplayName", "u"."Email", "u"."Active", "r"."Name"
                FROM "AspNetUsers" AS "u"
                LEFT JOIN "AspNetUserRoles" AS "ur" ON "ur"."UserId" = "u"."Id"
                LEFT JOIN "AspNetRoles" AS "r" ON "r"."Id" = "ur"."RoleId"
                ORDER BY "u"."UserName", "r"."Name"
                """,
                row => new JsonObject
                {
                    ["id"] = Id(row, 0),
                    ["userName"] = TextOf(row, 1),
                    ["displayName"] = TextOf(row, 2),
                    ["email"] = TextOf(row, 3),
                    ["active"] = row.GetBoolean(4),
                    ["role"] = TextOf(row, 5),
                }
            )
            .ConfigureAwait(false);
        await LinesAsync(
                "parts.jsonl",
                commands,
                """SELECT "Content", "IsDemo", "UpdatedTicks", "Id" FROM "Parts" ORDER BY "Id" """,
                row =>
                {
                    var part = PartOf(row.GetString(3), row.GetString(0));
                    part["isDemo"] = row.GetBoolean(1);
                    part["updatedTicks"] = row.GetInt64(2);
                    return part;
                }
            )
            .ConfigureAwait(false);
        return new ExportReport(
            folder,
            await StoreCounts.ReadAsync(database, commands).ConfigureAwait(false)
        );
    }

    /// <summary>
    /// What a row holds; where that is damaged its text as it is, so that one part does not keep the rest from being exported.
    /// </summary>
    private static JsonObject PartOf(string id, string content) =>
        PartText.OfRow(id, content) is { } part
            ? JsonNode.Parse(PartText.Write(part))!.AsObject()
            : new JsonObject { ["id"] = id, ["unreadable"] = content };

    private async Task<List<Guid>> LogsAsync(CommandSet commands)
    {
        using var reader = await commands
            .ReadAsync("""SELECT "Id" FROM "Logs" ORDER BY "Id" """)
            .ConfigureAwait(false);
        var logs = new List<Guid>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            logs.Add(database.GuidAt(reader, 0));
        }
        return logs;
    }

    private async Task WriteLogAsync(CommandSet commands, Guid log)
    {
        var under = Path.Combine("logs", log.ToString("D", CultureInfo.InvariantCulture));
        Directory.CreateDirectory(Path.Combine(folder, under));
        var raw = File.Create(Path.Combine(folder, under, "entries.bin"));
        await using (raw.ConfigureAwait(false))
        {
            await LinesAsync(
                    Path.Combine(under, "entries.jsonl"),
                    commands,
                    """SELECT "Receipt", "ReceivedTicks", "Encoded" FROM "Entries" WHERE "Log" = @log ORDER BY "Receipt" """,
                    row =>
                    {
                        var bytes = row.GetFieldValue<byte[]>(2);
                        Span<byte> length = stackalloc byte[4];
                        BinaryPrimitives.WriteInt32BigEndian(length, bytes.Length);
                        raw.Write(length);
                        raw.Write(bytes);
                        return ExportedEntry.Of(row.GetInt64(0), row.GetInt64(1), bytes);
                    },
                    ("log", log)
                )
                .ConfigureAwait(false);
        }
        await LinesAsync(
                Path.Combine(under, "statements.jsonl"),
                commands,
                """SELECT "Serial", "Encoded", "Signature" FROM "Statements" WHERE "Log" = @log ORDER BY "Serial" """,
                row => new JsonObject
                {
                    ["serial"] = row.GetInt64(0),
                    ["encodedBase64"] = Convert.ToBase64String(row.GetFieldValue<byte[]>(1)),
                    ["signatureBase64"] = Convert.ToBase64String(row.GetFieldValue<byte[]>(2)),
                },
                ("log", log)
            )
            .ConfigureAwait(false);
    }

    private Task WritePersonalAsync(CommandSet commands) =>
        LinesAsync(
            "personal.jsonl",
            commands,
            """SELECT "Digest", "Log", "ContentType", "StoredTicks", "Salt", "Data" FROM "Personal" ORDER BY "Log", "Digest" """,
            row =>
            {
                var file = Path.Combine("personal", Hex(row, 0) + EndingOf(row.GetString(2)));
                File.WriteAllBytes(Path.Combine(folder, file), row.GetFieldValue<byte[]>(5));
                return new JsonObject
                {
                    ["digest"] = Hex(row, 0),
                    ["log"] = Id(row, 1),
                    ["contentType"] = row.GetString(2),
                    ["storedTicks"] = row.GetInt64(3),
                    ["saltBase64"] = Convert.ToBase64String(row.GetFieldValue<byte[]>(4)),
                    ["file"] = file,
                };
            }
        );

    private async Task LinesAsync(
        string file,
        CommandSet commands,
        string sql,
        Func<DbDataReader, JsonObject> line,
        params (string Name, object? Value)[] values
    )
    {
        using var reader = await commands.ReadAsync(sql, values).ConfigureAwait(false);
        var writer = new StreamWriter(Path.Combine(folder, file));
        await using (writer.ConfigureAwait(false))
        {
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                await writer
                    .WriteAsync(line(reader).ToJsonString(Json) + "\n")
                    .ConfigureAwait(false);
            }
        }
    }

    private string Id(DbDataReader row, int column) =>
        database.GuidAt(row, column).ToString("D", CultureInfo.InvariantCulture);

    private static string Hex(DbDataReader row, int column) =>
        new Digest(row.GetFieldValue<byte[]>(column)).ToString();

    private static string? TextOf(DbDataReader row, int column) =>
        row.IsDBNull(column) ? null : row.GetString(column);

    // Only endings that we choose: the type is what a device said.
    private static string EndingOf(string contentType) =>
        contentType.Split(';')[0].Trim() switch
        {
            "image/jpeg" => ".jpg",
            "image/png" => ".png",
            "image/webp" => ".webp",
            "application/json" => ".json",
            "text/plain" => ".txt",
            _ => ".bin",
        };
}
