using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>One reading of the hanger alignment gauge.</summary>
/// <param name="ClockHours">
/// Where on the rim, as on a clock seen from the drive side (hours): 12 is up, 3 is the front, 9 the rear of the bike.
/// </param>
/// <param name="OutboardMm">How far outboard the gauge tip stands of the rim, at the same spot of the rim each time (mm).</param>
/// <param name="StandardUncertaintyMm">Its standard uncertainty (mm), 0 when it is taken for exact.</param>
public readonly record struct RimReading(
    double ClockHours,
    double OutboardMm,
    double StandardUncertaintyMm
)
{
    /// <summary>The angle of the clock position from straight up, towards the front (rad).</summary>
    public double FromTopRad => ClockHours * Math.Tau / 12;
}

/// <summary>How a fit of the hanger's plane ended.</summary>
public enum HangerFitStatus
{
    /// <summary>A plane was found.</summary>
    Ok,

    /// <summary>A plane needs readings at three clock positions at least.</summary>
    TooFew,

    /// <summary>The clock positions lie too near one another to tell a plane.</summary>
    TooClose,
}

/// <summary>A plane, or why there is none.</summary>
/// <param name="Status">How it ended.</param>
/// <param name="Plane">The plane, or null.</param>
public readonly record struct HangerFit(HangerFitStatus Status, HangerPlane? Plane);

/// <summary>
/// The plane in which the alignment gauge swings, against the plane of the wheel: z = z₀ + zx·x + zy·y, with x forward and
/// y up from the axle and z outboard (mm). Square to the hanger bolt, so its slopes are the errors of the hanger. Immutable.
/// </summary>
public sealed record HangerPlane
{
    /// <summary>A residual beyond so many of its own standard uncertainties says that the readings lie in no plane (about 95 %).</summary>
    private const double DoubtFactor = 2;

    /// <summary>Rate of change outboard per mm forward, ∂z/∂x (mm/mm).</summary>
    public required double SlopeForward { get; init; }

    /// <summary>Rate of change outboard per mm upward, ∂z/∂y (mm/mm).</summary>
    public required double SlopeUp { get; init; }

    /// <summary>Where the plane stands outboard of the rim at the axle (mm). It says how the gauge was set, nothing of the hanger.</summary>
    public required double AtAxleMm { get; init; }

    /// <summary>Radius at which the gauge met the rim (mm).</summary>
    public required double GaugeRadiusMm { get; init; }

    /// <summary>Standard uncertainty of <see cref="SlopeForward"/>.</summary>
    public double SlopeForwardUncertainty { get; init; }

    /// <summary>Standard uncertainty of <see cref="SlopeUp"/>.</summary>
    public double SlopeUpUncertainty { get; init; }

    /// <summary>Covariance of the two slopes.</summary>
    public double SlopeCovariance { get; init; }

    /// <summary>What each reading lies outboard of the plane (mm), in the order of the readings.</summary>
    public ImmutableArray<double> ResidualsMm { get; init; } = [];

    /// <summary>Readings beyond the three that a plane needs.</summary>
    public int DegreesOfFreedom { get; init; }

    /// <summary>Whether a residual is larger than the gauge explains: another spot of the rim, a wheel that moved, play in the gauge.</summary>
    public bool IsDoubtful { get; init; }

    /// <summary>Lean (rad): positive when the top stands outboard, so that the derailleur hangs inboard.</summary>
    public double LeanRad => Math.Atan(SlopeUp);

    /// <summary>Toe (rad): positive when the front stands outboard.</summary>
    public double ToeRad => Math.Atan(SlopeForward);

    /// <summary>Its two slopes as the small angles of a tilt about the hanger bolt, which <see cref="SpokeClearance"/> takes.</summary>
    public HangerTilt Tilt => new(SlopeUp, SlopeForward);

    /// <summary>Standard uncertainty of the lean (rad).</summary>
    public double LeanUncertaintyRad => SlopeUpUncertainty / (1 + (SlopeUp * SlopeUp));

    /// <summary>Standard uncertainty of the toe (rad).</summary>
    public double ToeUncertaintyRad =>
        SlopeForwardUncertainty / (1 + (SlopeForward * SlopeForward));

    /// <summary>Difference at the rim, 12 o'clock less 6 o'clock (mm).</summary>
    public double TopLessBottomMm => 2 * GaugeRadiusMm * SlopeUp;

    /// <summary>Difference at the rim, 3 o'clock (front) less 9 o'clock (rear) (mm).</summary>
    public double FrontLessRearMm => 2 * GaugeRadiusMm * SlopeForward;

    /// <summary>Steepest slope of the plane (mm/mm).</summary>
    public double Steepest => Math.Sqrt((SlopeUp * SlopeUp) + (SlopeForward * SlopeForward));

    /// <summary>Greatest difference between any two opposite clock positions (mm).</summary>
    public double GreatestDifferenceMm => 2 * GaugeRadiusMm * Steepest;

    /// <summary>Standard uncertainty of <see cref="GreatestDifferenceMm"/> (mm), to first order; of a plane without slope the larger of the two.</summary>
    public double GreatestDifferenceUncertaintyMm
    {
        get
        {
            var steepest = Steepest;
            if (steepest == 0)
            {
                return 2 * GaugeRadiusMm * Math.Max(SlopeForwardUncertainty, SlopeUpUncertainty);
            }
            var forward = SlopeForward / steepest * SlopeForwardUncertainty;
            var up = SlopeUp / steepest * SlopeUpUncertainty;
            var both = SlopeForward * SlopeUp / (steepest * steepest) * SlopeCovariance;
            return 2
                * GaugeRadiusMm
                * Math.Sqrt(Math.Max(0, (forward * forward) + (up * up) + (2 * both)));
        }
    }

    /// <summary>Clock position at which the plane stands furthest outboard (hours, above 0 to 12; 12 for a plane without slope).</summary>
    public double MostOutboardHours
    {
        get
        {
            var hours = TurnFraction.Wrapped(Math.Atan2(SlopeForward, SlopeUp)) * 12 / Math.Tau;
            return hours == 0 ? 12 : hours;
        }
    }

    /// <summary>How far outboard the plane lies at a point, against where it lies at another (mm).</summary>
    public double ShiftMm(Point at, Point from) => Tilt.LateralMm(at - from);

    /// <summary>
    /// The plane through the readings by least squares, each weighted by 1/u² when all have an uncertainty. With all four
    /// quarters read alike that is ∂z/∂y = (top − bottom)/2g and ∂z/∂x = (front − rear)/2g.
    /// </summary>
    /// <param name="readings">The readings, at any clock positions; the front is often blocked by the stays.</param>
    /// <param name="gaugeRadiusMm">Radius g at which the gauge meets the rim (mm, positive).</param>
    /// <exception cref="ArgumentOutOfRangeException">The radius is not positive.</exception>
    public static HangerFit Fit(ImmutableArray<RimReading> readings, double gaugeRadiusMm)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(gaugeRadiusMm);
        if (readings.Length < 3)
        {
            return new(HangerFitStatus.TooFew, null);
        }
        return PlaneFit.Of(readings) is { } fit
            ? new(HangerFitStatus.Ok, Of(fit, readings, gaugeRadiusMm))
            : new(HangerFitStatus.TooClose, null);
    }

    private static HangerPlane Of(
        PlaneFit fit,
        ImmutableArray<RimReading> readings,
        double radiusMm
    ) =>
        new()
        {
            AtAxleMm = fit.Constant,
            SlopeForward = fit.Front / radiusMm,
            SlopeUp = fit.Top / radiusMm,
            SlopeForwardUncertainty = Math.Sqrt(fit.FrontVariance) / radiusMm,
            SlopeUpUncertainty = Math.Sqrt(fit.TopVariance) / radiusMm,
            SlopeCovariance = fit.FrontTopCovariance / (radiusMm * radiusMm),
            GaugeRadiusMm = radiusMm,
            ResidualsMm = fit.Residuals,
            DegreesOfFreedom = readings.Length - 3,
            IsDoubtful =
                readings.Length > 3
                && fit.Residuals.Zip(fit.ResidualUncertainties)
                    .Any(r => Math.Abs(r.First) > DoubtFactor * r.Second && r.Second > 0),
        };
}
