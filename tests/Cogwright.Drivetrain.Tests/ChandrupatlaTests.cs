namespace Cogwright.Drivetrain.Tests;

public class ChandrupatlaTests
{
    private const double Within = 1e-12;

    [Fact]
    public void Crossing_SmoothFunction_IsFoundInFewerStepsThanByHalving()
    {
        var (root, steps) = Search(x => 2 - (x * x * x), 0, 4);
        Assert.Equal(Math.Cbrt(2), root, Within);
        Assert.InRange(steps, 1, 15);
    }

    /// <summary>The worst for interpolation, and slower than halving (60 steps for 41): it must still come to the root.</summary>
    [Fact]
    public void Crossing_KinkRightAtTheRoot_IsFoundAllTheSame()
    {
        var (root, _) = Search(x => Math.Min(1 - x, 10 * (1 - x)), 0, 1.7);
        Assert.Equal(1, root, Within);
    }

    [Fact]
    public void Crossing_JumpWithoutRoot_IsFoundFromTheSideThatIsNotPositive()
    {
        const double jump = 0.3;
        var (root, _) = Search(x => x < jump ? 1 : -0.001, 0, 1);
        Assert.InRange(root, jump, jump + Within);
    }

    /// <summary>The wanted side also where the function falls as its argument does.</summary>
    [Fact]
    public void Crossing_PositiveAbove_EndsWhereItIsNotPositive()
    {
        var (root, _) = Search(x => Math.Exp(x) - 3, 5, -5);
        Assert.Equal(Math.Log(3), root, Within);
        Assert.True(Math.Exp(root) - 3 <= 0);
    }

    private static (double Root, int Steps) Search(
        Func<double, double> of,
        double above,
        double below
    )
    {
        var steps = 0;
        var root = Chandrupatla.Crossing(
            x =>
            {
                steps++;
                return of(x);
            },
            (above, of(above)),
            (below, of(below)),
            Within
        );
        return (root, steps);
    }
}
