using System.Globalization;
using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The walk of <see cref="CageClosure"/> against the naive twin, over random mechanisms.</summary>
public class CageClosureTwinTests
{
    /// <summary>The twin's fixed step: finer than any adjuster, coarse enough to finish.</summary>
    private static readonly double Step = Rad(0.02);

    /// <summary>Both stop within 1e-10 pitches of taut; the path grows by a tenth of a pitch per radian and more.</summary>
    private const double SameAngleRad = 1e-8;

    /// <summary>
    /// At the edge of a stretch of impossible poses a run's free length starts from 0 like a square root: 1e-9 rad
    /// beyond the edge the path has changed by up to 1e-3 pitches.
    /// </summary>
    private const double EdgePitches = 1e-3;

    [Fact]
    public void Walk_RandomMechanisms_EndsAndAnglesAgreeWithTheNaiveTwin()
    {
        var seen = new Dictionary<ClosureEnd, int>();
        var differing = new List<string>();
        var finer = 0;
        var evaluations = 0L;
        var most = 0;
        var count = 0;
        foreach (var gear in Draws.Of(RandomMechanisms.Any, 800, 25_000, 20261125))
        {
            count++;
            var closure = gear.Careful();
            var end = closure.Walk(gear.FrontStopRad, gear.RearStopRad, gear.ChainPitches);
            evaluations += closure.Evaluations;
            most = Math.Max(most, closure.Evaluations);
            seen[end] = seen.GetValueOrDefault(end) + 1;
            var twin = NaiveClosure.Walk(gear, Step);
            switch (Compare(gear, closure, end, twin))
            {
                case Agreement.TwinSteppedOver:
                    finer++;
                    break;
                case Agreement.None:
                    differing.Add(
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"#{count} {end} {closure.CageAngleRad} twin {twin} {gear}"
                        )
                    );
                    break;
            }
        }
        Draws.Say(
            $"{count} gears, {(double)evaluations / count} evaluations on average, most {most}"
        );
        Draws.Say(string.Join(", ", seen.Select(s => $"{s.Key} {s.Value}")));
        Draws.Say($"stepped over by the twin: {finer}, differing: {differing.Count}");
        Assert.True(differing.Count == 0, string.Join('\n', differing.Take(5)));
        Assert.All(
            Enum.GetValues<ClosureEnd>(),
            end => Assert.True(seen.GetValueOrDefault(end) > 0, end.ToString())
        );
        // A twin of 0.02° must be able to find nearly all; if not, the comparison compares nothing.
        Assert.True(finer < count / 100, $"{finer}");
        Assert.InRange(most, 1, 150);
    }

    private enum Agreement
    {
        None,
        Full,

        /// <summary>The product found a true closure in front of where the twin's grid found one.</summary>
        TwinSteppedOver,
    }

    private static Agreement Compare(
        NaiveMechanism gear,
        CageClosure closure,
        ClosureEnd end,
        NaiveResult twin
    )
    {
        if (end == twin.End)
        {
            if (end != ClosureEnd.Taut)
            {
                return end is ClosureEnd.NoPose || SameForemost(gear, closure, twin)
                    ? Agreement.Full
                    : Agreement.None;
            }
            if (Math.Abs(closure.CageAngleRad - twin.CageAngleRad) < SameAngleRad)
            {
                return Agreement.Full;
            }
        }
        if (end == ClosureEnd.Taut && IsClosure(gear, closure.CageAngleRad))
        {
            return
                closure.CageAngleRad > twin.CageAngleRad - SameAngleRad
                || Math.Abs(twin.NeedsPitches - gear.ChainPitches) < EdgePitches
                ? Agreement.TwinSteppedOver
                : Agreement.None;
        }
        return Agreement.None;
    }

    private static bool SameForemost(NaiveMechanism gear, CageClosure closure, NaiveResult twin) =>
        Math.Abs(closure.ForemostRad - twin.ForemostRad) < SameAngleRad
        && Math.Abs(closure.NeedsPitches - twin.NeedsPitches)
            < (twin.ForemostRad < gear.FrontStopRad ? EdgePitches : 1e-9);

    private static bool IsClosure(NaiveMechanism gear, double angle) =>
        NaiveClosure.PathPitches(gear, angle) is { } path
        && Math.Abs(path - gear.ChainPitches) < 1e-8;
}
