namespace Cogwright.Server.Tests;

/// <summary>A clock that a test moves.</summary>
internal sealed class FakeClock : TimeProvider
{
    private long ticks = new DateTime(2026, 3, 2, 8, 0, 0, DateTimeKind.Utc).Ticks;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    internal void Advance(TimeSpan by) => Interlocked.Add(ref ticks, by.Ticks);

    public override DateTimeOffset GetUtcNow() => new(Interlocked.Read(ref ticks), TimeSpan.Zero);

    public override long GetTimestamp() => Interlocked.Read(ref ticks);
}
