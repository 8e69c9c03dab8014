using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>
/// The clearance of a chain's rollers on their bushings, which a gauge that pushes two rollers apart takes for wear. Immutable.
/// </summary>
/// <remarks>
/// A roller of diametral clearance c can move by c/2 either way from where its pin holds it. Two rollers pushed apart
/// add (c₁ + c₂)/2, on average c; two rollers pushed the same way add (c₁ − c₂)/2, on average nothing. See docs/theory/wear.md.
/// </remarks>
public sealed record RollerPlay
{
    /// <summary>Most that is taken for play (mm): more is a broken roller or a slip of the pen.</summary>
    public const double MostMm = 1;

    /// <summary>A play.</summary>
    /// <param name="mm">Mean diametral clearance of a roller beyond what the gauge's scale allows for (mm), 0 to <see cref="MostMm"/>.</param>
    /// <param name="standardUncertaintyMm">Standard uncertainty of that mean (mm).</param>
    /// <param name="scatterMm">Standard deviation from roller to roller (mm).</param>
    /// <exception cref="ArgumentException">A number is negative, not finite or beyond <see cref="MostMm"/>.</exception>
    public RollerPlay(double mm, double standardUncertaintyMm, double scatterMm = UsualScatterMm)
    {
        Mm = Demand.Between(mm, 0, MostMm, nameof(mm));
        StandardUncertaintyMm = Demand.Between(
            standardUncertaintyMm,
            0,
            MostMm,
            nameof(standardUncertaintyMm)
        );
        ScatterMm = Demand.Between(scatterMm, 0, MostMm, nameof(scatterMm));
    }

    /// <summary>From roller to roller (mm), standard deviation. From memory: a few hundredths.</summary>
    public const double UsualScatterMm = 0.04;

    /// <summary>
    /// What is assumed of a chain nobody measured: anything from 0 to 0.3 mm alike, hence 0.15 mm with 0.3/√12 mm. From
    /// memory, as common practice knows it: a new chain reads 0.1 to 0.25 % on such gauges.
    /// </summary>
    public static RollerPlay Assumed { get; } =
        new(0.15, Quadrature.OfResolution(0.3)) { IsAssumed = true };

    /// <summary>Mean diametral clearance of a roller (mm).</summary>
    public double Mm { get; }

    /// <summary>Its standard uncertainty (mm).</summary>
    public double StandardUncertaintyMm { get; }

    /// <summary>Standard deviation from roller to roller (mm).</summary>
    public double ScatterMm { get; }

    /// <summary>Whether nobody measured it.</summary>
    public bool IsAssumed { get; init; }
}
