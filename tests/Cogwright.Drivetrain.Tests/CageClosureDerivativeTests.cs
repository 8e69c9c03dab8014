using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Slope and curvature bound of the path against differences of the naive twin's path.</summary>
public class CageClosureDerivativeTests
{
    /// <summary>Free length below which a run's derivatives grow beyond what differences resolve (mm).</summary>
    private const double LeastRunMm = 2;

    [Fact]
    public void Slope_RandomMechanisms_AgreesWithRichardsonDifferences()
    {
        const double h = 2e-4;
        var compared = 0;
        var gen = Gen.Select(RandomMechanisms.Any, Gen.Double.Unit);
        foreach (var (gear, share) in Draws.Of(gen, 6_000, 60_000, 11))
        {
            var angle = Between(gear, share);
            if (Stencil(gear, angle, h) is not { } f)
            {
                continue;
            }
            compared++;
            var closure = gear.Careful();
            Assert.Equal(f[2], closure.PathPitches(angle), 1e-9);
            var expected = ((8 * (f[3] - f[1])) - (f[4] - f[0])) / (12 * h);
            Assert.Equal(expected, closure.SlopePitchesPerRad, 1e-6 * (1 + Math.Abs(expected)));
        }
        Draws.Say($"{compared} slopes compared");
        Assert.True(compared > 1_500, $"{compared}");
    }

    [Fact]
    public void CurvatureBound_RandomMechanisms_HoldsOverTheWholeReachAndIsNotIdle()
    {
        var compared = 0;
        var tightest = 0.0;
        var gen = Gen.Select(RandomMechanisms.Any, Gen.Double.Unit, Gen.Double[0.02, 1]);
        foreach (var (gear, share, part) in Draws.Of(gen, 3_000, 40_000, 12))
        {
            var angle = Between(gear, share);
            if (NaiveClosure.PathPitches(gear, angle) is null)
            {
                continue;
            }
            var closure = gear.Careful();
            _ = closure.PathPitches(angle);
            var reach = part * WidestReach(gear, angle);
            var bound = closure.CurvatureBound(reach);
            for (var k = -20; k <= 0; k++)
            {
                var at = angle + (reach * k / 20);
                const double h = 1e-3;
                if (Stencil(gear, at, h) is not { } f)
                {
                    continue;
                }
                var second = ((16 * (f[1] + f[3])) - (30 * f[2]) - f[0] - f[4]) / (12 * h * h);
                compared++;
                // The stencil reaches h beyond and its error grows with the path's sixth derivative.
                Assert.True(
                    Math.Abs(second) <= (bound * 1.001) + 1e-6,
                    $"{second} {bound} {reach} {angle} {gear}"
                );
                tightest = Math.Max(tightest, Math.Abs(second) / bound);
            }
        }
        Draws.Say($"{compared} curvatures compared; the nearest reaches {tightest} of its bound");
        Assert.True(compared > 10_000, $"{compared}");
        // A bound that nothing comes near would be safe and slow.
        Assert.True(tightest > 0.2, $"{tightest}");
    }

    /// <summary>
    /// Half as far as the nearer run could lose its free length, as the walk takes it: of ℓ² its value, its rate and
    /// the bound on its curvature.
    /// </summary>
    private static double WidestReach(NaiveMechanism gear, double angle)
    {
        double Radius(int z) => Sprocket.PitchRadiusMm(z, gear.PitchMm);
        return 0.5
            * Math.Min(
                Zero(
                    gear.CagePivot,
                    gear.TensionOffset,
                    Radius(gear.RingTeeth) - Radius(gear.TensionTeeth)
                ),
                Zero(
                    gear.CagePivot - gear.Axle,
                    gear.GuideOffset,
                    Radius(gear.CogTeeth) + Radius(gear.GuideTeeth)
                )
            );

        double Zero(Point from, Point offset, double difference)
        {
            double Squared(double at)
            {
                var distance = (from + offset.Turned(at)).Length;
                return (distance * distance) - (difference * difference);
            }
            // Positive where the run grows shorter as the cage turns rearward.
            var rate = (Squared(angle + 1e-6) - Squared(angle - 1e-6)) / 2e-6;
            var bend = 2 * from.Length * offset.Length;
            return (Math.Sqrt((rate * rate) + (2 * bend * Squared(angle))) - rate) / bend;
        }
    }

    private static double Between(NaiveMechanism gear, double share) =>
        gear.RearStopRad + ((gear.FrontStopRad - gear.RearStopRad) * share);

    /// <summary>The path at five angles, or null where a pose cannot be, a wrap jumps or a run has almost no length.</summary>
    private static double[]? Stencil(NaiveMechanism gear, double angle, double h)
    {
        var f = new double[5];
        for (var k = 0; k < 5; k++)
        {
            if (NaiveClosure.PathPitches(gear, angle + ((k - 2) * h)) is not { } path)
            {
                return null;
            }
            f[k] = path;
        }
        var closure = gear.Careful();
        _ = closure.PathPitches(angle);
        var guide = gear.CagePivot + gear.GuideOffset.Turned(angle);
        var radii =
            Sprocket.PitchRadiusMm(gear.GuideTeeth, gear.PitchMm)
            + Sprocket.PitchRadiusMm(gear.CogTeeth, gear.PitchMm);
        var fromAxle = (guide - gear.Axle).Length;
        var upper = Math.Sqrt(Math.Max(0, (fromAxle * fromAxle) - (radii * radii)));
        // A wrap that passes a whole turn moves the path by all teeth of a sprocket at once.
        return upper > LeastRunMm && closure.LowerRunMm > LeastRunMm && f.Max() - f.Min() < 1
            ? f
            : null;
    }
}
