using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>What a shift costs when the best order is sought: plain weights, chosen here and stated, not measured. Immutable.</summary>
/// <remarks>
/// One unit is what a step costs that is twice as large, or nothing, where the cassette's usual step was wanted.
/// </remarks>
/// <param name="FrontShift">Each ring that is passed; 2 unless told: slower than a rear shift, and to be done with little load.</param>
/// <param name="CogWithFrontShift">Each cog that the rear must be moved along with a front shift; 0.15 unless told.</param>
/// <param name="CogSkipped">Each cog passed over on one ring; 0.15 unless told.</param>
/// <param name="Across">Each gear of the order in which the chain runs across; 3 unless told.</param>
public sealed record ShiftCosts(
    double FrontShift = 2,
    double CogWithFrontShift = 0.15,
    double CogSkipped = 0.15,
    double Across = 3
);

/// <summary>One shift of an order. Immutable.</summary>
/// <param name="From">The gear before.</param>
/// <param name="To">The gear after.</param>
/// <param name="Rings">Rings moved: +1 to the next larger; 0 when only the rear shifts.</param>
/// <param name="Cogs">Cogs moved: +1 to the next larger (a lower gear), −1 to the next smaller.</param>
/// <param name="Step">How much higher the gear becomes (a fraction, greater than 0).</param>
public sealed record Shift(GearTeeth From, GearTeeth To, int Rings, int Cogs, double Step);

/// <summary>The best order of shifts from the lowest gear to the highest; backwards it is the best from the highest down. Immutable.</summary>
/// <remarks>
/// Among all orders in which every shift makes the gear higher, that of the least cost is taken: for each shift (s/s₀ − 1)² with
/// s = ln of its step and s₀ the cassette's median step, and what <see cref="ShiftCosts"/> adds. It is found exactly, as the
/// shortest path through the gears sorted by ratio.
/// </remarks>
public sealed record ShiftOrder
{
    // Two gears count as different when a shift between them changes anything.
    private const double LeastStep = 1e-9;

    private ShiftOrder() { }

    /// <summary>The gears in their order.</summary>
    public required ImmutableArray<LadderGear> Gears { get; init; }

    /// <summary>The shifts between them, one fewer than the gears.</summary>
    public required ImmutableArray<Shift> Shifts { get; init; }

    /// <summary>What it costs in the units of <see cref="ShiftCosts"/>; that of the best.</summary>
    public required double Cost { get; init; }

    /// <summary>How many shifts move the chain from ring to ring.</summary>
    public int FrontShifts => Shifts.Count(shift => shift.Rings != 0);

    /// <summary>The largest step in it (a fraction), 0 with one gear.</summary>
    public double LargestStep => Shifts.IsEmpty ? 0 : Shifts.Max(shift => shift.Step);

    /// <summary>The best order through a ladder's gears; gears not used are left out.</summary>
    /// <param name="ladder">The gears.</param>
    /// <param name="costs">The weights; the usual ones when null.</param>
    public static ShiftOrder Best(GearLadder ladder, ShiftCosts? costs = null)
    {
        ArgumentNullException.ThrowIfNull(ladder);
        costs ??= new();
        LadderGear[] gears = [.. ladder.Gears.Where(gear => gear.IsUsed)];
        var usualStep = UsualStep(ladder.Set);
        var best = new double[gears.Length];
        var before = new int[gears.Length];
        Array.Fill(best, double.PositiveInfinity);
        Array.Fill(before, -1);
        // Of several lowest gears that are equal any may begin, and of several highest any may end.
        for (var i = 0; i < gears.Length && gears[i].Ratio <= gears[0].Ratio * (1 + LeastStep); i++)
        {
            best[i] = CostOf(gears[i], costs);
        }
        for (var to = 1; to < gears.Length; to++)
        {
            for (var from = 0; from < to; from++)
            {
                if (gears[to].Ratio <= gears[from].Ratio * (1 + LeastStep))
                {
                    continue;
                }
                var cost =
                    best[from]
                    + CostOf(gears[from], gears[to], usualStep, costs)
                    + CostOf(gears[to], costs);
                if (cost < best[to])
                {
                    best[to] = cost;
                    before[to] = from;
                }
            }
        }
        var end = gears.Length - 1;
        for (var i = end; i >= 0 && gears[i].Ratio * (1 + LeastStep) >= gears[^1].Ratio; i--)
        {
            end = best[i] < best[end] ? i : end;
        }
        return Made(gears, before, end, best[end]);
    }

    /// <summary>What it costs to be in a gear.</summary>
    internal static double CostOf(LadderGear gear, ShiftCosts costs) =>
        gear.IsAcross ? costs.Across : 0;

    /// <summary>What it costs to shift from one gear to a higher one.</summary>
    internal static double CostOf(
        LadderGear from,
        LadderGear to,
        double usualStep,
        ShiftCosts costs
    )
    {
        var uneven = (Math.Log(to.Ratio / from.Ratio) / usualStep) - 1;
        var rings = Math.Abs(to.RingIndex - from.RingIndex);
        var cogs = Math.Abs(to.CogIndex - from.CogIndex);
        return (uneven * uneven)
            + (
                rings == 0
                    ? (cogs - 1) * costs.CogSkipped
                    : (rings * costs.FrontShift) + (cogs * costs.CogWithFrontShift)
            );
    }

    /// <summary>The median of ln(step) from cog to cog; of one cog 10 %, so that there is something to compare with.</summary>
    internal static double UsualStep(GearSet set)
    {
        var steps = Enumerable
            .Range(1, set.Cogs.Length - 1)
            .Select(cog => Math.Log((double)set.Cogs[cog] / set.Cogs[cog - 1]))
            .Order()
            .ToArray();
        return steps.Length switch
        {
            0 => Math.Log(1.1),
            var n when n % 2 == 1 => steps[n / 2],
            var n => (steps[(n / 2) - 1] + steps[n / 2]) / 2,
        };
    }

    private static ShiftOrder Made(LadderGear[] gears, int[] before, int end, double cost)
    {
        var order = new List<LadderGear>();
        for (var at = end; at >= 0; at = before[at])
        {
            order.Add(gears[at]);
        }
        order.Reverse();
        return new()
        {
            Gears = [.. order],
            Shifts =
            [
                .. order
                    .Zip(order.Skip(1))
                    .Select(pair => new Shift(
                        pair.First.Teeth,
                        pair.Second.Teeth,
                        pair.Second.RingIndex - pair.First.RingIndex,
                        pair.Second.CogIndex - pair.First.CogIndex,
                        (pair.Second.Ratio / pair.First.Ratio) - 1
                    )),
            ],
            Cost = cost,
        };
    }
}
