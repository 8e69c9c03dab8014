using MathNet.Numerics.RootFinding;
using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The sprung mount against what mechanics says of it, gear by gear.</summary>
public class SprungMountTests
{
    private static readonly DrivetrainSpec Sprung = SprungExample.Spec;

    private static IEnumerable<GearResult> Balanced(DrivetrainSpec spec, int pitches) =>
        GearTableSolver
            .Solve(spec, pitches)
            .Gears.Where(g => g.HasPose && g.BodyRest == BodyRest.Balanced);

    /// <summary>The convention, seen at the worked example: the chain pulls the body forward, anticlockwise, in every gear.</summary>
    [Fact]
    public void Chain_WorkedExample_PullsTheBodyForward()
    {
        foreach (var gear in GearTableSolver.Solve(Example.Spec, 110).Gears)
        {
            var twin = new NaiveSprung(Sprung, gear.Gear, 110);
            if (gear.HasPose)
            {
                var path = twin.Path(gear.BodyAngleRad, gear.CageAngleRad);
                Assert.Equal(Rad(15.5), gear.BodyAngleRad, 1e-15);
                Assert.Equal(BodyRest.Fixed, gear.BodyRest);
                Assert.True(NaiveSprung.MomentMm(path, twin.Bolt) > 0);
            }
        }
    }

    /// <summary>Both moments and the chain's length hold at once: the general-purpose two-dimensional root finder agrees.</summary>
    [Fact]
    public void Balance_RandomBikes_AgreesWithBroydenInBothAngles()
    {
        var compared = 0;
        var worst = 0.0;
        foreach (var spec in Draws.Of(SprungExample.Any, 40, 400, 20261125))
        {
            var pitches = spec.Chain.Pitches!.Value;
            foreach (var gear in Balanced(spec, pitches))
            {
                var twin = new NaiveSprung(spec, gear.Gear, pitches);
                var inside =
                    gear.CageAngleRad > twin.RearStop(gear.BodyAngleRad) + 1e-6
                    && gear.CageAngleRad < twin.FrontStop(gear.BodyAngleRad) - 1e-6;
                if (!inside || gear.State == GearState.Clash)
                {
                    continue;
                }
                // From two degrees away on either side.
                var found = Broyden.TryFindRootWithJacobianStep(
                    x => [twin.Path(x[0], x[1]).Pitches - pitches, twin.ImbalanceNm(x[0], x[1])],
                    [gear.BodyAngleRad + Rad(2), gear.CageAngleRad - Rad(2)],
                    1e-11,
                    200,
                    1e-6,
                    out var root
                );
                Assert.True(found, gear.Gear.ToString());
                worst = Math.Max(
                    worst,
                    Math.Max(
                        Math.Abs(root[0] - gear.BodyAngleRad),
                        Math.Abs(root[1] - gear.CageAngleRad)
                    )
                );
                compared++;
            }
        }
        Draws.Say($"{compared} gears, worst {worst} rad");
        Assert.True(compared > 200);
        Assert.InRange(worst, 0, 1e-8);
    }

    /// <summary>
    /// A fine grid from the forward limit rearward, θ by the naive walk: the first change of sign is where the product
    /// has its balance, and after it there is no other. At an end without balance the product says that end.
    /// </summary>
    [Fact]
    public void Balance_RandomBikes_IsTheForemostOfAFineGridAndTheOnlyOne()
    {
        const int steps = 60;
        var seen = new Dictionary<BodyRest, int>();
        var several = 0;
        var turns = 0;
        foreach (var spec in Draws.Of(SprungExample.Any, 25, 600, 20261126))
        {
            var pitches = spec.Chain.Pitches!.Value;
            var mount = spec.RearDerailleur!.Sprung!;
            foreach (var gear in GearTableSolver.Solve(spec, pitches).Gears)
            {
                // Of a jammed cage the twin says only that there is no pose.
                if (gear.CogIndex % 4 != 0 || gear.State == GearState.Clash)
                {
                    continue;
                }
                seen[gear.BodyRest] = seen.GetValueOrDefault(gear.BodyRest) + 1;
                var twin = new NaiveSprung(spec, gear.Gear, pitches);
                var step = (mount.ForwardLimitRad - mount.RearRestRad) / steps;
                var values = Enumerable
                    .Range(0, steps + 1)
                    .Select(i => twin.ImbalanceNm(mount.ForwardLimitRad - (i * step)))
                    .ToArray();
                var first = Array.FindIndex(values, v => v >= 0);
                several +=
                    Enumerable.Range(0, steps).Count(i => values[i] >= 0 != values[i + 1] >= 0) > 1
                        ? 1
                        : 0;
                turns += Enumerable.Range(0, steps).Count(i => values[i + 1] < values[i] - 1e-9);
                switch (gear.BodyRest)
                {
                    case BodyRest.AtForwardLimit:
                        Assert.Equal(0, first);
                        break;
                    case BodyRest.OnTab:
                        Assert.Equal(-1, first);
                        break;
                    default:
                        Assert.True(first > 0);
                        Assert.InRange(
                            gear.BodyAngleRad,
                            mount.ForwardLimitRad - (first * step) - 1e-9,
                            mount.ForwardLimitRad - ((first - 1) * step) + 1e-9
                        );
                        break;
                }
            }
        }
        Draws.Say(string.Join(", ", seen.Select(s => $"{s.Key} {s.Value}")));
        Draws.Say($"{turns} steps against the fall");
        Assert.Equal(0, several);
        Assert.Equal(3, seen.Count);
    }

    /// <summary>
    /// Virtual work: along the curve of poses that hold the chain's length, the springs' energy is stationary at the
    /// balance, U_β S_θ − U_θ S_β = 0 by finite differences, and least there.
    /// </summary>
    [Fact]
    public void Balance_RandomBikes_IsWhereTheSpringsEnergyIsLeastForTheChainsLength()
    {
        const double h = 1e-5;
        var compared = 0;
        var worst = 0.0;
        foreach (var spec in Draws.Of(SprungExample.Any, 40, 400, 20261127))
        {
            var pitches = spec.Chain.Pitches!.Value;
            foreach (var gear in Balanced(spec, pitches))
            {
                var twin = new NaiveSprung(spec, gear.Gear, pitches);
                var (b, t) = (gear.BodyAngleRad, gear.CageAngleRad);
                if (
                    t < twin.RearStop(b) + 1e-3
                    || t > twin.FrontStop(b) - 1e-3
                    || gear.State == GearState.Clash
                )
                {
                    continue;
                }
                var ub = (twin.EnergyNm(b + h, t) - twin.EnergyNm(b - h, t)) / (2 * h);
                var ut = (twin.EnergyNm(b, t + h) - twin.EnergyNm(b, t - h)) / (2 * h);
                var sb = (twin.StringMm(b + h, t) - twin.StringMm(b - h, t)) / (2 * h);
                var st = (twin.StringMm(b, t + h) - twin.StringMm(b, t - h)) / (2 * h);
                // dU/dβ along the curve, on which dθ/dβ = −S_β/S_θ.
                var along = ub - (ut * sb / st);
                worst = Math.Max(worst, Math.Abs(along));
                var here = twin.EnergyNm(b, t);
                Assert.True(OnCurve(Rad(0.2)) > here && OnCurve(-Rad(0.2)) > here);
                compared++;

                double OnCurve(double turn)
                {
                    var length = twin.StringMm(b, t);
                    var theta = Brent.FindRoot(
                        x => twin.StringMm(b + turn, x) - length,
                        t - (turn * sb / st) - Rad(0.3),
                        t - (turn * sb / st) + Rad(0.3),
                        1e-12
                    );
                    return twin.EnergyNm(b + turn, theta);
                }
            }
        }
        Draws.Say($"{compared} gears, worst dU/dβ {worst} N·m");
        Assert.True(compared > 200);
        Assert.InRange(worst, 0, 1e-8);
    }

    /// <summary>A spring without give holds the body where the screw puts it: the fixed mount.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    public void Balance_InfiniteRate_IsTheFixedMount(double turnDeg)
    {
        var body = Rad(15.5 + turnDeg);
        var stiff = SprungExample.With(
            Example.Spec,
            new(0.9, 0.35),
            new(Rad(5), Rad(30), 1e9 * Rad(-10.5), 1e9)
        );
        var held = GearTableSolver.Solve(Example.Spec, 110, body);
        var table = GearTableSolver.Solve(stiff, 110, body);
        for (var i = 0; i < held.Gears.Length; i++)
        {
            var (fix, gear) = (held.Gears[i], table.Gears[i]);
            if (fix.HasPose)
            {
                Assert.Equal(body, gear.BodyAngleRad, 1e-8);
                Assert.Equal(fix.CageAngleRad, gear.CageAngleRad, 1e-7);
                Assert.Equal(fix.GapMm, gear.GapMm, 1e-6);
            }
        }
    }

    /// <summary>The gap follows the chain's length; on a fixed mount only the cage does, and the gap through it.</summary>
    [Fact]
    public void Gap_TwoPitchesLonger_ChangesThroughTheBodyToo()
    {
        var gear = new Gear(34, 21);
        var (at110, at112) = (Of(Sprung, 110), Of(Sprung, 112));
        Assert.True(at112.BodyAngleRad < at110.BodyAngleRad - Rad(0.1));
        Assert.True(Math.Abs(at112.GapMm - at110.GapMm) > 0.3);
        var (held110, held112) = (Of(Example.Spec, 110), Of(Example.Spec, 112));
        Assert.Equal(held110.BodyAngleRad, held112.BodyAngleRad);
        // The part that the body adds: the same cage angles with the body held where it was.
        var held = GearTableSolver.Solve(
            Sprung with
            {
                RearDerailleur = Sprung.RearDerailleur! with { Sprung = null },
            },
            112,
            at110.BodyAngleRad
        );
        Assert.True(Math.Abs(held.Find(gear)!.Value.GapMm - at112.GapMm) > 0.05);

        GearResult Of(DrivetrainSpec spec, int pitches) =>
            GearTableSolver.Solve(spec, pitches).Find(gear)!.Value;
    }

    /// <summary>More preload brings the body rearward, where it is free to go, and opens the gap on the worked example.</summary>
    [Fact]
    public void Gap_AnchorTurnedRearward_Opens()
    {
        var before = GearTableSolver.Solve(Sprung, 110);
        var after = GearTableSolver.Solve(Sprung, 110, Rad(15.5 - 5));
        Assert.Equal(1.2, before.PreloadNm!.Value, 1e-12);
        Assert.Equal(1.2 + (1.2 * Rad(5)), after.PreloadNm!.Value, 1e-12);
        for (var i = 0; i < before.Gears.Length; i++)
        {
            if (before.Gears[i].BodyRest == BodyRest.Balanced && after.Gears[i].HasPose)
            {
                Assert.True(after.Gears[i].BodyAngleRad < before.Gears[i].BodyAngleRad);
                Assert.True(after.Gears[i].GapMm > before.Gears[i].GapMm);
            }
        }
    }

    /// <summary>A gear turns short, or slack, at the chain length at which its margin passes 0, and nowhere else; nothing is NaN that is shown.</summary>
    [Fact]
    public void Margins_EveryChainLength_ChangeSignWhereTheStateChanges()
    {
        var soft = SprungExample.With(Example.Spec, new(0.9, 0.35), new(Rad(5), Rad(25), 0.1, 0.2));
        foreach (var spec in new[] { Sprung, soft })
        {
            for (var pitches = 84; pitches <= 136; pitches += 2)
            {
                foreach (var gear in GearTableSolver.Solve(spec, pitches).Gears)
                {
                    Assert.Equal(gear.State == GearState.Short, gear.TightMarginMm < 0);
                    Assert.Equal(gear.State == GearState.Slack, gear.LooseMarginMm < 0);
                    if (gear.State == GearState.Short)
                    {
                        Assert.Equal(BodyRest.AtForwardLimit, gear.BodyRest);
                        Assert.Equal(-gear.TightMarginMm, gear.ShortfallMm, 1e-9);
                    }
                    if (gear.State == GearState.Slack)
                    {
                        Assert.Equal(BodyRest.OnTab, gear.BodyRest);
                    }
                    Assert.Equal(gear.HasPose, double.IsFinite(gear.LowerRunTensionN));
                    Assert.True(double.IsFinite(gear.BodyAngleRad));
                }
            }
        }
    }

    /// <summary>A cage on one of its stops takes no more of the tension: the body's balance alone says it.</summary>
    [Fact]
    public void Tension_CageOnItsStop_FollowsFromTheBody()
    {
        var seen = 0;
        foreach (var spec in Draws.Of(SprungExample.Any, 200, 800, 20261128))
        {
            var pitches = spec.Chain.Pitches!.Value;
            foreach (var gear in Balanced(spec, pitches))
            {
                var twin = new NaiveSprung(spec, gear.Gear, pitches);
                var b = gear.BodyAngleRad;
                var onRear = Math.Abs(gear.CageAngleRad - twin.RearStop(b)) < 1e-9;
                var onFront = Math.Abs(gear.CageAngleRad - twin.FrontStop(b)) < 1e-9;
                if (gear.State == GearState.Clash)
                {
                    continue;
                }
                var path = twin.Path(b, gear.CageAngleRad);
                Assert.Equal(
                    twin.MountTorqueNm(b),
                    gear.LowerRunTensionN * NaiveSprung.MomentMm(path, twin.Bolt) / 1000,
                    1e-7
                );
                var byCage =
                    gear.LowerRunTensionN * NaiveSprung.MomentMm(path, twin.Pivot(b)) / 1000;
                var spring = twin.CageTorqueNm(b, gear.CageAngleRad);
                if (onFront || onRear)
                {
                    seen++;
                    Assert.True(onFront ? byCage > spring - 1e-9 : byCage < spring + 1e-9);
                }
                else
                {
                    Assert.Equal(spring, byCage, 1e-7);
                }
            }
        }
        Draws.Say($"{seen} gears with the cage on a stop");
        Assert.True(seen > 3);
    }

    [Fact]
    public void Solve_SprungMount_AllocatesItsResultOnly()
    {
        var least = long.MaxValue;
        for (var round = 0; round < 10; round++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            GC.KeepAlive(GearTableSolver.Solve(Sprung, 110));
            var sprung = GC.GetAllocatedBytesForCurrentThread() - before;
            before = GC.GetAllocatedBytesForCurrentThread();
            GC.KeepAlive(GearTableSolver.Solve(Example.Spec, 110));
            least = Math.Min(least, sprung - (GC.GetAllocatedBytesForCurrentThread() - before));
        }
        Assert.Equal(0, least);
    }
}
