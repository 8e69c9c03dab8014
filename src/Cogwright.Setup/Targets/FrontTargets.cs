namespace Cogwright.Setup.Targets;

/// <summary>The front derailleur: height, angle, inboard stop, cable, outboard stop, trim.</summary>
internal static class FrontTargets
{
    /// <summary>Least height above the tallest teeth (mm). Common practice.</summary>
    internal const double LeastHeightMm = 1;

    /// <summary>Greatest height above the tallest teeth (mm). Common practice.</summary>
    internal const double MostHeightMm = 2;

    /// <summary>Chain to outer plate on the large ring and the smallest cog (mm). Common practice.</summary>
    internal const double OuterGapMm = 0.5;

    /// <summary>What is allowed either way (mm); no source gives one, it is this project's own.</summary>
    internal const double OuterGapToleranceMm = 0.2;

    /// <summary>Least chain to inner plate on the small ring and the largest cog (mm). Common practice.</summary>
    internal const double LeastInnerGapMm = 0.5;

    /// <summary>Greatest chain to inner plate on the small ring and the largest cog (mm). Common practice.</summary>
    internal const double MostInnerGapMm = 1;

    internal static IEnumerable<Target> Make(Bench bench)
    {
        if (!bench.ShiftsFront)
        {
            yield break;
        }
        const WorkStage stage = WorkStage.Front;
        yield return Check.Of(TargetNames.FrontHeight, stage) with
        {
            Lower = LeastHeightMm,
            Upper = MostHeightMm,
            Unit = "mm",
        };
        yield return Check.Of("front-parallel", stage);
        yield return TorqueTargets.First(bench, Fasteners.FrontMount, stage);
        yield return Check.Of(TargetNames.FrontInnerGap, stage, caution: "derail") with
        {
            Gear = Nearest(bench, bench.Catalogue.SmallestRing, bench.Catalogue.Cogs.Reverse()),
            Lower = LeastInnerGapMm,
            Upper = MostInnerGapMm,
            Unit = "mm",
        };
        if (bench.IsCable)
        {
            yield return Check.Of("front-cable", stage);
            yield return TorqueTargets.First(bench, Fasteners.FrontCable, stage);
        }
        yield return Check.Of(
            TargetNames.FrontOuterGap,
            stage,
            bench.ByActuation,
            bench.IsMotorDriven ? "frontMotor" : null
        ) with
        {
            Gear = Nearest(bench, bench.Catalogue.LargestRing, bench.Catalogue.Cogs),
            Value = OuterGapMm,
            Lower = OuterGapMm - OuterGapToleranceMm,
            Upper = OuterGapMm + OuterGapToleranceMm,
            Unit = "mm",
        };
        if (bench.Catalogue.Rings.Length > 2)
        {
            yield return Check.Of("front-middle", stage);
        }
        yield return Check.Of("front-trim", stage, bench.ByActuation, "turning");
        if (bench.IsCable)
        {
            yield return Check.Of("front-cable-trimmed", stage, caution: "cableEnds");
        }
    }

    /// <summary>The first of the cogs that the rider may use with the ring, so that nobody is sent into a locked gear.</summary>
    private static (int, int) Nearest(Bench bench, int ring, IEnumerable<int> cogs)
    {
        foreach (var cog in cogs)
        {
            if (bench.IsUsable((ring, cog)))
            {
                return (ring, cog);
            }
        }
        return (ring, cogs.First());
    }
}
