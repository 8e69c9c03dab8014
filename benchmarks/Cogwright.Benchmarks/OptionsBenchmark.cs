using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Benchmarks;

/// <summary>
/// A million combinations of rings, cassette, rear derailleur, cage and chain, ranked. The twin judges every combination by
/// every rule, on a tenth of them and without the mechanism, which would take it hours; beside it the search on that tenth.
/// </summary>
public class OptionsBenchmark
{
    private OptionQuestion question = null!;
    private OptionQuestion onPaper = null!;

    [GlobalSetup]
    public void SetUp()
    {
        var library = DemoParts.Library;
        var (fitting, _) = SpecFitting.Of(
            """
            name: Invented
            frame: {class: touring}
            hanger: {class: mountain}
            rings: [46, 30]
            cogs: {teeth: 11-13-15-17-20-23-26-30-34, hubSpacing: 135}
            rearDerailleur: {class: touring-long}
            """,
            "benchmark.yaml",
            library
        );
        question = new()
        {
            Now = fitting!.Build,
            Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>
                .Empty.Add(PartKind.Rings, Of(library, PartKind.Rings, 20))
                .Add(PartKind.Cassette, Of(library, PartKind.Cassette, 25))
                .Add(PartKind.RearDerailleur, Of(library, PartKind.RearDerailleur, 25))
                .Add(PartKind.Cage, Of(library, PartKind.Cage, 8))
                .Add(PartKind.Chain, Of(library, PartKind.Chain, 10)),
            SpecOf = build => fitting.Fit(build).Spec?.Drivetrain,
        };
        onPaper = question with
        {
            SpecOf = null,
            Candidates = question.Candidates.SetItem(
                PartKind.Chain,
                [question.Candidates[PartKind.Chain][0]]
            ),
        };
        var found = OptionSearch.Find(question);
        Console.WriteLine(
            $"{found.Combinations} combinations, {found.ByRules} left by the rules, {found.Solved} mechanisms solved"
        );
    }

    [Benchmark]
    public OptionResult Search() => OptionSearch.Find(question);

    [Benchmark]
    public OptionResult SearchTenthOnPaper() => OptionSearch.Find(onPaper);

    /// <summary>Every combination, every rule; what the search on paper answers, without its short cuts.</summary>
    [Benchmark(Baseline = true)]
    public int TwinTenthOnPaper()
    {
        var kinds = onPaper.Candidates.Keys.Order().ToList();
        return Judged(onPaper.Now, kinds, 0);
    }

    private int Judged(Build build, List<PartKind> kinds, int level)
    {
        if (level == kinds.Count)
        {
            return CompatibilityReport.Of(build, null).Overall == Compatibility.No ? 0 : 1;
        }
        var left = 0;
        foreach (var part in onPaper.Candidates[kinds[level]])
        {
            left += Judged(build.With(part), kinds, level + 1);
        }
        return left;
    }

    /// <summary>So many of the demo's, the later ones under another id.</summary>
    private static ImmutableArray<Part> Of(PartLibrary library, PartKind kind, int count)
    {
        var there = library.Of(kind);
        return
        [
            .. Enumerable
                .Range(0, count)
                .Select(i =>
                    there[i % there.Length] with
                    {
                        Id = $"{there[i % there.Length].Id}-{i}",
                    }
                ),
        ];
    }
}
