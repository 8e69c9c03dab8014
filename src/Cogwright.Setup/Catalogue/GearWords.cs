using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>States and findings of a gear in the words of the trade.</summary>
internal static class GearWords
{
    /// <summary>The state of a gear in one sentence.</summary>
    internal static string State(GearResult gear) =>
        gear.State switch
        {
            GearState.Ok => Texts.Get("state.ok"),
            GearState.Slack => Texts.Get("state.slack", gear.ShortfallMm),
            GearState.Short => Texts.Get("state.short", gear.ShortfallMm),
            GearState.Clash => Texts.Get("state.clash", gear.ShortfallMm),
            _ => Unreachable(gear.Blame, gear.ShortfallMm),
        };

    /// <summary>Why a gear was left out of the chain choice.</summary>
    internal static string LeftOut(LeftOutGear gear) =>
        gear.State switch
        {
            GearState.Clash => Texts.Get("state.clash", gear.ShortfallMm),
            GearState.Short => Texts.Get("state.short", gear.ShortfallMm),
            GearState.Slack => Texts.Get("state.slack", gear.ShortfallMm),
            _ => Unreachable(gear.Blame, gear.ShortfallMm),
        };

    /// <summary>What is worth a look in a gear, one sentence each, nearest to harm first.</summary>
    internal static ImmutableArray<string> Findings(GearResult gear, RearDerailleur derailleur)
    {
        var findings = ImmutableArray.CreateBuilder<string>();
        if (gear.State is GearState.Ok)
        {
            if (gear.GapMm < derailleur.LeastGapMm)
            {
                findings.Add(Texts.Get("finding.gap", gear.GapMm, derailleur.LeastGapMm));
            }
            if (gear.GapToNextMm < derailleur.LeastGapMm)
            {
                findings.Add(Texts.Get("finding.gapNext", gear.GapToNextMm, derailleur.LeastGapMm));
            }
            if (gear.TightMarginMm < derailleur.LeastMarginMm)
            {
                findings.Add(
                    Texts.Get("finding.tight", gear.TightMarginMm, derailleur.LeastMarginMm)
                );
            }
            if (gear.LooseMarginMm < derailleur.LeastMarginMm)
            {
                findings.Add(
                    Texts.Get("finding.loose", gear.LooseMarginMm, derailleur.LeastMarginMm)
                );
            }
        }
        return findings.ToImmutable();
    }

    private static string Unreachable(Blame blame, double shortfallMm) =>
        blame switch
        {
            Blame.InboardStop => Texts.Get("state.inboardStop", shortfallMm),
            Blame.OutboardStop => Texts.Get("state.outboardStop", shortfallMm),
            Blame.OverlappingSprockets => Texts.Get("state.overlap"),
            _ => Texts.Get("state.parallelogram", shortfallMm),
        };
}
