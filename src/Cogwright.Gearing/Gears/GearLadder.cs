using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>
/// Every gear of a set-up from the lowest to the highest, with its measures, its steps, what doubles it and where a gap is.
/// Immutable.
/// </summary>
public sealed record GearLadder
{
    /// <summary>Two gears of different rings nearer than this are doubles: 3 %, hardly felt (common practice).</summary>
    public const double UsualDoubles = 0.03;

    /// <summary>A step of one cog greater than this is a gap: 20 %, clearly felt (common practice).</summary>
    public const double UsualGaps = 0.2;

    private GearLadder() { }

    /// <summary>The rings and cogs.</summary>
    public required GearSet Set { get; init; }

    /// <summary>The tyre, and so the wheel.</summary>
    public required Tyre Tyre { get; init; }

    /// <summary>Length of the crank (mm), or null when it is not known: there is no gain then.</summary>
    public double? CrankMm { get; init; }

    /// <summary>Every gear, lowest first; of equal ones that of the smaller ring first.</summary>
    public required ImmutableArray<LadderGear> Gears { get; init; }

    /// <summary>Pairs of gears on different rings that are nearly the same, both used.</summary>
    public required ImmutableArray<GearDouble> Doubles { get; init; }

    /// <summary>Steps of one cog that are large, one for each pair of cogs.</summary>
    public required ImmutableArray<CogGap> Gaps { get; init; }

    /// <summary>Lowest gear that may be used.</summary>
    public LadderGear Lowest => Gears.First(gear => gear.IsUsed);

    /// <summary>Highest gear that may be used.</summary>
    public LadderGear Highest => Gears.Last(gear => gear.IsUsed);

    /// <summary>Range: the highest gear over the lowest, of those that may be used; at least 1.</summary>
    public double Range => Highest.Ratio / Lowest.Ratio;

    /// <summary>How many gears there are when doubles and gears not used are left out.</summary>
    public int Distinct
    {
        get
        {
            var count = 0;
            var last = 0.0;
            foreach (var gear in Gears)
            {
                if (gear.IsUsed && gear.Ratio > last * (1 + DoublesWithin))
                {
                    count++;
                    last = gear.Ratio;
                }
            }
            return count;
        }
    }

    /// <summary>The limit for doubles that was used (a fraction).</summary>
    public required double DoublesWithin { get; init; }

    /// <summary>The limit for gaps that was used (a fraction).</summary>
    public required double GapsAbove { get; init; }

    /// <summary>The gears of a set-up.</summary>
    /// <param name="set">Rings and cogs.</param>
    /// <param name="tyre">The tyre of the driven wheel.</param>
    /// <param name="crankMm">Length of the crank (mm, 50 to 300), or null.</param>
    /// <param name="doublesWithin">Gears of different rings nearer than this are doubles (a fraction between 0 and 1).</param>
    /// <param name="gapsAbove">Steps of one cog greater than this are gaps (a fraction between 0 and 1).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static GearLadder Of(
        GearSet set,
        Tyre tyre,
        double? crankMm = null,
        double doublesWithin = UsualDoubles,
        double gapsAbove = UsualGaps
    )
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(tyre);
        CheckLimit(doublesWithin, "doubles");
        CheckLimit(gapsAbove, "gaps");
        var gears = new List<LadderGear>(set.Count);
        for (var ring = 0; ring < set.Rings.Length; ring++)
        {
            for (var cog = 0; cog < set.Cogs.Length; cog++)
            {
                gears.Add(Measured(set, tyre, crankMm, ring, cog));
            }
        }
        var sorted = gears.OrderBy(gear => gear.Ratio).ThenBy(gear => gear.RingIndex).ToArray();
        FillSteps(sorted);
        return new()
        {
            Set = set,
            Tyre = tyre,
            CrankMm = crankMm,
            Gears = [.. sorted],
            Doubles = FindDoubles(sorted, doublesWithin),
            Gaps = FindGaps(set, gapsAbove),
            DoublesWithin = doublesWithin,
            GapsAbove = gapsAbove,
        };
    }

    private static LadderGear Measured(GearSet set, Tyre tyre, double? crankMm, int ring, int cog)
    {
        var teeth = set.At(ring, cog);
        return new()
        {
            Teeth = teeth,
            RingIndex = ring,
            CogIndex = cog,
            Ratio = teeth.Ratio,
            DevelopmentM = GearMeasures.DevelopmentM(teeth.Ratio, tyre.CircumferenceM),
            LeastDevelopmentM = GearMeasures.DevelopmentM(teeth.Ratio, tyre.LeastM),
            MostDevelopmentM = GearMeasures.DevelopmentM(teeth.Ratio, tyre.MostM),
            GearInches = GearMeasures.GearInches(teeth.Ratio, tyre.DiameterM),
            Gain = crankMm is { } crank
                ? GearMeasures.Gain(teeth.Ratio, tyre.CircumferenceM, crank)
                : null,
            StepOnRing = cog > 0 ? ((double)set.Cogs[cog] / set.Cogs[cog - 1]) - 1 : null,
            IsAcross = set.IsAcross(ring, cog),
            IsUsed = set.IsUsed(ring, cog),
        };
    }

    /// <summary>The step from each gear to the next higher one that may be used.</summary>
    private static void FillSteps(LadderGear[] sorted)
    {
        double? above = null;
        for (var i = sorted.Length - 1; i >= 0; i--)
        {
            sorted[i] = sorted[i] with
            {
                StepToNext = above is { } next ? (next / sorted[i].Ratio) - 1 : null,
            };
            if (sorted[i].IsUsed)
            {
                above = sorted[i].Ratio;
            }
        }
    }

    private static ImmutableArray<GearDouble> FindDoubles(LadderGear[] sorted, double within)
    {
        var doubles = ImmutableArray.CreateBuilder<GearDouble>();
        for (var low = 0; low < sorted.Length; low++)
        {
            for (
                var high = low + 1;
                high < sorted.Length && sorted[high].Ratio <= sorted[low].Ratio * (1 + within);
                high++
            )
            {
                if (
                    sorted[low].IsUsed
                    && sorted[high].IsUsed
                    && sorted[low].RingIndex != sorted[high].RingIndex
                )
                {
                    doubles.Add(
                        new(
                            sorted[low].Teeth,
                            sorted[high].Teeth,
                            (sorted[high].Ratio / sorted[low].Ratio) - 1
                        )
                    );
                }
            }
        }
        return doubles.ToImmutable();
    }

    private static ImmutableArray<CogGap> FindGaps(GearSet set, double above) =>
        [
            .. Enumerable
                .Range(1, set.Cogs.Length - 1)
                .Select(cog => new CogGap(
                    set.Cogs[cog],
                    set.Cogs[cog - 1],
                    ((double)set.Cogs[cog] / set.Cogs[cog - 1]) - 1
                ))
                .Where(gap => gap.Step > above),
        ];

    private static void CheckLimit(double limit, string what)
    {
        if (!(limit > 0 && limit < 1))
        {
            throw new ImpossibleInputException(
                what,
                Texts.Get("ladder.limit", Texts.Get($"ladder.{what}"), limit)
            );
        }
    }
}

/// <summary>One gear of a ladder with its measures. Immutable.</summary>
public sealed record LadderGear
{
    /// <summary>Ring and cog.</summary>
    public required GearTeeth Teeth { get; init; }

    /// <summary>Index of the ring, 0 for the smallest.</summary>
    public required int RingIndex { get; init; }

    /// <summary>Index of the cog, 0 for the smallest.</summary>
    public required int CogIndex { get; init; }

    /// <summary>Turns of the wheel per turn of the cranks.</summary>
    public required double Ratio { get; init; }

    /// <summary>Development (m per turn of the cranks).</summary>
    public required double DevelopmentM { get; init; }

    /// <summary>Development with the least circumference that the tyre may have (m).</summary>
    public required double LeastDevelopmentM { get; init; }

    /// <summary>Development with the greatest circumference that the tyre may have (m).</summary>
    public required double MostDevelopmentM { get; init; }

    /// <summary>Gear inches (in): a diameter.</summary>
    public required double GearInches { get; init; }

    /// <summary>Gain, or null when the crank's length is not known.</summary>
    public double? Gain { get; init; }

    /// <summary>Step to the next higher gear of all that may be used (a fraction), or null for the highest.</summary>
    public double? StepToNext { get; init; }

    /// <summary>Step to the next smaller cog on the same ring (a fraction), or null on the smallest.</summary>
    public double? StepOnRing { get; init; }

    /// <summary>Whether the chain runs across in it.</summary>
    public required bool IsAcross { get; init; }

    /// <summary>Whether the rider may use it.</summary>
    public required bool IsUsed { get; init; }
}

/// <summary>Two gears that are nearly the same. Immutable.</summary>
/// <param name="Lower">The lower one.</param>
/// <param name="Higher">The higher one, or an equal one on a larger ring.</param>
/// <param name="Step">From the one to the other (a fraction, 0 when equal).</param>
public sealed record GearDouble(GearTeeth Lower, GearTeeth Higher, double Step);

/// <summary>A large step from one cog to the next. Immutable.</summary>
/// <param name="Larger">Teeth of the larger cog.</param>
/// <param name="Smaller">Teeth of the smaller cog.</param>
/// <param name="Step">How much higher the gear becomes (a fraction).</param>
public sealed record CogGap(int Larger, int Smaller, double Step);
