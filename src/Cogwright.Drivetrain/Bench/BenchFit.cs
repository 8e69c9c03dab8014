using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>How a fit ended.</summary>
public enum BenchFitStatus
{
    /// <summary>One mechanism explains the readings.</summary>
    Fitted,

    /// <summary>Two mirror images explain the readings about equally well: see <see cref="BenchFit.Other"/>.</summary>
    Ambiguous,

    /// <summary>No mechanism near the class explains all readings: see <see cref="BenchFit.WorstReading"/>.</summary>
    Inconsistent,

    /// <summary>The mechanism found cannot be, or the search did not end; the spec is the prior's.</summary>
    Implausible,

    /// <summary>There is nothing to fit: no reading, or no rear derailleur.</summary>
    Nothing,
}

/// <summary>Where a parameter's value comes from after the fit.</summary>
public enum BenchOrigin
{
    /// <summary>The readings say it: they hold at least as much information on it as the class does.</summary>
    Measured,

    /// <summary>The class still says most of it.</summary>
    Assumed,

    /// <summary>The spec states it; the fit has left it alone.</summary>
    Stated,
}

/// <summary>A parameter after the fit; lengths mm, angles rad.</summary>
/// <param name="Parameter">The parameter.</param>
/// <param name="Value">Its value.</param>
/// <param name="Uncertainty">Its standard uncertainty; 0 when stated.</param>
/// <param name="PriorValue">What the class says.</param>
/// <param name="PriorUncertainty">Its standard deviation within the class.</param>
/// <param name="Origin">Where the value comes from.</param>
public sealed record FittedParameter(
    BenchParameter Parameter,
    double Value,
    double Uncertainty,
    double PriorValue,
    double PriorUncertainty,
    BenchOrigin Origin
);

/// <summary>A reading beside what the fitted mechanism gives.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="ModelMm">What the mechanism gives (mm); NaN when the reading was not used.</param>
/// <param name="ResidualMm">Reading less model (mm); NaN when not used.</param>
/// <param name="ResidualInU">The same in standard uncertainties of the reading; NaN when not used.</param>
/// <param name="Normalized">
/// The residual over its own standard deviation, which is less than the reading's where the fit follows it: the figure
/// that finds a misreading (W. Baarda's data snooping). NaN when not used or when nothing else checks the reading.
/// </param>
public sealed record FittedReading(
    BenchReading Reading,
    double ModelMm,
    double ResidualMm,
    double ResidualInU,
    double Normalized
)
{
    /// <summary>Whether the fit used it.</summary>
    public bool IsUsed => !double.IsNaN(ModelMm);
}

/// <summary>What the fit says of one gear, with standard uncertainties (mm). NaN where the gear has no pose.</summary>
/// <param name="Gear">The gear.</param>
/// <param name="State">Its state.</param>
/// <param name="GapMm">The pulley-to-cog gap, tooth tip to tooth tip.</param>
/// <param name="GapUncertaintyMm">Its standard uncertainty.</param>
/// <param name="GuideForwardUncertaintyMm">Of the guide pulley's place ahead of the axle.</param>
/// <param name="GuideUpUncertaintyMm">Of its place above the axle.</param>
public sealed record FittedGap(
    Gear Gear,
    GearState State,
    double GapMm,
    double GapUncertaintyMm,
    double GuideForwardUncertaintyMm,
    double GuideUpUncertaintyMm
);

/// <summary>A way in which the mechanism could differ that the readings hardly see.</summary>
/// <param name="Parts">The parameters in it, the heaviest first, with their weights (the squares sum to at most 1).</param>
/// <param name="GapEffectMm">What one standard deviation along it does to the gap, in the gear that feels it most (mm).</param>
public sealed record LooseDirection(
    ImmutableArray<(BenchParameter Parameter, double Weight)> Parts,
    double GapEffectMm
);

/// <summary>A reading that was not taken and what it would bring.</summary>
/// <param name="Place">What to measure.</param>
/// <param name="GapUncertaintyMm">The gap's standard uncertainty then (mm, root mean square over the gears).</param>
public sealed record FurtherReading(BenchPlace Place, double GapUncertaintyMm);

/// <summary>A value of the spec that was found from measurements.</summary>
/// <param name="Path">The field, as in the spec file.</param>
/// <param name="Value">The value with its standard uncertainty and unit, as a person would write it.</param>
public sealed record FittedValue(string Path, string Value);

/// <summary>What the bench says of a mechanism. Immutable.</summary>
public sealed record BenchFit
{
    /// <summary>How it ended.</summary>
    public required BenchFitStatus Status { get; init; }

    /// <summary>The spec with the fitted values; they are listed under <see cref="DrivetrainSpec.Fitted"/>.</summary>
    public required DrivetrainSpec Spec { get; init; }

    /// <summary>All parameters.</summary>
    public ImmutableArray<FittedParameter> Parameters { get; init; } = [];

    /// <summary>The free parameters, in the order of the covariance.</summary>
    public ImmutableArray<BenchParameter> Free { get; init; } = [];

    /// <summary>Their covariance, row by row, in units of the prior deviations.</summary>
    public ImmutableArray<double> Covariance { get; init; } = [];

    /// <summary>The readings beside the model.</summary>
    public ImmutableArray<FittedReading> Readings { get; init; } = [];

    /// <summary>Index of the reading that fits worst, when <see cref="Status"/> is Inconsistent.</summary>
    public int? WorstReading { get; init; }

    /// <summary>Length of the chain that the gaps hold for (pitches).</summary>
    public int Pitches { get; init; }

    /// <summary>The gaps, ring by ring, smallest cog first.</summary>
    public ImmutableArray<FittedGap> Gaps { get; init; } = [];

    /// <summary>The gap's standard uncertainty, root mean square over the gears with a pose (mm); NaN when none has.</summary>
    public double GapUncertaintyMm { get; init; } = double.NaN;

    /// <summary>What the readings hardly see, the way that matters most to the gap first.</summary>
    public ImmutableArray<LooseDirection> NotIdentified { get; init; } = [];

    /// <summary>What else to measure, the most helpful first; none when nothing helps by a hundredth.</summary>
    public ImmutableArray<FurtherReading> Further { get; init; } = [];

    /// <summary>The mirror image that explains the readings about as well, or null.</summary>
    public DrivetrainSpec? Other { get; init; }

    /// <summary>Greatest difference of the gap between the two (mm), 0 without another.</summary>
    public double OtherGapDifferenceMm { get; init; }

    /// <summary>Weighted sum of squares, the prior's part included; about the number of readings when all is well.</summary>
    public double SumOfSquares { get; init; }

    /// <summary>Steps of the search.</summary>
    public int Iterations { get; init; }
}
