using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using Cogwright.Files;
using Cogwright.Setup.Jobs;

namespace Cogwright.Benchmarks;

/// <summary>
/// The work on a bike of 5 000 entries: folded as a whole, one entry more with everything that a screen asks of the state, and
/// beside it the same by working everything out anew.
/// </summary>
public class RecheckBenchmark
{
    private const int Entries = 5000;

    private ImmutableArray<JobFact> facts;
    private BikeWork work = null!;
    private JobFact last = null!;

    [GlobalSetup]
    public void SetUp()
    {
        var directory = DemoProcedures();
        var all = ImmutableArray.CreateBuilder<JobFact>(Entries);
        var random = new Random(7);
        while (all.Count < Entries)
        {
            all.Add(new JobBegun(From(all.Count), "Benchmark"));
            var job = all[^1].Id;
            var text = File.ReadAllText(directory[random.Next(directory.Length)]);
            var procedure = ProcedureReader.Read(text, "benchmark.yaml").Procedure!;
            all.Add(new ProcedureBegun(From(all.Count), job, procedure));
            var run = all[^1].Id;
            // A bike's whole life: each job goes through its steps several times, and something happens now and then.
            for (var i = 0; i < 500 && all.Count < Entries; i++)
            {
                all.Add(
                    i % 40 == 39
                        ? new ChangeMade(
                            From(all.Count),
                            BikeChanges.All[random.Next(BikeChanges.All.Length)].Name,
                            ""
                        )
                        : new StepDone(
                            From(all.Count),
                            run,
                            procedure.Steps[i % procedure.Steps.Length].Id,
                            StepOutcome.Done
                        )
                );
            }
        }
        facts = all.ToImmutable();
        work = new JobFold().All(facts);
        last = new ChangeMade(From(Entries), "knock", "");
        Console.WriteLine(
            $"{facts.Length} entries, {work.Runs.Length} procedures, {new Recheck(work.Then(last)).Marks.Count()} results to recheck, way back of {WayBack.Of(work.Then(last)).Length} steps"
        );
    }

    [Benchmark]
    public BikeWork Fold() => new JobFold().All(facts);

    [Benchmark]
    public int OneMore() => new Recheck(work.Then(last)).Marks.Count();

    [Benchmark]
    public int OneMoreWithTheWayBack() => WayBack.Of(work.Then(last)).Length;

    [Benchmark]
    public int OneMoreByWorkingAllOutAnew() =>
        new Recheck(new JobFold().All(facts).Then(last)).Marks.Count();

    private static FactSource From(int number) => new($"entry {number}", 0, "");

    private static string[] DemoProcedures()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            var demo = Path.Combine(at.FullName, "demo", "procedures");
            if (Directory.Exists(demo))
            {
                return Directory.GetFiles(demo, "*.yaml");
            }
        }
        throw new DirectoryNotFoundException("demo/procedures");
    }
}
