using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Cli.Output;

/// <summary>Something that a sweep of the travel shows and one position may not.</summary>
/// <param name="Gear">The gear; of several, the worst.</param>
/// <param name="NotUsed">Whether the spec lists the gear as not used.</param>
/// <param name="ValueMm">The figure it is about (mm), or NaN for a state.</param>
/// <param name="TravelMm">The travel at which it is found (mm).</param>
/// <param name="What">In words.</param>
internal readonly record struct SweepFinding(
    Gear Gear,
    bool NotUsed,
    double ValueMm,
    double TravelMm,
    string What
);

/// <summary>Why a sweep ends with something to look at.</summary>
internal static class SweepFindings
{
    /// <summary>Gear by gear: where each state other than ok is first found, and where a gap falls below the part's least.</summary>
    internal static ImmutableArray<SweepFinding> Of(Bike bike, TravelSweep sweep)
    {
        var found = ImmutableArray.CreateBuilder<SweepFinding>();
        var next = new List<SweepFinding>();
        var least = bike.Spec.RearDerailleur?.LeastGapMm ?? 0;
        for (var g = 0; g < sweep.Gears.Length; g++)
        {
            var gear = sweep.Gears[g];
            var notUsed = bike.Spec.GearsNotUsed.Contains(gear);
            var note = notUsed ? Texts.Get("findings.notUsed") : "";
            var states = sweep.State.Slice(g * sweep.Positions, sweep.Positions);
            for (var p = 0; p < states.Length; p++)
            {
                if (states[p] == GearState.Ok || states[..p].Contains(states[p]))
                {
                    continue;
                }
                var travel = sweep.TravelMm[p];
                var what = Texts.Get(
                    "sweep.notOk",
                    gear.RingTeeth,
                    gear.CogTeeth,
                    Texts.Get($"state.{states[p]}"),
                    travel,
                    note
                );
                found.Add(new(gear, notUsed, double.NaN, travel, what));
            }
            var (gap, position) = TravelSweepOutput.Least(
                sweep.GapMm.Slice(g * sweep.Positions, sweep.Positions)
            );
            if (position < 0)
            {
                continue;
            }
            var there = sweep.TravelMm[position];
            if (gap < least)
            {
                found.Add(
                    new(gear, notUsed, gap, there, Words("sweep.leastGap", gear, gap, there, 1))
                );
            }
            var toNext = gap + NextLessOwnMm(bike.Spec, gear);
            if (toNext < least)
            {
                next.Add(new(gear, notUsed, toNext, there, ""));
            }

            string Words(string key, Gear of, double mm, double travel, int gears) =>
                Texts.Get(key, of.RingTeeth, of.CogTeeth, mm, travel, least, note, gears);
        }
        // One screw moves all of them: told once, with the worst gear and the number of gears.
        foreach (var alike in next.GroupBy(finding => finding.NotUsed))
        {
            var worst = alike.MinBy(finding => finding.ValueMm);
            var gears = alike.Count();
            var key =
                "sweep.leastNext"
                + (gears > 1 ? ".several" : "")
                + (worst.ValueMm < 0 ? ".overlap" : "");
            found.Add(
                worst with
                {
                    What = Texts.Get(
                        key,
                        worst.Gear.RingTeeth,
                        worst.Gear.CogTeeth,
                        worst.ValueMm,
                        worst.TravelMm,
                        least,
                        worst.NotUsed ? Texts.Get("findings.notUsed") : "",
                        gears
                    ),
                }
            );
        }
        return found.ToImmutable();
    }

    /// <summary>Whether there is a larger cog beside the one in use.</summary>
    internal static bool HasNext(DrivetrainSpec spec, Gear gear) =>
        gear.CogTeeth != spec.Cogs.Teeth[^1];

    /// <summary>
    /// Gap to the next larger cog less the gap to the cog in use (mm): the difference of their tip radii, the same at every
    /// travel; NaN on the largest cog.
    /// </summary>
    internal static double NextLessOwnMm(DrivetrainSpec spec, Gear gear)
    {
        if (!HasNext(spec, gear))
        {
            return double.NaN;
        }
        var cog = spec.Cogs.Teeth.IndexOf(gear.CogTeeth);
        return Tip(cog) - Tip(cog + 1);

        double Tip(int index) =>
            Sprocket.TipRadiusMm(spec.Cogs.Teeth[index], spec.Cogs.TipDiameterMm(index));
    }
}
