using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Something in the work that cannot be done on this bike.</summary>
/// <param name="Path">The field, such as <c>gap.cog</c>.</param>
/// <param name="Message">What is wrong and what to do.</param>
public sealed record WorkProblem(string Path, string Message);

/// <summary>Says what in a <see cref="WorkSpec"/> does not go with the bike.</summary>
public static class WorkCheck
{
    /// <summary>All problems; empty when there is none.</summary>
    public static ImmutableArray<WorkProblem> Problems(QuantityCatalogue catalogue, WorkSpec work)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        ArgumentNullException.ThrowIfNull(work);
        var problems = ImmutableArray.CreateBuilder<WorkProblem>();
        if (work.Gap is { } gap)
        {
            if (!catalogue.HasRearDerailleur)
            {
                problems.Add(new("gap", Texts.Get("work.gapNoDerailleur")));
            }
            if (!catalogue.Has((gap.RingTeeth, gap.CogTeeth)))
            {
                problems.Add(new("gap", Texts.Get("work.gapNoGear", gap.RingTeeth, gap.CogTeeth)));
            }
            // Written so that NaN is refused too.
            if (!(gap.ValueMm is > 0 and < GapBounds.MostMm))
            {
                problems.Add(
                    new("gap.value", Texts.Get("work.gapValue", gap.ValueMm, GapBounds.MostMm))
                );
            }
            if (!(gap.ToleranceMm is > 0 and < GapBounds.MostMm))
            {
                problems.Add(new("gap.tolerance", Texts.Get("work.gapTolerance", gap.ToleranceMm)));
            }
        }
        foreach (var group in work.Torques.GroupBy(t => t.Fastener))
        {
            if (group.Count() > 1)
            {
                problems.Add(new($"torques.{group.Key}", Texts.Get("work.torqueTwice", group.Key)));
            }
            foreach (var torque in group)
            {
                if (
                    !(torque.LowerNm > 0 && torque.LowerNm <= torque.UpperNm)
                    || double.IsInfinity(torque.UpperNm)
                )
                {
                    problems.Add(
                        new(
                            $"torques.{torque.Fastener}",
                            Texts.Get("work.torqueRange", torque.LowerNm, torque.UpperNm)
                        )
                    );
                }
            }
        }
        if (work.FrontDerailleur && catalogue.Rings.Length == 1)
        {
            problems.Add(new("frontDerailleur", Texts.Get("work.frontOneRing")));
        }
        if (catalogue.RestsInboard && work.Actuation is not Actuation.Cable)
        {
            problems.Add(new("actuation", Texts.Get("work.restsInboard")));
        }
        if (catalogue.IsOnAxle && work.Torques.Any(t => t.Fastener == Fasteners.HangerScrews))
        {
            problems.Add(
                new($"torques.{Fasteners.HangerScrews}", Texts.Get("work.hangerScrewsOnAxle"))
            );
        }
        return problems.ToImmutable();
    }
}
