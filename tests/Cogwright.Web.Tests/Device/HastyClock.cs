namespace Cogwright.Web.Tests.Device;

/// <summary>A clock on which every wait is over at once, and which remembers how long each was.</summary>
internal sealed class HastyClock : TimeProvider
{
    private readonly List<TimeSpan> waits = [];

    internal IReadOnlyList<TimeSpan> Waits
    {
        get
        {
            lock (waits)
            {
                return [.. waits];
            }
        }
    }

    public override DateTimeOffset GetUtcNow() => new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    public override ITimer CreateTimer(
        TimerCallback callback,
        object? state,
        TimeSpan dueTime,
        TimeSpan period
    )
    {
        lock (waits)
        {
            waits.Add(dueTime);
        }
        return System.CreateTimer(
            callback,
            state,
            dueTime < TimeSpan.Zero ? dueTime : TimeSpan.Zero,
            period
        );
    }
}
