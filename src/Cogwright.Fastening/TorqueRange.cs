using Cogwright.Measurement;

namespace Cogwright.Fastening;

/// <summary>From a least to a greatest torque; both are the same where a part gives one figure and no tolerance. Immutable.</summary>
public sealed record TorqueRange
{
    /// <summary>Greatest torque that a bicycle's fastener or a shop's hand tool has (N·m); beyond it a unit was mistaken.</summary>
    public const double GreatestNm = 500;

    /// <summary>A range.</summary>
    /// <param name="lowerNm">Least torque (N·m, above 0, at most 500).</param>
    /// <param name="upperNm">Greatest torque (N·m, from the least to 500).</param>
    /// <exception cref="ArgumentException">A figure is out of range, or they are the wrong way round.</exception>
    public TorqueRange(double lowerNm, double upperNm)
    {
        LowerNm = Demand.Torque(lowerNm, nameof(lowerNm));
        UpperNm = Demand.Torque(upperNm, nameof(upperNm));
        if (lowerNm > upperNm)
        {
            throw new ArgumentException(
                Texts.Get("demand.rangeOrder", lowerNm, upperNm),
                nameof(lowerNm)
            );
        }
    }

    /// <summary>Least torque (N·m).</summary>
    public double LowerNm { get; }

    /// <summary>Greatest torque (N·m).</summary>
    public double UpperNm { get; }

    /// <summary>Half way between the two (N·m).</summary>
    public double MiddleNm => (LowerNm + UpperNm) / 2;

    /// <summary>Width (N·m); 0 for a single figure.</summary>
    public double WidthNm => UpperNm - LowerNm;

    /// <summary>Whether it is one figure without tolerance, so that nothing says how far off is too far.</summary>
    public bool IsSingleFigure => LowerNm == UpperNm;

    /// <summary>The same as a tolerance band in N·m.</summary>
    public ToleranceBand Band => new(LowerNm, UpperNm);

    /// <summary>Whether a torque lies in it, limits included.</summary>
    public bool Contains(double torqueNm) => torqueNm >= LowerNm && torqueNm <= UpperNm;

    /// <summary>Whether the two have a torque in common.</summary>
    public bool Overlaps(TorqueRange other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return LowerNm <= other.UpperNm && other.LowerNm <= UpperNm;
    }
}
