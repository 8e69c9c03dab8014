using System.Threading.Channels;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>
/// What changed since it was asked for: pull first from where you are, then at each change. Several changes of one log that
/// were not fetched yet are one. It ends when it or the store is disposed of.
/// </summary>
public sealed class ChangeWatch : IAsyncEnumerable<LogChange>, IDisposable
{
    private readonly Dictionary<LogId, long> pending = [];
    private readonly Channel<LogId> queue = Channel.CreateUnbounded<LogId>();
    private readonly Action<ChangeWatch> end;

    internal ChangeWatch(Action<ChangeWatch> end) => this.end = end;

    /// <inheritdoc/>
    public async IAsyncEnumerator<LogChange> GetAsyncEnumerator(
        CancellationToken cancellationToken = default
    )
    {
        await foreach (
            var log in queue.Reader.ReadAllAsync(cancellationToken).ConfigureAwait(false)
        )
        {
            yield return new LogChange(log, Take(log));
        }
    }

    /// <summary>Ends it.</summary>
    public void Dispose()
    {
        end(this);
        queue.Writer.TryComplete();
    }

    internal void Offer(LogId log, long receipt)
    {
        lock (pending)
        {
            var isQueued = pending.TryGetValue(log, out var before);
            pending[log] = Math.Max(before, receipt);
            if (!isQueued)
            {
                queue.Writer.TryWrite(log);
            }
        }
    }

    private long Take(LogId log)
    {
        lock (pending)
        {
            pending.Remove(log, out var receipt);
            return receipt;
        }
    }
}
