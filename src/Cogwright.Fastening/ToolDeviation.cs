namespace Cogwright.Fastening;

/// <summary>
/// Deviation of a torque tool by ISO 6789-1:2017, 7: a_s = (X_a − X_r)/X_r, X_a set or told by the tool and X_r the reference.
/// Standards that divide by the set torque instead (the aerospace one) give another figure with another sign for the same
/// readings: a certificate says which.
/// </summary>
public static class ToolDeviation
{
    /// <summary>a_s (a fraction): positive when the tool tells more than there is.</summary>
    /// <param name="toldNm">X_a: what the tool is set to, or tells (N·m).</param>
    /// <param name="referenceNm">X_r: what the reference says (N·m).</param>
    /// <exception cref="ArgumentException">A torque is out of range.</exception>
    public static double Of(double toldNm, double referenceNm) =>
        (Demand.Torque(toldNm, nameof(toldNm)) - Demand.Torque(referenceNm, nameof(referenceNm)))
        / referenceNm;

    /// <summary>
    /// Whether every reading of a check keeps to a permissible deviation. The standard checks at 20, 60 and 100 % of the greatest
    /// torque (or the least marked one), five readings each; not one may be out.
    /// </summary>
    /// <param name="readings">What the tool told and what the reference said (N·m), at least one.</param>
    /// <param name="permissible">Permissible deviation (a fraction), above 0 and below 1.</param>
    /// <exception cref="ArgumentException">There is no reading, or a figure is out of range.</exception>
    public static bool Keeps(
        ReadOnlySpan<(double ToldNm, double ReferenceNm)> readings,
        double permissible
    )
    {
        if (readings.IsEmpty)
        {
            throw new ArgumentException(Texts.Get("tool.noCheck"), nameof(readings));
        }
        Demand.Range(permissible, 0, 1, nameof(permissible));
        foreach (var (told, reference) in readings)
        {
            if (Math.Abs(Of(told, reference)) > permissible)
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>Least torque there may be (N·m) when a tool tells <paramref name="toldNm"/>: X_a/(1 + a).</summary>
    /// <param name="toldNm">What the tool tells or is set to (N·m).</param>
    /// <param name="deviation">Greatest deviation (a fraction), 0 to below 1.</param>
    public static double LeastNm(double toldNm, double deviation) => toldNm / (1 + deviation);

    /// <summary>Greatest torque there may be (N·m) when a tool tells <paramref name="toldNm"/>: X_a/(1 − a).</summary>
    /// <param name="toldNm">What the tool tells or is set to (N·m).</param>
    /// <param name="deviation">Greatest deviation (a fraction), 0 to below 1.</param>
    public static double MostNm(double toldNm, double deviation) => toldNm / (1 - deviation);
}
