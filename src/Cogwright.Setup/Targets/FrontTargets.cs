using Cogwright.Setup.Catalogue;

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
        var front = bench.Catalogue.Front;
        var (height, inner, outer) = (
            front?.Height ?? new(LeastHeightMm, MostHeightMm, false),
            front?.InnerGap ?? new(LeastInnerGapMm, MostInnerGapMm, false),
            front?.OuterGap
                ?? new(OuterGapMm - OuterGapToleranceMm, OuterGapMm + OuterGapToleranceMm, false)
        );
        yield return Between(Check.Of(TargetNames.FrontHeight, stage), height);
        yield return Check.Of("front-parallel", stage);
        yield return TorqueTargets.First(bench, Fasteners.FrontMount, stage);
        yield return Between(
            Check.Of(TargetNames.FrontInnerGap, stage, caution: "derail") with
            {
                Gear = Nearest(bench, bench.Catalogue.SmallestRing, bench.Catalogue.Cogs.Reverse()),
            },
            inner
        );
        if (bench.IsCable)
        {
            yield return Check.Of("front-cable", stage);
            yield return TorqueTargets.First(bench, Fasteners.FrontCable, stage);
        }
        yield return Between(
            Check.Of(
                TargetNames.FrontOuterGap,
                stage,
                bench.ByActuation,
                bench.IsMotorDriven ? "frontMotor" : null
            ) with
            {
                Gear = Nearest(bench, bench.Catalogue.LargestRing, bench.Catalogue.Cogs),
                Value = 0.5 * (outer.LowerMm + outer.UpperMm),
            },
            outer
        );
        if (bench.Catalogue.Rings.Length > 2)
        {
            yield return Check.Of("front-middle", stage);
        }
        yield return WithRub(Check.Of("front-trim", stage, bench.ByActuation, "turning"), front);
        if (bench.IsCable)
        {
            yield return Check.Of("front-cable-trimmed", stage, caution: "cableEnds");
        }
    }

    /// <summary>A target with its bounds; the part's own figures are told as the spec's, and not as common practice.</summary>
    private static Target Between(Target target, FrontWanted wanted) =>
        target with
        {
            Lower = wanted.LowerMm,
            Upper = wanted.UpperMm,
            Unit = "mm",
            Source = wanted.StatedBySpec ? TargetSource.Spec : target.Source,
            Note = wanted.StatedBySpec ? Texts.Get("target.front-stated.note") : target.Note,
        };

    /// <summary>The trim check with the gears that the model says will rub.</summary>
    private static Target WithRub(Target target, FrontFacts? front)
    {
        if (front is null)
        {
            return target;
        }
        var notes = new List<string>();
        if (front.TrimClears.Length > 0)
        {
            notes.Add(Texts.Get("target.front-trim.trimClears", front.TrimClears));
        }
        if (front.NothingClears.Length > 0)
        {
            notes.Add(Texts.Get("target.front-trim.nothingClears", front.NothingClears));
        }
        if (notes.Count == 0)
        {
            notes.Add(Texts.Get("target.front-trim.allClear"));
        }
        return target with
        {
            Note = string.Join(" ", notes.Prepend(target.Note ?? "")).TrimStart(),
            Source = front.RestsOnAssumed ? TargetSource.Assumed : TargetSource.Spec,
        };
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
