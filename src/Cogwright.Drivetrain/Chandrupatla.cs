namespace Cogwright.Drivetrain;

/// <summary>
/// Roots in a bracket by Chandrupatla's method: inverse quadratic interpolation where it is safe, else bisection.
/// </summary>
/// <remarks>T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145–149.</remarks>
internal static class Chandrupatla
{
    /// <summary>Bound on a search's steps; bisection alone takes 40 for a trillionth of its bracket.</summary>
    private const int MostSteps = 200;

    /// <summary>How far along from a to b the next try should lie (0 to 1).</summary>
    /// <param name="a">The newest end of the bracket, with its value.</param>
    /// <param name="b">The other end, with a value of the other sign.</param>
    /// <param name="c">The end before them.</param>
    internal static double Part(
        (double At, double Value) a,
        (double At, double Value) b,
        (double At, double Value) c
    )
    {
        var xi = (a.At - b.At) / (c.At - b.At);
        var phi = (a.Value - b.Value) / (c.Value - b.Value);
        if (!(phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi))
        {
            return 0.5;
        }
        var (fa, fb, fc) = (a.Value, b.Value, c.Value);
        var reach = (c.At - a.At) / (b.At - a.At);
        return (fa / (fb - fa) * (fc / (fb - fc))) + (reach * (fa / (fc - fa)) * (fb / (fc - fb)));
    }

    /// <summary>A step kept half of the wanted width away from both ends, so that the bracket closes from either side.</summary>
    /// <param name="part">How far along the bracket (0 to 1).</param>
    /// <param name="width">Its width.</param>
    /// <param name="within">The width at which the search ends.</param>
    internal static double Inside(double part, double width, double within) =>
        Math.Clamp(part, 0.5 * within / width, 1 - (0.5 * within / width));

    /// <summary>Where a function turns from positive to not positive: the end of the last bracket at which it is not positive.</summary>
    /// <param name="of">The function.</param>
    /// <param name="above">Where it is positive.</param>
    /// <param name="below">Where it is not.</param>
    /// <param name="within">Width of the bracket that is near enough.</param>
    internal static double Crossing(
        Func<double, double> of,
        (double At, double Value) above,
        (double At, double Value) below,
        double within
    )
    {
        var (b, a) = (above, below);
        var c = a;
        var part = 0.5;
        for (var step = 0; step < MostSteps; step++)
        {
            var at = a.At + (part * (b.At - a.At));
            var next = (At: at, Value: of(at));
            var sameSide = next.Value > 0 == a.Value > 0;
            (c, b) = sameSide ? (a, b) : (b, a);
            a = next;
            var width = Math.Abs(b.At - a.At);
            if (a.Value == 0 || width <= within)
            {
                break;
            }
            part = Inside(Part(a, b, c), width, within);
        }
        return a.Value > 0 ? b.At : a.At;
    }
}
