using System.Globalization;

namespace Cogwright.Drivetrain;

/// <summary>What a result means, in words: what is to blame, by how much, and what to do.</summary>
/// <param name="What">What is the matter, with its figure.</param>
/// <param name="WhatToDo">What to do about it.</param>
public sealed record Explanation(string What, string WhatToDo)
{
    /// <summary>Why a gear is not ok, or null when it is.</summary>
    /// <param name="gear">The gear.</param>
    /// <param name="spec">The bike, so that the words suit its mount; null for a derailleur on a hanger.</param>
    public static Explanation? Of(in GearResult gear, DrivetrainSpec? spec = null) =>
        gear.Blame == Blame.None
            ? null
            : new(
                Texts.Get(
                    $"gear.{gear.Blame}.what",
                    gear.ShortfallMm,
                    gear.Gear.RingTeeth,
                    gear.Gear.CogTeeth
                ),
                Texts.Get(Texts.OnAxle($"gear.{gear.Blame}.do", IsOnAxle(spec)))
            );

    /// <summary>A finding in words.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="spec">The bike, so that the words suit its mount; null for a derailleur on a hanger.</param>
    public static Explanation Of(in Finding finding, DrivetrainSpec? spec = null) =>
        Of(finding, 1, spec);

    /// <summary>
    /// Findings in words, in their order; when several gears of the same use have the next larger cog too near, that is
    /// told once, with the worst gear and the number of gears: there is one screw for all of them.
    /// </summary>
    /// <param name="findings">The findings.</param>
    /// <param name="wordsOf">One finding in words.</param>
    /// <param name="spec">The bike, so that the words suit its mount; null for a derailleur on a hanger.</param>
    /// <returns>The first finding that each stands for, with the words.</returns>
    public static IEnumerable<(Finding First, Explanation Words)> Of(
        IReadOnlyCollection<Finding> findings,
        Func<Finding, Explanation> wordsOf,
        DrivetrainSpec? spec = null
    )
    {
        ArgumentNullException.ThrowIfNull(findings);
        ArgumentNullException.ThrowIfNull(wordsOf);
        var told = new HashSet<bool>();
        foreach (var finding in findings)
        {
            if (finding.Kind != FindingKind.GapToNextBelowLeast)
            {
                yield return (finding, wordsOf(finding));
                continue;
            }
            if (!told.Add(finding.NotUsed))
            {
                continue;
            }
            Finding[] alike =
            [
                .. findings.Where(f => f.Kind == finding.Kind && f.NotUsed == finding.NotUsed),
            ];
            yield return (finding, Of(alike.MinBy(f => f.ValueMm), alike.Length, spec));
        }
    }

    private static Explanation Of(in Finding finding, int gears, DrivetrainSpec? spec)
    {
        var several = gears > 1 ? ".several" : "";
        // A gap to a cog beside the pulley's own plane may be less than nothing: seen from the side the teeth overlap.
        var overlap = finding is { Kind: FindingKind.GapToNextBelowLeast, ValueMm: < 0 }
            ? ".overlap"
            : "";
        return new(
            Texts.Get(
                $"finding.{finding.Kind}{several}{overlap}.what",
                finding.ValueMm,
                finding.LimitMm,
                finding.Gear.RingTeeth,
                finding.Gear.CogTeeth,
                gears
            ),
            Texts.Get(Texts.OnAxle($"finding.{finding.Kind}.do", IsOnAxle(spec)))
        );
    }

    /// <summary>The reasons behind a chain choice, in reading order.</summary>
    public static IReadOnlyList<string> Reasons(DrivetrainSpec spec, ChainChoice choice)
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(choice);
        var reasons = new List<string>();
        var n = choice.Numbers;
        if (choice.LongestPosition is { } position)
        {
            reasons.Add(
                Texts.Get(
                    "chain.growth",
                    position.TravelMm,
                    position.AxleToBracketMm,
                    position.GrowthMm
                )
            );
        }
        reasons.Add(
            Texts.Get(
                spec.Idler is null ? "chain.direct" : "chain.directIdler",
                n.DirectLargestPitches
            )
        );
        reasons.Add(
            spec.RearDerailleur is null
                ? Texts.Get("chain.benchDirect", n.BenchRule)
                : Texts.Get(
                    "chain.bench",
                    n.BenchRule - ChainChooser.BenchRuleAddsPitches,
                    n.BenchRule
                )
        );
        reasons.Add(
            Texts.Get(
                choice.RoundingEdgeIsBelow ? "chain.edgeBelow" : "chain.edgeAbove",
                choice.RoundingEdgePitches,
                choice.RoundingEdgePitches * Sprocket.PitchMm
            )
        );
        if (IsOnAxle(spec))
        {
            reasons.Add(Texts.Get("chain.onAxle"));
        }
        if (choice.ShortestSetBy is { } shortest)
        {
            reasons.Add(
                Texts.Get(
                    spec.RearDerailleur is null ? "chain.shortestDirect" : "chain.shortest",
                    n.ShortestSafe,
                    shortest.RingTeeth,
                    shortest.CogTeeth
                ) + AtTravel(choice.ShortestSetAtTravelMm)
            );
        }
        if (choice.LongestSetBy is { } longest)
        {
            reasons.Add(
                Texts.Get(
                    spec.RearDerailleur is null ? "chain.longestDirect" : "chain.longest",
                    n.LongestSafe,
                    longest.RingTeeth,
                    longest.CogTeeth
                ) + AtTravel(choice.LongestSetAtTravelMm)
            );
        }
        AddRecommendation(choice, reasons);
        foreach (var gear in choice.LeftOut)
        {
            reasons.Add(
                Texts.Get(
                    "chain.leftOut",
                    gear.Gear.RingTeeth,
                    gear.Gear.CogTeeth,
                    Texts.Get(
                        $"gear.{gear.Blame}.what",
                        gear.ShortfallMm,
                        gear.Gear.RingTeeth,
                        gear.Gear.CogTeeth
                    )
                )
            );
        }
        foreach (var moved in choice.ChainstaySensitivity)
        {
            reasons.Add(
                moved.Recommended == n.Recommended
                    ? Texts.Get("chain.moved.same", moved.ChainstayDeltaMm)
                    : Texts.Get(
                        "chain.moved.other",
                        moved.ChainstayDeltaMm,
                        moved.Recommended ?? moved.BenchRule
                    )
            );
        }
        if (choice.CageTakesTeeth is { } takes)
        {
            reasons.Add(
                Texts.Get(
                    spec.RearDerailleur?.Sprung is null ? "chain.capacity" : "chain.capacitySprung",
                    choice.CapacityTeeth,
                    takes
                )
            );
        }
        return reasons;
    }

    /// <summary>A list of gears as a person writes it: 50/11, 50/12.</summary>
    public static string List(IEnumerable<Gear> gears) =>
        string.Join(
            ", ",
            gears.Select(gear =>
                string.Create(CultureInfo.InvariantCulture, $"{gear.RingTeeth}/{gear.CogTeeth}")
            )
        );

    private static bool IsOnAxle(DrivetrainSpec? spec) =>
        spec?.RearDerailleur is { Coaxial: not null };

    private static string AtTravel(double? travelMm) =>
        travelMm is { } travel ? " " + Texts.Get("chain.atTravel", travel) : "";

    private static void AddRecommendation(ChainChoice choice, List<string> reasons)
    {
        var n = choice.Numbers;
        if (n.Recommended is not { } recommended)
        {
            reasons.Add(Texts.Get("chain.none"));
        }
        else if (choice.MissingPitches > 0)
        {
            reasons.Add(
                Texts.Get("chain.missing", choice.MissingPitches, recommended, List(choice.LockOut))
            );
        }
        else if (recommended == n.BenchRule)
        {
            reasons.Add(Texts.Get("chain.benchHolds", recommended));
        }
        else
        {
            reasons.Add(
                Texts.Get(
                    recommended > n.BenchRule ? "chain.movedUp" : "chain.movedDown",
                    n.BenchRule,
                    recommended
                )
            );
        }
    }
}
