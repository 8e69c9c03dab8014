using System.Globalization;
using Cogwright.Log;
using Npgsql;

namespace Cogwright.Storage;

/// <summary>
/// Hears what other servers write. A connection that was lost is made again, and what was missed meanwhile shows by the
/// receipt numbers of the logs: a notification is a hint, never the only word.
/// </summary>
internal sealed class PostgresListener : IAsyncDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(200);

    private readonly NpgsqlDataSource source;
    private readonly ChangeFeed feed;
    private readonly CancellationTokenSource stop = new();
    private readonly Task loop;

    internal PostgresListener(NpgsqlDataSource source, ChangeFeed feed)
    {
        this.source = source;
        this.feed = feed;
        loop = Task.Run(RunAsync);
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync().ConfigureAwait(false);
        await loop.ConfigureAwait(false);
        stop.Dispose();
    }

    private async Task RunAsync()
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await ListenAsync().ConfigureAwait(false);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // A connection ends in many ways, and none may end the listening.
            catch (Exception)
#pragma warning restore CA1031
            {
                // Whoever writes or reads is told that the database is away; here it is only waited for.
                await Task.Delay(Pause, CancellationToken.None).ConfigureAwait(false);
            }
        }
    }

    private async Task ListenAsync()
    {
        await using var connection = await source
            .OpenConnectionAsync(stop.Token)
            .ConfigureAwait(false);
        connection.Notification += (_, said) => Hear(said.Payload);
        await using (
            var listen = new NpgsqlCommand($"LISTEN {PostgresDatabase.Channel}", connection)
        )
        {
            await listen.ExecuteNonQueryAsync(stop.Token).ConfigureAwait(false);
        }
        // Listening first, looking second: what comes between is heard twice rather than not at all.
        await CatchUpAsync(connection).ConfigureAwait(false);
        while (true)
        {
            await connection.WaitAsync(stop.Token).ConfigureAwait(false);
        }
    }

    private async Task CatchUpAsync(NpgsqlConnection connection)
    {
        await using var command = new NpgsqlCommand(
            """SELECT "Id", "LastReceipt" FROM "Logs" """,
            connection
        );
        await using var reader = await command.ExecuteReaderAsync(stop.Token).ConfigureAwait(false);
        while (await reader.ReadAsync(stop.Token).ConfigureAwait(false))
        {
            feed.Publish(new LogId(reader.GetGuid(0)), reader.GetInt64(1));
        }
    }

    private void Hear(string said)
    {
        var words = said.Split(' ');
        if (
            words.Length == 2
            && Guid.TryParse(words[0], out var log)
            && long.TryParse(words[1], CultureInfo.InvariantCulture, out var receipt)
        )
        {
            feed.Publish(new LogId(log), receipt);
        }
    }
}
