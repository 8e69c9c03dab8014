using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Targets;

/// <summary>The chain: counted, checked again, cut, joined; later tried at both ends.</summary>
internal static class ChainTargets
{
    /// <summary>How far the direct path may be from the computed one (pitches): a chainstay measured to ±5 mm. Common practice.</summary>
    internal const double DirectPathTolerancePitches = 0.8;

    internal static IEnumerable<Target> Make(Bench bench)
    {
        var catalogue = bench.Catalogue;
        if (catalogue.HasDamper)
        {
            yield return Check.Of(TargetNames.DamperOff, WorkStage.Chain);
        }
        if (catalogue.Find(QuantityNames.DirectPath) is { } direct)
        {
            yield return Check.Of(TargetNames.DirectPath, WorkStage.Chain) with
            {
                Convention = direct.Convention,
                ConventionInShort = Texts.Get(
                    "convention.direct-path.short",
                    catalogue.LargestRing,
                    catalogue.LargestCog,
                    catalogue.DirectPathOver
                ),
                Value = direct.Value,
                Lower = direct.Value - DirectPathTolerancePitches,
                Upper = direct.Value + DirectPathTolerancePitches,
                Unit = direct.Unit,
                Gear = (catalogue.LargestRing, catalogue.LargestCog),
                Source = SourceOf(direct),
                Note = string.Join(
                    " ",
                    [
                        .. catalogue.LongestDirectPath is { } longest
                            ?
                            [
                                Texts.Get(
                                    "direct-path.longest",
                                    longest.TravelMm,
                                    longest.Pitches,
                                    catalogue.TravelMeans
                                ),
                            ]
                            : Array.Empty<string>(),
                        ChainWords.RoundingEdge(catalogue.Chain),
                    ]
                ),
            };
        }
        yield return Length(catalogue);
        yield return Check.Of("chain-count-twice", WorkStage.Chain);
        yield return Check.Of("chain-cut", WorkStage.Chain, caution: "eyes");
        yield return Check.Of(
            "chain-routed",
            WorkStage.Chain,
            !catalogue.HasRearDerailleur ? "direct"
                : catalogue.HasIdler ? "idler"
                : null
        );
        // On an axle that is only hand-tight nothing is pushed hard: the joint is loaded when the axle is tight.
        yield return bench.AxleStaysLoose
            ? Check.Of("chain-closed", WorkStage.Chain, caution: "axleLoose")
            : Check.Of("chain-joined", WorkStage.Chain, caution: "join");
        if (!catalogue.HasRearDerailleur)
        {
            foreach (var target in SingleSpeed.Tension(bench))
            {
                yield return target;
            }
        }
        foreach (var target in RearTargets.FirstTurnsAtRest(bench))
        {
            yield return target;
        }
    }

    /// <summary>A quantity of the model is the spec's own unless it rests on something assumed.</summary>
    internal static TargetSource SourceOf(Quantity quantity) =>
        quantity.DependsOnAssumed ? TargetSource.Assumed : TargetSource.Spec;

    private static Target Length(QuantityCatalogue catalogue)
    {
        var chain = catalogue.Chain;
        var target = Check.Of(TargetNames.ChainPitches, WorkStage.Chain) with
        {
            Convention = Texts.Get($"convention.{QuantityNames.ChainPitches}"),
            Unit = "pitches",
            Note = ChainWords.Headline(chain),
        };
        if (chain.Pitches is not { } pitches)
        {
            return target with
            {
                Unit = "",
                Caution = Texts.Get("caution.noChain"),
                CautionInShort = Texts.Get("caution.noChain.short"),
            };
        }
        var source =
            chain.StatedBySpec ? TargetSource.Spec
            : catalogue.Find(QuantityNames.ChainPitches) is { } quantity ? SourceOf(quantity)
            : TargetSource.CommonPractice;
        return target with { Value = pitches, Lower = pitches, Upper = pitches, Source = source };
    }

    /// <summary>
    /// Both ends of the chain's length, tried on the bike: only after the inboard stop is proven, since the tight end is
    /// on the largest cog.
    /// </summary>
    internal static IEnumerable<Target> Ends(Bench bench, WorkStage stage) =>
        TightEnd(bench, stage).Concat(LooseEnd(bench, stage));

    internal static IEnumerable<Target> TightEnd(Bench bench, WorkStage stage)
    {
        (int, int) tight = (bench.Catalogue.LargestRing, bench.Catalogue.LargestCog);
        if (bench.IsUsable(tight))
        {
            yield return Check.Of("tight-end", stage, caution: "tooShort") with
            {
                Gear = tight,
                Convention = Texts.Get(
                    "convention.tight-end",
                    tight.Item1,
                    tight.Item2,
                    bench.Catalogue.RearEndAtTightEnd
                ),
            };
        }
    }

    internal static IEnumerable<Target> LooseEnd(Bench bench, WorkStage stage)
    {
        (int, int) loose = (bench.Catalogue.SmallestRing, bench.Catalogue.SmallestCog);
        if (
            loose != (bench.Catalogue.LargestRing, bench.Catalogue.LargestCog)
            && bench.IsUsable(loose)
        )
        {
            yield return Check.Of("loose-end", stage) with
            {
                Gear = loose,
                Convention = Texts.Get(
                    "convention.loose-end",
                    loose.Item1,
                    loose.Item2,
                    bench.Catalogue.RearEndAtLooseEnd
                ),
            };
        }
    }
}
