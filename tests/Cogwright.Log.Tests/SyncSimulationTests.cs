using System.Globalization;

namespace Cogwright.Log.Tests;

public sealed class SyncSimulationTests
{
    private const string ReplayVariable = "COGWRIGHT_SYNC";

    [Fact]
    public void Sync_AnythingDroppedDoubledReorderedStopped_LosesAndDoublesNothing()
    {
        var replay = Environment.GetEnvironmentVariable(ReplayVariable);
        var first = replay is null ? 0 : int.Parse(replay, CultureInfo.InvariantCulture);
        var isLong = Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1";
        var runs =
            replay is not null ? 1
            : isLong ? 50_000
            : 2_000;
        var entries = 0;
        for (var seed = first; seed < first + runs; seed++)
        {
            try
            {
                entries += Run(seed);
            }
            catch (Exception failure)
            {
                Assert.Fail($"Run {seed}; replay it alone with {ReplayVariable}={seed}. {failure}");
            }
        }
        Assert.True(replay is not null || entries > 5 * runs, $"{entries} entries in {runs} runs");
    }

    private static int Run(int seed)
    {
        var simulation = new SyncSimulation(seed);
        simulation.Storm(10 + (seed % 60));
        simulation.Calm();

        var made = simulation.Stored.Select(entry => entry.Id).Order().ToList();
        Assert.Equal(made, simulation.OnServer.Select(entry => entry.Id).Order());
        Assert.Equal(0, simulation.UnansweredCount);
        var expected = simulation.Logs.First().Ordered.ToList();
        Assert.Equal(made.Count, expected.Count);
        Assert.All(simulation.Logs, log => Assert.True(expected.SequenceEqual(log.Ordered)));
        return made.Count;
    }
}
