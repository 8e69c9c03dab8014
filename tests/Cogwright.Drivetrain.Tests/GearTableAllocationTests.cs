using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Solving allocates the table that it returns, and nothing else.</summary>
public class GearTableAllocationTests
{
    [Fact]
    public void Solve_WorkedExample_AllocatesItsResultOnly()
    {
        var result = Least(() =>
        {
            var gears = new GearResult[24];
            return new GearTable(
                Spec,
                110,
                0,
                System.Runtime.InteropServices.ImmutableCollectionsMarshal.AsImmutableArray(gears)
            );
        });
        Assert.Equal(result, Least(() => GearTableSolver.Solve(Spec, 110)));
    }

    [Fact]
    public void Walk_AnyGear_AllocatesNothing()
    {
        var gear = Draws.Of(RandomMechanisms.Any, 1, 1, 51).Single();
        var closure = gear.Careful();
        Assert.Equal(
            0,
            Least(() =>
            {
                _ = closure.Walk(gear.FrontStopRad, gear.RearStopRad, gear.ChainPitches);
                return null;
            })
        );
    }

    /// <summary>Least bytes of several rounds: the first ones also pay for what the runtime sets up once.</summary>
    private static long Least(Func<object?> work)
    {
        var least = long.MaxValue;
        for (var round = 0; round < 20; round++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            GC.KeepAlive(work());
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }
        return least;
    }
}
