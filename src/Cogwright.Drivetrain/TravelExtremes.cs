namespace Cogwright.Drivetrain;

/// <summary>Where over the travel something is greatest, and how great.</summary>
/// <param name="TravelMm">The travel (mm).</param>
/// <param name="Value">The value there; NaN when it does not exist at that travel.</param>
internal readonly record struct TravelExtreme(double TravelMm, double Value);

/// <summary>
/// Finds the greatest value over the travel: a sweep, then a golden-section search about the best position.
/// </summary>
/// <remarks>
/// What is asked here (a path's length at a fixed cage angle, a distance) bends over lengths of a hundred mm and more;
/// positions a few mm apart cannot miss a hump that matters. A test holds a sweep ten times finer against it.
/// </remarks>
internal static class TravelExtremes
{
    /// <summary>Positions of the sweep.</summary>
    internal const int Positions = 41;

    /// <summary>Steps of the search: two sweep intervals of 5 mm shrink to below 1e-5 mm.</summary>
    private const int GoldenSteps = 30;

    private const double Golden = 0.6180339887498949;

    internal static double TravelAt(int position, double travelMm) =>
        position == Positions - 1 ? travelMm : position * travelMm / (Positions - 1);

    /// <summary>The greatest value over 0 to <paramref name="travelMm"/>; the first position without a value ends the search.</summary>
    internal static TravelExtreme Greatest(double travelMm, Func<double, double> valueAt)
    {
        var best = new TravelExtreme(0, valueAt(0));
        if (travelMm == 0 || double.IsNaN(best.Value))
        {
            return best;
        }
        var bestAt = 0;
        for (var i = 1; i < Positions; i++)
        {
            var travel = TravelAt(i, travelMm);
            var value = valueAt(travel);
            if (double.IsNaN(value))
            {
                return new(travel, value);
            }
            if (value > best.Value)
            {
                best = new(travel, value);
                bestAt = i;
            }
        }
        return Refined(
            best,
            TravelAt(Math.Max(bestAt - 1, 0), travelMm),
            TravelAt(Math.Min(bestAt + 1, Positions - 1), travelMm),
            valueAt
        );
    }

    private static TravelExtreme Refined(
        TravelExtreme best,
        double low,
        double high,
        Func<double, double> valueAt
    )
    {
        var left = high - (Golden * (high - low));
        var right = low + (Golden * (high - low));
        var (atLeft, atRight) = (valueAt(left), valueAt(right));
        for (var step = 0; step < GoldenSteps; step++)
        {
            if (atLeft > best.Value)
            {
                best = new(left, atLeft);
            }
            if (atRight > best.Value)
            {
                best = new(right, atRight);
            }
            if (atLeft > atRight)
            {
                (high, right, atRight) = (right, left, atLeft);
                left = high - (Golden * (high - low));
                atLeft = valueAt(left);
            }
            else
            {
                (low, left, atLeft) = (left, right, atRight);
                right = low + (Golden * (high - low));
                atRight = valueAt(right);
            }
        }
        return best;
    }
}
