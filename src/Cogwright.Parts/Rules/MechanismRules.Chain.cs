using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Parts.Rules;

/// <content>The length of the chain.</content>
internal sealed partial class MechanismRules
{
    private RuleAnswer ChainLength()
    {
        // Locked out on the tight side the derailleur is torn; on the loose side the chain hangs.
        var leftOut = choice.LeftOut;
        var tight = Found(GearState.Short, FindingKind.ShortInTravel);
        var loose = Found(GearState.Slack, FindingKind.SlackInTravel);
        var least = LeastMargin(_ => true);
        var (answer, sentence, todo) = (
            choice.Status,
            leftOut.IsEmpty,
            tight.Length,
            loose.Length
        ) switch
        {
            (ChainChoiceStatus.NoGear, _, _, _) => (
                Compatibility.No,
                Texts.Get("mechanism.chain.none"),
                ""
            ),
            (_, false, _, _) => (
                Compatibility.No,
                Texts.Get(
                    "mechanism.chain.leftOut",
                    Explanation.List(leftOut.Select(l => l.Gear)),
                    Number(leftOut.Max(l => l.ShortfallMm), 1)
                ),
                ""
            ),
            (_, _, > 0, _) => (
                Compatibility.No,
                Texts.Get(
                    "mechanism.chain.short",
                    table!.Pitches,
                    Explanation.List(tight),
                    Number(-LeastMargin(tight.Contains) / spec.Chain.PitchMm, 1)
                ),
                WhatToCut()
            ),
            (_, _, _, > 0) when choice.MissingPitches > 0 => (
                Compatibility.YesWith,
                Texts.Get(
                    "mechanism.chain.slack",
                    table!.Pitches,
                    Explanation.List(loose),
                    choice.MissingPitches
                ),
                Texts.Get("mechanism.chain.lockOut", Explanation.List(loose))
            ),
            (_, _, _, > 0) => (
                Compatibility.YesWith,
                Texts.Get("mechanism.chain.long", table!.Pitches, Explanation.List(loose)),
                WhatToCut()
            ),
            _ => (
                Compatibility.Yes,
                Texts.Get(
                    "mechanism.chain.yes",
                    table?.Pitches ?? choice.Numbers.BenchRule,
                    Number(least, 1)
                ),
                ""
            ),
        };
        return Answer(
            "mechanism-chain",
            answer,
            sentence,
            todo,
            answer == Compatibility.Yes ? least / ComfortableChainMm : double.NaN,
            Mechanism,
            AnswerView.Side,
            leftOut.IsEmpty ? FirstOf(tight) ?? FirstOf(loose) : leftOut[0].Gear,
            table?.Pitches ?? 0,
            least
        );
    }

    private string WhatToCut() =>
        choice.Numbers.Recommended is { } length && length != table?.Pitches
            ? Texts.Get("mechanism.chain.cut", length)
            : "";

    /// <summary>The gears in that state where gaps are set, or in that trouble anywhere in the travel.</summary>
    private ImmutableArray<Gear> Found(GearState state, FindingKind inTravel) =>
        table is null
            ? []
            :
            [
                .. findings
                    .Where(finding =>
                        !finding.NotUsed
                        && (
                            finding.Kind == inTravel
                            || (
                                finding.Kind == FindingKind.State
                                && table.Find(finding.Gear)?.State == state
                            )
                        )
                    )
                    .Select(finding => finding.Gear),
            ];

    private RuleAnswer? BoxedChain()
    {
        if (
            build[PartKind.Chain]?.Number(PartFields.BoxedPitches) is not { } boxed
            || choice.Numbers.Recommended is not { } needed
        )
        {
            return null;
        }
        var room = boxed - needed;
        var (answer, reserve) = Boxed(boxed, needed);
        return Answer(
            "mechanism-boxed",
            answer,
            Texts.Get(
                room >= 0 ? "mechanism.boxed.yes" : "mechanism.boxed.no",
                Number(boxed, 0),
                needed,
                Number(Math.Abs(room), 0)
            ),
            room >= 0 ? "" : Texts.Get("mechanism.boxed.do"),
            reserve,
            [PartKind.Chain],
            AnswerView.None,
            null,
            boxed,
            needed
        );
    }

    /// <summary>The least reserve of chain at either end in those gears, all over the travel (mm of chain); NaN without any.</summary>
    private double LeastMargin(Func<Gear, bool> which)
    {
        var least = double.PositiveInfinity;
        foreach (var gear in table?.Gears ?? [])
        {
            if (gear.HasReach && !IsNotUsed(gear.Gear) && which(gear.Gear))
            {
                least = Math.Min(least, Math.Min(gear.TightMarginMm, gear.LooseMarginMm));
            }
        }
        // What happens elsewhere in the travel is worse than where gaps are set.
        foreach (var finding in findings.Where(f => !f.NotUsed && which(f.Gear)))
        {
            least = finding.Kind switch
            {
                FindingKind.ShortInTravel or FindingKind.SlackInTravel => Math.Min(
                    least,
                    -finding.ValueMm
                ),
                FindingKind.LittleTightMargin or FindingKind.LittleLooseMargin => Math.Min(
                    least,
                    finding.ValueMm
                ),
                _ => least,
            };
        }
        return double.IsPositiveInfinity(least) ? double.NaN : least;
    }
}
