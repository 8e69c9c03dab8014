namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// Closures that a coarse search steps over: the chain is as long as the path's own greatest length on the way
/// rearward, or a hair shorter, so that path and chain meet within a small fraction of a degree.
/// </summary>
public class CageClosureGrazingTests
{
    [Theory]
    [InlineData(1e-4)]
    [InlineData(1e-6)]
    [InlineData(1e-8)]
    public void Walk_ChainAHairShorterThanTheLongestPath_IsFoundThereAndNotWhenAHairLonger(
        double hairPitches
    )
    {
        var grazed = 0;
        var most = 0;
        foreach (var gear in Draws.Of(RandomMechanisms.Any, 3_000, 30_000, 21))
        {
            if (LongestPath(gear) is not { } top)
            {
                continue;
            }
            grazed++;
            var closure = gear.Careful();
            var end = closure.Walk(gear.FrontStopRad, gear.RearStopRad, top.Pitches - hairPitches);
            most = Math.Max(most, closure.Evaluations);
            Assert.Equal(ClosureEnd.Taut, end);
            Assert.True(closure.CageAngleRad >= top.Angle - 1e-7);
            // Near its top the path falls as ½|L''|x²: the closure lies within √(2·hair/|L''|).
            Assert.InRange(closure.CageAngleRad - top.Angle, -1e-7, 0.1);

            var longer = gear.Careful();
            Assert.Equal(
                ClosureEnd.Slack,
                longer.Walk(gear.FrontStopRad, gear.RearStopRad, top.Pitches + hairPitches)
            );
            most = Math.Max(most, longer.Evaluations);
        }
        Draws.Say($"{grazed} grazed, most evaluations {most}");
        Assert.True(grazed > 50, $"{grazed}");
        Assert.InRange(most, 1, 150);
    }

    /// <summary>Where the path is longest inside the cage's travel, when it is continuous and so has a smooth top.</summary>
    private static (double Angle, double Pitches)? LongestPath(NaiveMechanism gear)
    {
        const int steps = 400;
        var step = (gear.FrontStopRad - gear.RearStopRad) / steps;
        var best = -1;
        var paths = new double[steps + 1];
        for (var k = 0; k <= steps; k++)
        {
            if (
                NaiveClosure.PathPitches(gear, gear.FrontStopRad - (k * step)) is not { } path
                || (k > 0 && Math.Abs(path - paths[k - 1]) > 1)
            )
            {
                return null;
            }
            paths[k] = path;
            best = best < 0 || path > paths[best] ? k : best;
        }
        if (best is 0 or steps)
        {
            return null;
        }
        // Golden-section search: no derivative of ours is asked.
        var low = gear.FrontStopRad - ((best + 1) * step);
        var high = gear.FrontStopRad - ((best - 1) * step);
        var golden = (Math.Sqrt(5) - 1) / 2;
        while (high - low > 1e-9)
        {
            var a = high - (golden * (high - low));
            var b = low + (golden * (high - low));
            if (NaiveClosure.PathPitches(gear, a) > NaiveClosure.PathPitches(gear, b))
            {
                high = b;
            }
            else
            {
                low = a;
            }
        }
        var angle = 0.5 * (low + high);
        return (angle, NaiveClosure.PathPitches(gear, angle)!.Value);
    }
}
