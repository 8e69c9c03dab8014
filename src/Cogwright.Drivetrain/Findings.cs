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
        if (table.SetUp is { IsSet: false } setUp)
        {
            var kind = setUp.Status switch
            {
                BodySetUpStatus.ChainTooLong => FindingKind.ChainTooLongForMark,
                BodySetUpStatus.ChainTooShort => FindingKind.ChainTooShortForMark,
                _ => FindingKind.SetUpCogNotReached,
            };
            findings.Add(new(setUp.Gear, kind, Math.Abs(setUp.ChainOffMm), 0, false));
        }
        var rearEnd = RearEnd.Of(table.Spec.Frame);
        foreach (var gear in table.Gears)
        {
            var notUsed = table.Spec.GearsNotUsed.Contains(gear.Gear);
            if (gear.State != GearState.Ok)
            {
                findings.Add(new(gear.Gear, FindingKind.State, gear.ShortfallMm, 0, notUsed));
                continue;
            }
            if (RingRub.ClearanceMm(table.Spec, gear) is var rub && rub < 0)
            {
                findings.Add(new(gear.Gear, FindingKind.RubsNextRing, rub, 0, notUsed));
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
            if (gear.BodyRest == BodyRest.AtForwardLimit)
            {
                findings.Add(
                    new(gear.Gear, FindingKind.BodyAtForwardLimit, double.NaN, double.NaN, notUsed)
                );
            }
            if (DamperBand.Of(table, gear) is { Returns: false })
            {
                findings.Add(
                    new(gear.Gear, FindingKind.CageDoesNotReturn, double.NaN, double.NaN, notUsed)
                );
            }
            var margins = Margins.Of(table, rearEnd, gear);
            if (margins.Tight < 0)
            {
                findings.Add(
                    new(
                        gear.Gear,
                        FindingKind.ShortInTravel,
                        -margins.Tight,
                        margins.TightAtTravelMm,
                        notUsed
                    )
                );
            }
            else if (margins.Tight < leastMargin)
            {
                findings.Add(
                    new(
                        gear.Gear,
                        FindingKind.LittleTightMargin,
                        margins.Tight,
                        leastMargin,
                        notUsed
                    )
                );
            }
            if (margins.Loose < 0)
            {
                findings.Add(
                    new(
                        gear.Gear,
                        FindingKind.SlackInTravel,
                        -margins.Loose,
                        margins.LooseAtTravelMm,
                        notUsed
                    )
                );
            }
            else if (margins.Loose < leastMargin)
            {
                findings.Add(
                    new(
                        gear.Gear,
                        FindingKind.LittleLooseMargin,
                        margins.Loose,
                        leastMargin,
                        notUsed
                    )
                );
            }
        }
        findings.AddRange(FrontClearances.Findings(FrontClearances.Of(table)));
        return findings.ToImmutable();
    }

    /// <summary>The least reserves of a gear (mm of chain): of a suspended rear end, over the whole travel.</summary>
    private readonly record struct Margins(
        double Tight,
        double TightAtTravelMm,
        double Loose,
        double LooseAtTravelMm
    )
    {
        internal static Margins Of(GearTable table, in RearEnd rearEnd, in GearResult gear)
        {
            var spec = table.Spec;
            if (spec.Frame.Suspension is null)
            {
                return new(gear.TightMarginMm, 0, gear.LooseMarginMm, 0);
            }
            var demand = GearDemand.Of(
                spec,
                rearEnd,
                gear.RingIndex,
                gear.CogIndex,
                table.BodyAngleRad
            );
            var pitch = spec.Chain.PitchMm;
            return new(
                (table.Pitches - demand.NeedsPitches) * pitch,
                demand.NeedsAtTravelMm,
                (demand.TakesPitches - table.Pitches) * pitch,
                demand.TakesAtTravelMm
            );
        }
    }
}
