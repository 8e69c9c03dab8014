using System.Collections.Immutable;
using Cogwright.Measurement;

namespace Cogwright.Fastening;

/// <summary>A torque tool of the shop. It may be wrong: <see cref="TorqueToolCheck.Problems"/> tells. Immutable.</summary>
public sealed record TorqueTool
{
    /// <summary>What it is called on the record.</summary>
    public required string Name { get; init; }

    /// <summary>Its type and class.</summary>
    public required ToolClass Class { get; init; }

    /// <summary>Greatest torque of its scale (N·m), above 0, at most 500.</summary>
    public required double MaxNm { get; init; }

    /// <summary>
    /// Least torque marked on its scale (N·m), or null: then 20 % of the greatest, from where on ISO 6789 checks a tool.
    /// </summary>
    public double? MinNm { get; init; }

    /// <summary>Step of its scale or display (N·m), or null when it has none or can stand anywhere between marks.</summary>
    public double? GraduationNm { get; init; }

    /// <summary>The unit of its scale: what it is set to is told in it.</summary>
    public TorqueUnit Unit { get; init; } = TorqueUnit.NewtonMetre;

    /// <summary>Centre of the drive to the middle of the hand (mm), or null when nobody measured it; a driver has none.</summary>
    public double? ArmMm { get; init; }

    /// <summary>Whether it also tells or clicks when turned anticlockwise, for left-hand threads.</summary>
    public bool WorksLeftHand { get; init; }

    /// <summary>
    /// Half-width of the interval that its certificate gives (a fraction of the torque), W' = |a_s| + W + |b| of ISO 6789-2:2017; or
    /// null: then the permissible deviation of its class.
    /// </summary>
    public double? CertifiedDeviation { get; init; }

    /// <summary>When it was calibrated.</summary>
    public Calibration Calibration { get; init; } = Calibration.NotKnown;

    /// <summary>Least torque that it may be used at (N·m).</summary>
    public double LeastNm =>
        MinNm ?? (Class.IsFixed ? MaxNm : TorqueToolCheck.LeastCheckedShare * MaxNm);

    /// <summary>How far off it may be either way (a fraction): by its certificate, else by its class.</summary>
    public double Deviation => CertifiedDeviation ?? Class.PermissibleDeviation(MaxNm);

    /// <summary>A torque as its scale has it, with N·m behind it where the scale has another unit.</summary>
    /// <param name="torqueNm">The torque (N·m).</param>
    public string OnScale(double torqueNm) =>
        Unit == TorqueUnit.NewtonMetre
            ? Texts.Get("tool.scale", torqueNm, Unit.Symbol)
            : Texts.Get("tool.scaleAndNm", Unit.FromNm(torqueNm), Unit.Symbol, torqueNm);

    /// <summary>
    /// It as a gauge at a torque: standard uncertainty a·X/√3, since nothing says where within its deviation it stands (rectangular,
    /// GUM 4.3.7), and the step of its scale.
    /// </summary>
    /// <param name="toldNm">What it tells or is set to (N·m).</param>
    /// <exception cref="ArgumentException">The torque is out of range.</exception>
    public Gauge GaugeAt(double toldNm) =>
        new(Name, GraduationNm, Deviation * Demand.Torque(toldNm, nameof(toldNm)) / Math.Sqrt(3));
}

/// <summary>Something in a tool that cannot be.</summary>
/// <param name="Field">The field, as files write it, such as <c>max</c>.</param>
/// <param name="Message">What is wrong and what to do.</param>
public sealed record ToolProblem(string Field, string Message);

/// <summary>Says what in a tool cannot be.</summary>
public static class TorqueToolCheck
{
    /// <summary>Share of its greatest torque from which on ISO 6789 checks a tool: below it nothing was shown.</summary>
    public const double LeastCheckedShare = 0.2;

    /// <summary>Greatest deviation that a certificate may give for a tool that is still one (a fraction).</summary>
    public const double MostDeviation = 0.2;

    /// <summary>Shortest and longest arm of a wrench (mm).</summary>
    public const double LeastArmMm = 50;

    /// <summary>All problems; empty when there is none.</summary>
    public static ImmutableArray<ToolProblem> Problems(TorqueTool tool)
    {
        ArgumentNullException.ThrowIfNull(tool);
        var problems = ImmutableArray.CreateBuilder<ToolProblem>();
        void Tell(string field, string message) => problems.Add(new(field, message));
        // All written so that not a number is refused too.
        if (string.IsNullOrWhiteSpace(tool.Name))
        {
            Tell("name", Texts.Get("tool.noName"));
        }
        if (!(tool.MaxNm is > 0 and <= Demand.MostTorqueNm))
        {
            Tell("max", Texts.Get("demand.torque", tool.MaxNm, Demand.MostTorqueNm));
        }
        if (tool.MinNm is { } min && !(min > 0 && min <= tool.MaxNm))
        {
            Tell("min", Texts.Get("tool.min", min, tool.MaxNm));
        }
        if (tool.Class.IsFixed && tool.MinNm is { } least && least != tool.MaxNm)
        {
            Tell("min", Texts.Get("tool.fixed", tool.MaxNm));
        }
        if (tool.GraduationNm is { } step && !(step > 0 && step <= tool.MaxNm / 2))
        {
            Tell("graduation", Texts.Get("tool.graduation", step, tool.MaxNm));
        }
        if (
            tool.ArmMm is { } arm
            && (tool.Class.IsDriver || !(arm is >= LeastArmMm and <= WrenchAdapter.MostArmMm))
        )
        {
            Tell(
                "arm",
                tool.Class.IsDriver
                    ? Texts.Get("tool.driverArm")
                    : Texts.Get("demand.length", arm, LeastArmMm, WrenchAdapter.MostArmMm)
            );
        }
        if (tool.CertifiedDeviation is { } deviation && !(deviation is > 0 and <= MostDeviation))
        {
            Tell("deviation", Texts.Get("tool.deviation", 100 * deviation, 100 * MostDeviation));
        }
        if (tool.Calibration.On is { Year: < Calibration.LeastYear or > Calibration.MostYear } on)
        {
            Tell(
                "calibration.on",
                Texts.Get("tool.calibratedOn", on, Calibration.LeastYear, Calibration.MostYear)
            );
        }
        if (tool.Calibration.Months is < 1 or > Calibration.MostMonths)
        {
            Tell(
                "calibration.months",
                Texts.Get("tool.months", tool.Calibration.Months, Calibration.MostMonths)
            );
        }
        if (tool.Calibration.Uses < 1)
        {
            Tell("calibration.uses", Texts.Get("tool.uses", tool.Calibration.Uses));
        }
        if (tool.Calibration.UsesSince < 0)
        {
            Tell("calibration.usesSince", Texts.Get("tool.usesSince", tool.Calibration.UsesSince));
        }
        return problems.ToImmutable();
    }
}
