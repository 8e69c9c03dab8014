using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Setup;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.Quick;

/// <summary>A line of news about a bike.</summary>
/// <param name="Text">The news.</param>
/// <param name="IsBad">Whether it keeps the bike from being built like that.</param>
internal sealed record News(string Text, bool IsBad);

/// <summary>The first useful answer about a bike, in words and figures. Immutable.</summary>
internal sealed record QuickAnswer
{
    /// <summary>The worst first; one good line when nothing is wrong.</summary>
    public required ImmutableArray<News> News { get; init; }

    /// <summary>Chain length to cut (pitches), or null when no length serves.</summary>
    public int? Pitches { get; init; }

    /// <summary>The length as inner and outer links.</summary>
    public string PitchesInWords { get; init; } = "";

    /// <summary>Why that length, on one line: between which safe lengths it lies, and which gears set them; empty when unknown.</summary>
    public string WhyInShort { get; init; } = "";

    /// <summary>Why that length, in reading order.</summary>
    public required ImmutableArray<string> Why { get; init; }

    /// <summary>The gap to set, such as 6 to 8 mm; null without rear derailleur.</summary>
    public string? Gap { get; init; }

    /// <summary>The gear in which the gap is set.</summary>
    public (int RingTeeth, int CogTeeth) GapGear { get; init; }

    /// <summary>From what to what the gap is measured.</summary>
    public string GapConvention { get; init; } = "";

    /// <summary>What the model finds there with the class's screw, in words; null when it finds none.</summary>
    public string? GapNow { get; init; }

    /// <summary>Capacity in words: asked, there, left; null without rear derailleur.</summary>
    public string? Capacity { get; init; }

    /// <summary>What nobody measured: field, value, where from.</summary>
    public required ImmutableArray<Assumption> Assumed { get; init; }

    /// <summary>Which classes they were taken from, on one line.</summary>
    public string AssumedFrom => string.Join(", ", Assumed.Select(value => value.From).Distinct());

    /// <summary>Whether the rear end is suspended: the length holds where that is longest.</summary>
    public bool IsSuspended { get; init; }

    /// <summary>The answer for a bike.</summary>
    /// <param name="bike">The bike.</param>
    /// <param name="isSuspended">Whether its chainstay is that of a suspended rear end at its longest.</param>
    internal static QuickAnswer Of(ComputedBike bike, bool isSuspended = false)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var choice = bike.Choice;
        var gap = bike.Targets.FirstOrDefault(target => target.Id == TargetNames.Gap);
        var pitches = bike.Spec.Chain.Pitches ?? choice.Numbers.Recommended;
        return new()
        {
            IsSuspended = isSuspended,
            News = NewsOf(bike, isSuspended),
            Pitches = pitches,
            PitchesInWords = pitches is { } length ? ChainWords.Links(length) : "",
            WhyInShort =
                choice is { ShortestSetBy: { } least, LongestSetBy: { } most }
                && choice.Numbers is { ShortestSafe: { } shortest, LongestSafe: { } longest }
                && shortest <= longest
                    ? Texts.Get(
                        "new.whyShort",
                        shortest,
                        longest,
                        least.RingTeeth,
                        least.CogTeeth,
                        most.RingTeeth,
                        most.CogTeeth
                    )
                    : "",
            Why = [.. Explanation.Reasons(bike.Spec, choice)],
            Gap = gap is { Lower: { } lower, Upper: { } upper }
                ? Texts.Get("new.gapBand", lower, upper)
                : null,
            GapGear = gap?.Gear ?? default,
            GapConvention =
                isSuspended && gap?.Gear is { } inGear
                    ? Texts.Get("new.gapAtSag", inGear.RingTeeth, inGear.CogTeeth)
                    : gap?.Convention ?? "",
            // At its longest is not where the gap of a suspended rear end is read.
            GapNow =
                !isSuspended
                && gap?.Gear is { } gear
                && bike.Table.Find(new(gear.RingTeeth, gear.CogTeeth)) is { HasPose: true } found
                    ? Texts.Get("new.gapNow", found.GapMm)
                    : null,
            Capacity = CapacityOf(choice),
            Assumed = bike.Spec.Assumptions,
        };
    }

    private static string? CapacityOf(ChainChoice choice)
    {
        if (choice.CageTakesTeeth is not { } takes)
        {
            return null;
        }
        var teeth = (int)Math.Floor(takes);
        var left = teeth - choice.CapacityTeeth;
        return Texts.Get(
            left < 0 ? "new.capacityShort" : "new.capacity",
            choice.CapacityTeeth,
            teeth,
            Math.Abs(left)
        );
    }

    private static ImmutableArray<News> NewsOf(ComputedBike bike, bool isSuspended)
    {
        var news = ImmutableArray.CreateBuilder<News>();
        var largest = bike.Spec.Cogs.Teeth[^1];
        var used = bike
            .Table.Gears.Where(gear => !bike.Spec.GearsNotUsed.Contains(gear.Gear))
            .ToList();
        var reach = used.Where(gear =>
                gear.Blame is Blame.Parallelogram or Blame.InboardStop or Blame.OutboardStop
            )
            .ToList();
        if (reach.Count > 0)
        {
            var worst = reach.MaxBy(gear => gear.ShortfallMm);
            news.Add(
                new(
                    worst.Gear.CogTeeth == largest
                        ? Texts.Get("new.news.largest", worst.ShortfallMm)
                        : Texts.Get("new.news.cog", worst.Gear.CogTeeth, worst.ShortfallMm),
                    true
                )
            );
        }
        var told = bike.Choice.LockOut;
        if (ClashOnLargest(bike.Choice, largest) is { } overlapMm)
        {
            news.Add(new(Texts.Get("new.news.largestClash", overlapMm), true));
        }
        foreach (
            var group in used.Where(gear =>
                    gear.State != GearState.Ok
                    && !reach.Exists(other => other.Gear == gear.Gear)
                    && !told.Contains(gear.Gear)
                )
                .GroupBy(gear => gear.Blame)
                // What tears parts off comes before what only hangs.
                .OrderByDescending(group => group.Any(gear => gear.State == GearState.Short))
                .ThenByDescending(group => group.First().State)
        )
        {
            var worst = group.MaxBy(gear => gear.ShortfallMm);
            var words = Explanation.Of(worst, bike.Spec)!;
            news.Add(new($"{words.What} {words.WhatToDo}", true));
        }
        if (bike.Choice.MissingPitches > 0)
        {
            news.Add(
                new(
                    Texts.Get(
                        "new.news.capacity",
                        bike.Choice.MissingPitches,
                        Explanation.List(told)
                    ),
                    true
                )
            );
        }
        if (news.Count == 0)
        {
            news.Add(
                new(
                    Texts.Get(
                        isSuspended ? "new.news.fineLongest"
                            : used.Count == 1 ? "new.news.fineOne"
                            : "new.news.fine",
                        used.Count
                    ),
                    false
                )
            );
        }
        if (isSuspended)
        {
            news.Add(new(Texts.Get("new.news.suspended"), false));
        }
        var look = bike
            .Findings.Where(finding => finding.Kind != FindingKind.State && !finding.NotUsed)
            .Select(finding => finding.Gear)
            .Distinct()
            .Count();
        if (look > 0)
        {
            news.Add(new(Texts.Get(look == 1 ? "new.news.lookOne" : "new.news.look", look), false));
        }
        return news.ToImmutable();
    }

    /// <summary>By how much the guide pulley overlaps the largest cog at every chain length (mm), or null when it does not.</summary>
    private static double? ClashOnLargest(ChainChoice choice, int largestCog)
    {
        double? worst = null;
        foreach (var gear in choice.LeftOut)
        {
            if (gear.Blame == Blame.GuidePulleyOnCog && gear.Gear.CogTeeth == largestCog)
            {
                worst = Math.Max(worst ?? 0, gear.ShortfallMm);
            }
        }
        return worst;
    }
}
