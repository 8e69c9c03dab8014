using System.Data.Common;
using System.Diagnostics;
using System.Globalization;
using Cogwright.Log;
using Cogwright.Storage;
using Cogwright.Storage.Tests;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Cogwright.Benchmarks;

/// <summary>
/// Search and overview with many jobs, on both databases, by the clock: what somebody waits for. Beside it a plain scan with
/// LIKE over the same words in the same database. The jobs are invented and go in through the writer that the server uses.
/// </summary>
internal static class SearchFigures
{
    private const int Rounds = 40;
    private const int ScanRounds = 3;
    private const int Found = 50;

    internal static async Task PrintAsync(int jobs)
    {
        var folder = Directory.CreateTempSubdirectory("cogwright-search-").FullName;
        try
        {
            await OneAsync("SQLite", jobs, new StoreOptions(folder), Sqlite);
            await using var server = PostgresServer.Start();
            var connection = server.NewDatabase();
            await OneAsync(
                "PostgreSQL",
                jobs,
                new StoreOptions(folder) { ConnectionString = connection },
                _ => new NpgsqlConnection(connection)
            );
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static SqliteConnection Sqlite(StoreOptions options) =>
        new($"Data Source={Path.Combine(options.DataFolder, "shop.db")}");

    private static async Task OneAsync(
        string name,
        int jobs,
        StoreOptions options,
        Func<StoreOptions, DbConnection> connect
    )
    {
        await using var store = await ShopStore.OpenAsync(options);
        var invented = new InventedJobs(17);
        var clock = Stopwatch.StartNew();
        var plain = new List<(long Order, string Text)>(jobs);
        foreach (var block in Enumerable.Range(0, jobs).Chunk(2048))
        {
            var made = block.Select(number => invented.Make(number, jobs)).ToList();
            plain.AddRange(
                made.Select(
                    (each, i) =>
                        (
                            (long)block[i],
                            string.Join(' ', each.Jobs[0].Words.Concat(each.Jobs[0].Said))
                        )
                )
            );
            await Task.WhenAll(made.Select(each => store.PutFoldedAsync(each)));
        }
        Say($"{name}: {jobs} jobs put in {clock.Elapsed.TotalSeconds:F0} s");
        await using var scan = connect(options);
        await scan.OpenAsync();
        await MakePlainAsync(scan, plain);
        foreach (var (what, questions) in invented.Questions(Rounds))
        {
            var ours = new List<double>();
            var found = 0;
            foreach (var question in questions)
            {
                var began = Stopwatch.GetTimestamp();
                var answer = await store.FindJobsAsync(question, withSaid: true, Found);
                ours.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
                found += answer.Jobs.Length;
            }
            var scanned = new List<double>();
            foreach (var question in questions.Take(ScanRounds))
            {
                var began = Stopwatch.GetTimestamp();
                await ScanAsync(scan, question);
                scanned.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
            }
            Say(
                $"{name} | {what} | found {(double)found / questions.Length:F1} | median {At(ours, 0.5):F1} ms | 95th {At(ours, 0.95):F1} ms | scan median {At(scanned, 0.5):F0} ms"
            );
        }
        var glance = new List<double>();
        for (var i = 0; i < Rounds; i++)
        {
            var began = Stopwatch.GetTimestamp();
            await store.OverviewAsync(
                new OverviewQuestion(
                    InventedJobs.Now.AddDays(-90).Ticks,
                    DateOnly.FromDateTime(InventedJobs.Now).AddDays(14),
                    100
                ),
                1
            );
            glance.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        }
        Say(
            $"{name} | the overview | median {At(glance, 0.5):F1} ms | 95th {At(glance, 0.95):F1} ms"
        );
        clock.Restart();
        long rows = 0;
        await foreach (var _ in store.ListedJobsAsync())
        {
            rows++;
        }
        Say($"{name} | every job read | {rows} in {clock.Elapsed.TotalSeconds:F1} s");
        var again = new List<double>();
        for (var i = 0; i < Rounds; i++)
        {
            var began = Stopwatch.GetTimestamp();
            await store.PutFoldedAsync(invented.Make(i * 97, jobs) with { Receipt = 2 });
            again.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        }
        Say(
            $"{name} | one job told anew | median {At(again, 0.5):F1} ms | 95th {At(again, 0.95):F1} ms"
        );
    }

    private static async Task MakePlainAsync(
        DbConnection scan,
        List<(long Order, string Text)> plain
    )
    {
        await RunAsync(
            scan,
            null,
            """CREATE TABLE "Plain" ("Number" bigint PRIMARY KEY, "Text" text NOT NULL)"""
        );
        await using var transaction = await scan.BeginTransactionAsync();
        await using var command = scan.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = """INSERT INTO "Plain" VALUES (@number, @text)""";
        foreach (var name in (string[])["number", "text"])
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = name;
            command.Parameters.Add(parameter);
        }
        foreach (var (order, text) in plain)
        {
            command.Parameters[0].Value = order;
            command.Parameters[1].Value = text;
            await command.ExecuteNonQueryAsync();
        }
        await transaction.CommitAsync();
        await RunAsync(scan, null, "ANALYZE");
    }

    private static async Task RunAsync(DbConnection scan, DbTransaction? transaction, string sql)
    {
        await using var command = scan.CreateCommand();
        command.Transaction = transaction;
#pragma warning disable CA2100 // Constants of this file.
        command.CommandText = sql;
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync();
    }

    private static async Task ScanAsync(DbConnection scan, string question)
    {
        var asked = SearchWords.Asked(question);
        await using var command = scan.CreateCommand();
#pragma warning disable CA2100 // Names of parameters, counted.
        command.CommandText =
            """SELECT "Number" FROM "Plain" WHERE """
            + string.Join(" AND ", asked.Select((_, i) => $"(' ' || \"Text\") LIKE @w{i}"))
            + $" ORDER BY \"Number\" DESC LIMIT {Found + 1}";
#pragma warning restore CA2100
        for (var i = 0; i < asked.Length; i++)
        {
            var parameter = command.CreateParameter();
            parameter.ParameterName = $"w{i}";
            parameter.Value = $"% {asked[i]}%";
            command.Parameters.Add(parameter);
        }
        await using var reader = await command.ExecuteReaderAsync();
        while (await reader.ReadAsync())
        {
            // The numbers alone are wanted.
        }
    }

    private static double At(List<double> times, double share)
    {
        times.Sort();
        return times[(int)Math.Min(times.Count - 1, Math.Ceiling(share * times.Count) - 1)];
    }

    private static void Say(FormattableString line) =>
        Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}
