namespace Cogwright.Measurement;

/// <summary>A gauge or a torque tool of the shop, with its calibration. Immutable.</summary>
/// <param name="Id">What it keeps for life, whatever it is called.</param>
/// <param name="Name">What it is called on the record, such as "caliper 2".</param>
/// <param name="Unit">Unit of what it reads: mm, N·m, ° …</param>
public sealed record ShopGauge(string Id, string Name, string Unit)
{
    /// <summary>The least step of its display, in its unit; null when it has none, or it is in the uncertainty already.</summary>
    public double? Resolution { get; init; }

    /// <summary>Its standard uncertainty, the resolution left out, in its unit; not negative.</summary>
    public double StandardUncertainty { get; init; }

    /// <summary>
    /// Its permissible deviation in percent of the reading, as of a torque tool (ISO 6789-1 gives 4 or 6); 0 when none is
    /// given. Any value within it is held for as likely as any other (GUM 4.3.7).
    /// </summary>
    public double DeviationPercent { get; init; }

    /// <summary>Type and class of a torque tool by ISO 6789, such as IIA; empty of another gauge, and where nobody said it.</summary>
    public string ToolClass { get; init; } = "";

    /// <summary>The least that its scale shows, in its unit; null when nobody said it.</summary>
    public double? Least { get; init; }

    /// <summary>The most that its scale shows, in its unit; null when nobody said it.</summary>
    public double? Most { get; init; }

    /// <summary>Middle of the drive to the middle of the hand (mm) of a torque wrench; null when nobody measured it.</summary>
    public double? ArmMm { get; init; }

    /// <summary>The day of its last calibration, or null when none is known.</summary>
    public DateOnly? CalibratedOn { get; init; }

    /// <summary>How many months a calibration serves in this shop; 0: for good.</summary>
    public int MonthsValid { get; init; }

    /// <summary>Whether it is not used any more.</summary>
    public bool IsRetired { get; init; }

    /// <summary>The first day on which its calibration no longer serves, at most the last that can be written; null when it always does or none is known.</summary>
    public DateOnly? DueOn =>
        MonthsValid <= 0 || CalibratedOn is not { } on ? null
        : MonthsValid > MonthsTo(on) ? DateOnly.MaxValue
        : on.AddMonths(MonthsValid);

    private static int MonthsTo(DateOnly day) =>
        (DateOnly.MaxValue.Year - day.Year) * 12 + DateOnly.MaxValue.Month - day.Month;

    /// <summary>How its calibration stands on a day.</summary>
    /// <param name="day">The day.</param>
    public CalibrationState StateOn(DateOnly day) =>
        CalibratedOn is null ? CalibrationState.Unknown
        : DueOn <= day ? CalibrationState.Overdue
        : CalibrationState.Good;

    /// <summary>A reading taken with it.</summary>
    /// <param name="value">What was read, in its unit.</param>
    /// <exception cref="ArgumentException">A number is not finite or negative where it may not be.</exception>
    public Reading Read(double value) =>
        new Gauge(Name, Resolution, StandardUncertainty).Read(
            value,
            Math.Abs(value) * DeviationPercent / 100 / Math.Sqrt(3)
        );
}

/// <summary>How a gauge's calibration stands.</summary>
public enum CalibrationState
{
    /// <summary>No calibration is known.</summary>
    Unknown,

    /// <summary>It serves.</summary>
    Good,

    /// <summary>It has run out.</summary>
    Overdue,
}
