using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Setup.Jobs;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.Jobs;

/// <summary>What the model says of every gear that the rider may use, in the order of trying.</summary>
internal static class TestExpectations
{
    /// <summary>
    /// Ring by ring from the largest, each up the cogs from the smallest: the largest cog, behind which the spokes are, comes last.
    /// </summary>
    /// <param name="bike">The bike.</param>
    internal static ImmutableArray<ExpectedGear> Of(ComputedBike bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var spec = bike.Spec;
        var found = bike.Findings.ToLookup(finding => finding.Gear);
        return
        [
            .. from ring in spec.Rings.Select(ring => ring.Teeth).OrderDescending()
            from cog in spec.Cogs.Teeth.Order()
            let gear = new Gear(ring, cog)
            where !spec.GearsNotUsed.Contains(gear)
            select Of(bike.Table.Find(gear)!.Value, found[gear]),
        ];
    }

    private static ExpectedGear Of(in GearResult gear, IEnumerable<Finding> findings) =>
        new(
            new(gear.Gear.RingTeeth, gear.Gear.CogTeeth),
            [
                .. findings
                    .Select(finding => SymptomOf(finding.Kind))
                    .Append(gear.State == GearState.Slack ? Symptoms.ChainSlack : null)
                    .OfType<string>()
                    .Distinct(),
            ],
            // A chain that is too short tears the derailleur off, now or in the travel; a pulley in the cog jams.
            gear.State
                is GearState.Short
                    or GearState.Unreachable
                    or GearState.Clash
                || findings.Any(finding => finding.Kind == FindingKind.ShortInTravel)
        );

    private static string? SymptomOf(FindingKind kind) =>
        kind switch
        {
            FindingKind.RubsNextRing => Symptoms.RingRub,
            FindingKind.RubsFrontCage => Symptoms.FrontRub,
            FindingKind.SlackInTravel or FindingKind.CageDoesNotReturn => Symptoms.ChainSlack,
            _ => null,
        };
}
