using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Parts.Rules;

/// <content>What lies beside what, seen from above.</content>
internal sealed partial class MechanismRules
{
    private RuleAnswer ChainAngle(GearTable table)
    {
        var beyond = Gears(table, gear => gear.HasReach && gear.ChainAngleRad > MostChainAngleRad);
        var worst = table.Gears[0];
        var most = 0.0;
        foreach (var gear in table.Gears)
        {
            if (gear.HasReach && !IsNotUsed(gear.Gear) && gear.ChainAngleRad > most)
            {
                (most, worst) = (gear.ChainAngleRad, gear);
            }
        }
        var degrees = Number(most * 180 / Math.PI, 1);
        var limit = Number(MostChainAngleRad * 180 / Math.PI, 1);
        return beyond.Length == 0
            ? Answer(
                "mechanism-chain-angle",
                Compatibility.Yes,
                Texts.Get("mechanism.angle.yes", degrees, Explanation.List([worst.Gear]), limit),
                "",
                (MostChainAngleRad - most) / MostChainAngleRad * 2,
                [PartKind.Crank, PartKind.Rings, PartKind.RearWheel, PartKind.Cassette],
                AnswerView.Top,
                worst.Gear,
                most
            )
            : Answer(
                "mechanism-chain-angle",
                Compatibility.YesWith,
                Texts.Get("mechanism.angle.with", degrees, Explanation.List([worst.Gear]), limit),
                Texts.Get("mechanism.angle.do", Explanation.List(beyond)),
                double.NaN,
                [PartKind.Crank, PartKind.Rings, PartKind.RearWheel, PartKind.Cassette],
                AnswerView.Top,
                worst.Gear,
                most
            );
    }

    private RuleAnswer RingRubbing(GearTable table)
    {
        var (least, at) = (double.NaN, table.Gears[0].Gear);
        var rubbing = ImmutableArray.CreateBuilder<Gear>();
        foreach (var gear in table.Gears)
        {
            var room = RingRub.ClearanceMm(spec, gear);
            if (double.IsNaN(room) || IsNotUsed(gear.Gear))
            {
                continue;
            }
            if (room < 0)
            {
                rubbing.Add(gear.Gear);
            }
            if (double.IsNaN(least) || room < least)
            {
                (least, at) = (room, gear.Gear);
            }
        }
        ImmutableArray<PartKind> kinds = [PartKind.Crank, PartKind.Rings, PartKind.Cassette];
        if (double.IsNaN(least))
        {
            return Answer(
                "mechanism-ring-rub",
                Compatibility.CannotSay,
                Texts.Get("mechanism.rub.ask"),
                Texts.Get("rule.lookUp"),
                double.NaN,
                kinds,
                AnswerView.None,
                null
            );
        }
        return rubbing.Count == 0
            ? Answer(
                "mechanism-ring-rub",
                Compatibility.Yes,
                Texts.Get("mechanism.rub.yes", Number(least, 1), Explanation.List([at])),
                "",
                least / ComfortableRubMm,
                kinds,
                AnswerView.Top,
                at,
                least
            )
            : Answer(
                "mechanism-ring-rub",
                Compatibility.YesWith,
                Texts.Get("mechanism.rub.with", Number(-least, 1), Explanation.List([at])),
                Texts.Get("mechanism.rub.do", Explanation.List(rubbing)),
                double.NaN,
                kinds,
                AnswerView.Top,
                at,
                least
            );
    }

    private IEnumerable<RuleAnswer> Rooms(GearTable table)
    {
        var report = SpokeClearance.Of(table);
        var groups = report
            .All.Where(c => c.Kind is not (ClearanceKind.CageKnocked or ClearanceKind.CageTilted))
            .GroupBy(c => c.Kind == ClearanceKind.ChainOnSmallestCog);
        foreach (var group in groups)
        {
            // The worst of the kind, and of two alike the one with the least room.
            var clearance = group
                .OrderBy(c => RankOf(c.Verdict))
                .ThenBy(c => (c.Mm - c.LeastMm) ?? 0)
                .First();
            var words = LateralWords.Of(clearance, report);
            yield return Answer(
                group.Key ? "mechanism-frame" : "mechanism-spokes",
                clearance.Verdict switch
                {
                    ClearanceVerdict.Touches => Compatibility.No,
                    ClearanceVerdict.Close => Compatibility.YesWith,
                    ClearanceVerdict.CannotSay => Compatibility.CannotSay,
                    _ => Compatibility.Yes,
                },
                words.What,
                words.WhatToDo,
                clearance.Mm is { } room
                    ? (room - clearance.LeastMm) / ComfortableRoomMm
                    : double.NaN,
                group.Key ? [PartKind.Frame, PartKind.RearWheel, PartKind.Cassette] : Wheel,
                AnswerView.Top,
                clearance.Gear,
                clearance.Mm ?? double.NaN,
                clearance.LeastMm
            ) with
            {
                RestsOnAssumed = !clearance.Assumed.IsEmpty,
            };
        }
    }

    private static int RankOf(ClearanceVerdict verdict) =>
        verdict switch
        {
            ClearanceVerdict.Touches => 0,
            ClearanceVerdict.CannotSay => 1,
            ClearanceVerdict.Close => 2,
            _ => 3,
        };
}
