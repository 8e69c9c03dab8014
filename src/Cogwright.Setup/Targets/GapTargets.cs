using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Targets;

/// <summary>The pulley-to-cog gap.</summary>
internal static class GapTargets
{
    internal static IEnumerable<Target> Make(Bench bench)
    {
        if (!bench.Catalogue.HasRearDerailleur)
        {
            yield break;
        }
        yield return bench.Work.Gap is { } gap ? FromSpec(bench, gap)
        : bench.Catalogue.SetUp is { GapMm: { } atMark } setUp ? FromMark(bench, setUp, atMark)
        : FromPractice(bench);
    }

    /// <summary>A gap this far from what the mark gives says that the cage does not stand there (mm). A choice of this program.</summary>
    private const double MarkToleranceMm = 1;

    // In the set-up gear the mark alone decides the gap: what is read there checks whether the cage stands at it.
    private static Target FromMark(Bench bench, SetUpFacts setUp, double gapMm) =>
        In(bench, setUp.Gear) with
        {
            Value = gapMm,
            Lower = gapMm - MarkToleranceMm,
            Upper = gapMm + MarkToleranceMm,
            Source = setUp.IsAssumed ? TargetSource.Assumed : TargetSource.Spec,
            Note = Notes(bench, setUp.Gear, gapMm, Texts.Get("gap.fromMark")),
        };

    private static Target FromSpec(Bench bench, GapTarget gap) =>
        In(bench, (gap.RingTeeth, gap.CogTeeth)) with
        {
            Value = gap.ValueMm,
            Lower = gap.ValueMm - gap.ToleranceMm,
            Upper = gap.ValueMm + gap.ToleranceMm,
            Source = TargetSource.Spec,
            Note = Notes(bench, (gap.RingTeeth, gap.CogTeeth), gap.ValueMm, null),
        };

    private static Target FromPractice(Bench bench)
    {
        var practice = GapPractice.For(bench.Catalogue);
        var gear = bench.OnSmallRing(bench.Catalogue.LargestCog);
        var (lower, upper) = Band(bench.Catalogue, practice, gear);
        return In(bench, gear) with
        {
            Value = 0.5 * (lower + upper),
            Lower = lower,
            Upper = upper,
            Source = TargetSource.CommonPractice,
            Note = Notes(bench, gear, 0.5 * (lower + upper), Texts.Get(practice.TextKey)),
        };
    }

    // The target holds where the gap is set: a practice read without sag is carried there by the model.
    private static (double LowerMm, double UpperMm) Band(
        QuantityCatalogue catalogue,
        GapPractice practice,
        (int, int) gear
    ) =>
        practice.WithoutSag
        && catalogue.SetUpTravelMm is not null
        && catalogue.SetUpGapMm(gear, practice.LowerMm) is { } lower
        && catalogue.SetUpGapMm(gear, practice.UpperMm) is { } upper
            ? (lower, upper)
            : (practice.LowerMm, practice.UpperMm);

    private static Target In(Bench bench, (int RingTeeth, int CogTeeth) gear) =>
        Check.Of(TargetNames.Gap, WorkStage.Gap, bench.ByMount, "turning") with
        {
            Gear = gear,
            Convention = Texts.Get(
                $"convention.{QuantityNames.Gap}",
                gear.RingTeeth,
                gear.CogTeeth,
                bench.Catalogue.RearEndState
            ),
            ConventionInShort = Texts.Get("convention.gap.short", bench.Catalogue.RearEndInShort),
            Unit = "mm",
            Tool = bench.Catalogue.Screw?.Tool is { } tool
                ? Texts.Get("gap.toolAnd", tool)
                : Texts.Get("gap.tool"),
        };

    private static string Notes(Bench bench, (int, int) gear, double wantedMm, string? practice)
    {
        var sentences = new List<string>();
        if (practice is not null)
        {
            sentences.Add(practice);
        }
        if (bench.Catalogue.Find(QuantityNames.Gap, gear) is not { } model)
        {
            sentences.Add(Texts.Get("gap.noModel"));
            return string.Join(" ", sentences);
        }
        sentences.Add(
            Texts.Get(
                Texts.OnAxle(
                    model.DependsOnAssumed ? "gap.modelAssumed" : "gap.model",
                    bench.IsOnAxle
                ),
                model.Value
            )
        );
        if (bench.IsOnAxle)
        {
            sentences.AddRange(OnAxle(bench, gear, wantedMm));
        }
        if (model.TipUncertainty > 0)
        {
            sentences.Add(Texts.Get("gap.modelTip", model.TipUncertainty));
        }
        if (bench.Catalogue.GapTwoPitchesLongerMm(gear) is { } longer)
        {
            sentences.Add(Texts.Get("gap.sprung", longer));
        }
        if (bench.Catalogue.GapBandMm(gear) is { } band)
        {
            sentences.Add(Texts.Get("gap.damper", band.ForwardMm, band.ReturningMm));
        }
        if (bench.Catalogue.SetUpTravelMm is { } travel)
        {
            sentences.Add(
                bench.Catalogue.ExtendedGapMm(gear, wantedMm) is { } extended
                    ? Texts.Get("gap.sag", travel, wantedMm, extended, bench.Catalogue.TravelMeans)
                    : Texts.Get("gap.sagOnly", travel, bench.Catalogue.TravelMeans)
            );
        }
        if (TroubleAt(bench, gear, wantedMm) is { Length: > 0 } trouble)
        {
            sentences.Add(Texts.Get("gap.trouble", wantedMm, trouble));
        }
        return string.Join(" ", sentences);
    }

    /// <summary>What to do when it is off, and what chain and body do to it.</summary>
    private static IEnumerable<string> OnAxle(Bench bench, (int, int) gear, double wantedMm)
    {
        if (bench.Catalogue.CorrectSetUp(gear, wantedMm, wantedMm, 0) is not { } advice)
        {
            yield break;
        }
        yield return Texts.Get(
            "gap.off.onAxle",
            advice.SetUpGear.RingTeeth,
            advice.SetUpGear.CogTeeth
        );
        foreach (var sentence in GapAdviceWords.Sensitivity(advice))
        {
            yield return sentence;
        }
    }

    // A gap that suits the largest cog can bring the pulley into another: said before anybody turns the screw.
    private static string TroubleAt(Bench bench, (int, int) gear, double wantedMm) =>
        string.Join(
            ", ",
            bench
                .Catalogue.GearsAtGap(gear, wantedMm)
                .Where(g => !g.IsOk && bench.IsUsable((g.RingTeeth, g.CogTeeth)))
                .Select(g => $"{g.RingTeeth}/{g.CogTeeth}")
        );
}
