using System.Threading.Channels;

namespace Cogwright.Server;

/// <summary>
/// Carries reports of progress from a thread that computes to one that sends: a slow reader gets the latest, and never keeps
/// the work waiting.
/// </summary>
internal sealed class LatestOf<T>(TimeProvider clock) : IProgress<T>
{
    // Often enough for a bar that moves, seldom enough to cost nothing.
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(100);

    private readonly Channel<T> reports = Channel.CreateBounded<T>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest }
    );

    private long? last;

    public void Report(T value)
    {
        if (last is not { } before || clock.GetElapsedTime(before) >= Pause)
        {
            last = clock.GetTimestamp();
            reports.Writer.TryWrite(value);
        }
    }

    /// <summary>Sends the reports while the work goes on.</summary>
    /// <param name="work">Begins the work; it reports here. It ends by itself when sending fails and <paramref name="end"/> is called.</param>
    /// <param name="send">Sends one.</param>
    /// <param name="end">Ends the work.</param>
    internal async Task<TResult> WhileAsync<TResult>(
        Func<Task<TResult>> work,
        Func<T, Task> send,
        Func<Task> end
    )
    {
        var working = EndingAsync(work);
        try
        {
            await foreach (var report in reports.Reader.ReadAllAsync().ConfigureAwait(false))
            {
                await send(report).ConfigureAwait(false);
            }
        }
        catch
        {
            await end().ConfigureAwait(false);
            // Its own end is of no interest, but it must have come before what it uses is gone.
            await Task.WhenAny(working).ConfigureAwait(false);
            throw;
        }
        return await working.ConfigureAwait(false);
    }

    private async Task<TResult> EndingAsync<TResult>(Func<Task<TResult>> work)
    {
        try
        {
            return await work().ConfigureAwait(false);
        }
        finally
        {
            reports.Writer.TryComplete();
        }
    }
}
