namespace Cogwright.Gearing;

/// <summary>
/// The mean of a line of straight pieces over a window about each place, exactly, from its running integral. Places are asked in
/// ascending order, so that the whole costs one walk. Beyond an end the line is turned about its end point.
/// </summary>
internal sealed class WindowMean
{
    private readonly double[] at;
    private readonly double[] value;
    private readonly double[] integral;
    private readonly double half;
    private int left;
    private int right;
    private int middle;

    /// <summary>A line and a window.</summary>
    /// <param name="at">Places, strictly ascending from 0.</param>
    /// <param name="value">The line's value at each.</param>
    /// <param name="window">Width of the window, 0 for none; at most twice the whole length is used.</param>
    internal WindowMean(double[] at, double[] value, double window)
    {
        this.at = at;
        this.value = value;
        half = Math.Min(window / 2, at[^1]);
        integral = new double[at.Length];
        for (var i = 1; i < at.Length; i++)
        {
            integral[i] = integral[i - 1] + (0.5 * (value[i] + value[i - 1]) * (at[i] - at[i - 1]));
        }
    }

    /// <summary>The mean about a place, which is not before the one asked last.</summary>
    internal double At(double place)
    {
        if (half == 0)
        {
            Seek(ref middle, place);
            var part = (place - at[middle]) / (at[middle + 1] - at[middle]);
            return value[middle] + (part * (value[middle + 1] - value[middle]));
        }
        return (Upper(place + half) - Lower(place - half)) / (2 * half);
    }

    private double Upper(double place)
    {
        var end = at[^1];
        if (place <= end)
        {
            return Integral(ref right, place);
        }
        // ∫ beyond the end of 2z₁ − z(mirrored): the mirrored places descend, so they are sought anew from the end.
        var beyond = place - end;
        var mirrored = Math.Max(end - beyond, 0);
        return integral[^1] + (2 * value[^1] * beyond) - (integral[^1] - IntegralBack(mirrored));
    }

    private double Lower(double place)
    {
        if (place >= 0)
        {
            return Integral(ref left, place);
        }
        var before = -place;
        return -((2 * value[0] * before) - IntegralBack(Math.Min(before, at[^1])));
    }

    private double Integral(ref int from, double place)
    {
        Seek(ref from, place);
        return IntegralIn(from, place);
    }

    private double IntegralBack(double place)
    {
        var found = Array.BinarySearch(at, place);
        var piece = Math.Clamp(found >= 0 ? found : ~found - 1, 0, at.Length - 2);
        return IntegralIn(piece, place);
    }

    private double IntegralIn(int piece, double place)
    {
        var along = place - at[piece];
        var slope = (value[piece + 1] - value[piece]) / (at[piece + 1] - at[piece]);
        return integral[piece] + (along * (value[piece] + (0.5 * slope * along)));
    }

    private void Seek(ref int from, double place)
    {
        while (from < at.Length - 2 && at[from + 1] < place)
        {
            from++;
        }
    }
}
