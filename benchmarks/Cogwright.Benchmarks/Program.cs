using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Cogwright.Benchmarks;

if (args is ["--processor-time", "ride"])
{
    ProcessorTime.Ride();
    return;
}
if (args is ["--search", .. var jobs])
{
    await SearchFigures.PrintAsync(jobs is [var count] ? int.Parse(count, null) : 200_000);
    return;
}
WorkCounts.Print();
if (args is ["--processor-time"])
{
    ProcessorTime.Print();
    return;
}

// Short runs in this process: the ratios within one run are what counts; the machine is seldom quiet.
var config = DefaultConfig
    .Instance.WithArtifactsPath(Path.Combine(AppContext.BaseDirectory, "results"))
    .AddJob(
        Job.Default.WithWarmupCount(4)
            .WithIterationCount(12)
            .WithToolchain(new InProcessEmitToolchain(TimeSpan.FromMinutes(5), logOutput: false))
    );
BenchmarkSwitcher
    .FromTypes([
        typeof(GearTableBenchmark),
        typeof(PathBenchmark),
        typeof(TravelSweepBenchmark),
        typeof(LogBenchmark),
        typeof(StorageBenchmark),
        typeof(OptionsBenchmark),
        typeof(RecheckBenchmark),
        typeof(RideBenchmark),
    ])
    .Run(args is [] ? ["--filter", "*"] : args, config);
