namespace Cogwright.Fastening;

/// <summary>How a tool stands to its next calibration.</summary>
public enum CalibrationState
{
    /// <summary>In date and in count.</summary>
    Valid,

    /// <summary>In date, but within the last month or the last tenth of its count.</summary>
    DueSoon,

    /// <summary>Past its date or its count: what it tells is not proven.</summary>
    Overdue,

    /// <summary>Nobody knows when it was calibrated.</summary>
    Unknown,

    /// <summary>The date of its calibration lies in the future: one of the two dates is wrong.</summary>
    InFuture,
}

/// <summary>
/// When a tool was calibrated and how long that holds. The usual interval is 12 months or 5 000 uses, whichever comes first
/// (ISO 6789, from memory; common practice sets it per tool). Immutable.
/// </summary>
/// <param name="On">The day of the calibration, or null when nobody knows.</param>
/// <param name="Months">How long it holds (months), 1 to 120.</param>
/// <param name="Uses">How many uses it holds, 1 or more.</param>
/// <param name="UsesSince">Uses since then, 0 or more, or null when nobody counts.</param>
public sealed record Calibration(
    DateOnly? On,
    int Months = Calibration.UsualMonths,
    int Uses = Calibration.UsualUses,
    int? UsesSince = null
)
{
    /// <summary>Usual interval (months).</summary>
    public const int UsualMonths = 12;

    /// <summary>Usual interval (uses).</summary>
    public const int UsualUses = 5000;

    /// <summary>Greatest interval that is taken for one (months).</summary>
    public const int MostMonths = 120;

    /// <summary>First year that is taken for one.</summary>
    public const int LeastYear = 1950;

    /// <summary>Last year that is taken for one: from it the interval can still be counted.</summary>
    public const int MostYear = 9000;

    private const double SoonShare = 0.9;

    /// <summary>Not known.</summary>
    public static Calibration NotKnown { get; } = new(null, UsualMonths);

    /// <summary>The first day on which it no longer holds, as of the shop's gauges; null when nobody knows when it was.</summary>
    public DateOnly? Until => On?.AddMonths(Months);

    /// <summary>How it stands on a day. The day is handed in: this room knows no clock.</summary>
    public CalibrationState At(DateOnly today)
    {
        if (On is not { } on || Until is not { } until)
        {
            return CalibrationState.Unknown;
        }
        if (on > today)
        {
            return CalibrationState.InFuture;
        }
        if (today >= until || UsesSince > Uses)
        {
            return CalibrationState.Overdue;
        }
        return today >= until.AddMonths(-1) || UsesSince > SoonShare * Uses
            ? CalibrationState.DueSoon
            : CalibrationState.Valid;
    }
}
