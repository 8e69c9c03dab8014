using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What in a gear table is worth a look.</summary>
public static class Findings
{
    /// <summary>All findings, gear by gear; empty when every gear is as it should be.</summary>
    public static ImmutableArray<Finding> Of(GearTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        var findings = ImmutableArray.CreateBuilder<Finding>();
        var leastGap = table.Spec.RearDerailleur?.LeastGapMm ?? 0;
        var leastMargin = table.Spec.RearDerailleur?.LeastMarginMm ?? 0;
        foreach (var gear in table.Gears)
        {
            var notUsed = table.Spec.GearsNotUsed.Contains(gear.Gear);
            if (gear.State != GearState.Ok)
            {
                findings.Add(new(gear.Gear, FindingKind.State, gear.ShortfallMm, 0, notUsed));
                continue;
            }
            if (table.Spec.RearDerailleur is null)
            {
                continue;
            }
            if (gear.GapMm < leastGap)
            {
                findings.Add(
                    new(gear.Gear, FindingKind.GapBelowLeast, gear.GapMm, leastGap, notUsed)
                );
            }
            if (gear.GapToNextMm < leastGap)
            {
                findings.Add(
                    new(
                        gear.Gear,
                        FindingKind.GapToNextBelowLeast,
                        gear.GapToNextMm,
                        leastGap,
                        notUsed
                    )
                );
            }
            if (gear.TightMarginMm < leastMargin)
            {
                findings.Add(
                    new(
                        gear.Gear,
                        FindingKind.LittleTightMargin,
                        gear.TightMarginMm,
                        leastMargin,
                        notUsed
                    )
                );
            }
            if (gear.LooseMarginMm < leastMargin)
            {
                findings.Add(
                    new(
                        gear.Gear,
                        FindingKind.LittleLooseMargin,
                        gear.LooseMarginMm,
                        leastMargin,
                        notUsed
                    )
                );
            }
        }
        findings.AddRange(FrontClearances.Findings(FrontClearances.Of(table)));
        return findings.ToImmutable();
    }
}
