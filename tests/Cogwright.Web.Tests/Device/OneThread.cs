using System.Collections.Concurrent;

namespace Cogwright.Web.Tests.Device;

/// <summary>Runs a test as a browser runs a page: work that overlaps, on one thread.</summary>
internal sealed class OneThread : SynchronizationContext
{
    private readonly BlockingCollection<(SendOrPostCallback Work, object? State)> queue = [];

    internal static Task RunAsync(Func<Task> test) =>
        Task.Factory.StartNew(
            () =>
            {
                var thread = new OneThread();
                SetSynchronizationContext(thread);
                var running = test();
                running.ContinueWith(_ => thread.Post(_ => { }, null), TaskScheduler.Default);
                while (!running.IsCompleted)
                {
                    var (work, state) = thread.queue.Take();
                    work(state);
                }
                running.GetAwaiter().GetResult();
            },
            CancellationToken.None,
            TaskCreationOptions.LongRunning,
            TaskScheduler.Default
        );

    public override void Post(SendOrPostCallback d, object? state) => queue.Add((d, state));
}
