using CsCheck;

namespace Cogwright.Gearing.Tests;

/// <summary>The best order of shifts, beside a twin that tries every order there is.</summary>
public class ShiftOrderTests
{
    private static readonly Tyre RolledOut = Tyre.OfRollOut(2105);

    private static readonly Gen<GearSet> SmallSets = Gen.Select(
        Gen.Int[20, 52].HashSet[1, 3],
        Gen.Int[10, 40].HashSet[1, 4],
        (rings, cogs) => new GearSet("random", rings, cogs)
    );

    [Fact]
    public void Best_AgainstEveryOrder_CostsTheSame() =>
        SmallSets.Sample(set =>
        {
            var ladder = GearLadder.Of(set, RolledOut);
            var costs = new ShiftCosts();

            var best = ShiftOrder.Best(ladder, costs);

            Assert.Equal(CheapestOfAll(ladder, costs), best.Cost, 1e-9);
        });

    [Fact]
    public void Best_IsAnOrder_FromTheLowestToTheHighest() =>
        SmallSets.Sample(set =>
        {
            var ladder = GearLadder.Of(set, RolledOut);
            var best = ShiftOrder.Best(ladder);

            Assert.Equal(ladder.Lowest.Ratio, best.Gears[0].Ratio, 1e-12);
            Assert.Equal(ladder.Highest.Ratio, best.Gears[^1].Ratio, 1e-12);
            Assert.Equal(best.Gears.Length - 1, best.Shifts.Length);
            Assert.All(best.Shifts, shift => Assert.True(shift.Step > 0));
        });

    [Fact]
    public void Best_OfOneRing_IsCogByCog()
    {
        var best = ShiftOrder.Best(
            GearLadder.Of(new("one", [40], [11, 13, 15, 17, 19]), RolledOut)
        );

        Assert.Equal(
            ["40/19", "40/17", "40/15", "40/13", "40/11"],
            best.Gears.Select(g => g.Teeth.ToString())
        );
        Assert.Equal(0, best.FrontShifts);
    }

    /// <summary>Common practice: with two rings and a wide cassette the chain changes ring once, and not across.</summary>
    [Fact]
    public void Best_OfTwoRings_ShiftsInFrontOnceAndAvoidsAcross()
    {
        var set = new GearSet("road", [34, 50], [11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30, 34]);
        var best = ShiftOrder.Best(GearLadder.Of(set, RolledOut));

        Assert.Equal(1, best.FrontShifts);
        Assert.DoesNotContain(best.Gears, gear => gear.IsAcross);
        Assert.Equal(new(34, 34), best.Gears[0].Teeth);
        Assert.Equal(new(50, 11), best.Gears[^1].Teeth);
        var front = best.Shifts.Single(shift => shift.Rings != 0);
        Assert.True(
            front.Cogs > 0,
            "The rear goes to larger cogs while the chain climbs in front."
        );
    }

    [Fact]
    public void Best_OfThreeRings_PassesEachRing()
    {
        var set = new GearSet("tour", [26, 36, 48], [11, 13, 15, 17, 20, 23, 26, 30, 34]);
        var best = ShiftOrder.Best(GearLadder.Of(set, RolledOut));

        Assert.Equal(2, best.FrontShifts);
        Assert.Equal([0, 1, 2], best.Gears.Select(gear => gear.RingIndex).Distinct());
    }

    [Fact]
    public void Best_LeavesOutGearsThatAreNotUsed()
    {
        var set = new GearSet("two", [34, 50], [11, 15, 20, 28, 34], [new(34, 34), new(50, 34)]);
        var best = ShiftOrder.Best(GearLadder.Of(set, RolledOut));

        Assert.Equal(new(34, 28), best.Gears[0].Teeth);
        Assert.All(best.Gears, gear => Assert.True(gear.IsUsed));
    }

    [Fact]
    public void Best_OfOneGear_HasNoShift() =>
        Assert.Empty(ShiftOrder.Best(GearLadder.Of(new("fixed", [44], [16]), RolledOut)).Shifts);

    private static double CheapestOfAll(GearLadder ladder, ShiftCosts costs)
    {
        var gears = ladder.Gears.Where(gear => gear.IsUsed).ToList();
        var usual = ShiftOrder.UsualStep(ladder.Set);
        var highest = gears[^1].Ratio * (1 - 1e-9);
        var cheapest = double.PositiveInfinity;
        foreach (var first in gears.Where(gear => gear.Ratio <= gears[0].Ratio * (1 + 1e-9)))
        {
            Try(first, ShiftOrder.CostOf(first, costs));
        }
        return cheapest;

        void Try(LadderGear at, double cost)
        {
            if (at.Ratio >= highest)
            {
                cheapest = Math.Min(cheapest, cost);
            }
            foreach (var next in gears.Where(gear => gear.Ratio > at.Ratio * (1 + 1e-9)))
            {
                Try(
                    next,
                    cost
                        + ShiftOrder.CostOf(at, next, usual, costs)
                        + ShiftOrder.CostOf(next, costs)
                );
            }
        }
    }
}
