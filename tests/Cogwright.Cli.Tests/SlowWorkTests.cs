using Cogwright.Cli.Output;

namespace Cogwright.Cli.Tests;

/// <summary>Work that takes long says so, once a second; work that does not says nothing.</summary>
public class SlowWorkTests
{
    [Fact]
    public void Step_WithinASecond_SaysNothing()
    {
        var (time, error) = (new SteppedTime(), new StringWriter());
        var work = new SlowWork(error, time);

        time.Now += TimeSpan.FromSeconds(0.9);
        work.Step(() => throw new InvalidOperationException());

        Assert.Equal("", error.ToString());
    }

    [Fact]
    public void Step_AfterASecond_TellsOnceASecond()
    {
        var (time, error) = (new SteppedTime(), new StringWriter { NewLine = "\n" });
        var work = new SlowWork(error, time).Of<int>(done => $"{done} done");

        for (var step = 1; step <= 25; step++)
        {
            time.Now += TimeSpan.FromSeconds(0.1);
            work.Report(step);
        }

        Assert.Equal("10 done\n20 done\n", error.ToString());
    }

    private sealed class SteppedTime : TimeProvider
    {
        internal TimeSpan Now { get; set; }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => Now.Ticks;
    }
}
