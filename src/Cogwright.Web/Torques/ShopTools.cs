using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Measurement;

namespace Cogwright.Web.Torques;

/// <summary>The torque tools among the shop's gauges: those whose class and scale somebody has said.</summary>
internal static class ShopTools
{
    /// <summary>The tools in use that can be chosen among.</summary>
    internal static ImmutableArray<TorqueTool> Of(IEnumerable<ShopGauge> gauges) =>
        [
            .. gauges
                .Where(gauge => !gauge.IsRetired)
                .Select(ToolOf)
                .OfType<TorqueTool>()
                .Where(tool => TorqueToolCheck.Problems(tool).IsEmpty),
        ];

    /// <summary>What in a gauge cannot be of a torque tool, as a sentence; null when nothing.</summary>
    internal static string? FaultOf(ShopGauge gauge) =>
        ToolOf(gauge) is not { } tool ? Texts.Get("gauges.noScale")
        : TorqueToolCheck.Problems(tool) is [var problem, ..] ? problem.Message
        : null;

    private static TorqueTool? ToolOf(ShopGauge gauge) =>
        gauge is { Unit: "N·m", Most: { } most } && ToolClass.Find(gauge.ToolClass) is { } kind
            ? new()
            {
                Name = gauge.Name,
                Class = kind,
                MaxNm = most,
                MinNm = gauge.Least,
                GraduationNm = gauge.Resolution,
                ArmMm = gauge.ArmMm,
                CertifiedDeviation =
                    gauge.DeviationPercent > 0 ? gauge.DeviationPercent / 100 : null,
                Calibration = new(
                    gauge.CalibratedOn,
                    gauge.MonthsValid > 0 ? gauge.MonthsValid : Calibration.UsualMonths
                ),
            }
            : null;
}
