using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Makes the turn table of a bike: what to turn for a gap that is off, to use without the computer.</summary>
public static class TurnTableMaker
{
    // Half millimetres near the target, whole ones beyond: a caliper at the stand tells no more apart.
    private static readonly ImmutableArray<double> OffByMm = [-3, -2, -1, -0.5, 0, 0.5, 1, 2, 3];

    /// <summary>The turn table for the gap target among the targets, or null when there is none or the model finds no gap there.</summary>
    public static TurnTable? Make(QuantityCatalogue catalogue, ImmutableArray<Target> targets)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        if (
            // A derailleur on the axle has nothing to turn.
            catalogue.IsOnAxle
            || targets.FirstOrDefault(t => t.Id == TargetNames.Gap)
                is not { Gear: { } gear, Value: { } wanted }
            || catalogue.Find(QuantityNames.Gap, gear) is not { } quantity
        )
        {
            return null;
        }
        ImmutableArray<TurnTableRow> rows =
        [
            .. OffByMm
                // A gap that small cannot be read: the teeth would meet.
                .Where(off => wanted + off > 0)
                .Select(off => Row(catalogue, gear, wanted, off)),
        ];
        var known = catalogue.Screw is { EffectKnown: true };
        return new()
        {
            Gear = gear,
            WantedMm = wanted,
            Screw = GapAdviceWords.Name(catalogue.Screw),
            Tool = catalogue.Screw?.Tool,
            Rows = rows,
            WithoutTurns =
                rows.All(row => row.Turns is not null) ? null
                : known ? Texts.Get("table.none.travel")
                : HalfTurns(catalogue, gear, wanted),
            Notes =
            [
                Texts.Get("table.rule", gear.RingTeeth, gear.CogTeeth, wanted),
                known
                    ? Texts.Get("table.rounded", catalogue.Screw!.LeastTurn)
                    : Texts.Get("table.unknown"),
                Texts.Get("table.travel"),
                .. quantity.DependsOnAssumed ? [Texts.Get("table.assumed")] : Array.Empty<string>(),
                Texts.Get("correct.thenAgain"),
            ],
        };
    }

    /// <summary>Which way to try half a turn when the gap is too small and when it is too large.</summary>
    private static string HalfTurns(QuantityCatalogue catalogue, (int, int) gear, double wantedMm)
    {
        var small = catalogue.CorrectGap(gear, wantedMm - 1, wantedMm);
        var large = catalogue.CorrectGap(gear, wantedMm + 1, wantedMm);
        return small.Kind is GapAdviceKind.TryHalfTurn && large.Kind is GapAdviceKind.TryHalfTurn
            ? Texts.Get("table.none.half", TurnWords.Of(small.Turns), TurnWords.Of(large.Turns))
            : Texts.Get("table.none.travel");
    }

    private static TurnTableRow Row(
        QuantityCatalogue catalogue,
        (int, int) gear,
        double wantedMm,
        double offMm
    )
    {
        var readMm = wantedMm + offMm;
        var gap =
            offMm == 0 ? Texts.Get("table.right")
            : offMm > 0 ? Texts.Get("table.tooLarge", offMm)
            : Texts.Get("table.tooSmall", -offMm);
        if (offMm == 0)
        {
            return new(0, readMm, 0, gap, Texts.Get("table.leave"));
        }
        var advice = catalogue.CorrectGap(gear, readMm, wantedMm);
        return advice.Kind switch
        {
            GapAdviceKind.Turn => new(offMm, readMm, advice.Turns, gap, TurnWords.Of(advice.Turns)),
            GapAdviceKind.LeaveAsIs => new(offMm, readMm, 0, gap, Texts.Get("table.leave")),
            GapAdviceKind.TryHalfTurn => new(
                offMm,
                readMm,
                null,
                gap,
                Texts.Get("table.half", TurnWords.Of(advice.Turns))
            ),
            _ => new(offMm, readMm, null, gap, Texts.Get("table.outOfReach")),
        };
    }
}
