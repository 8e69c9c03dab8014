using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>
/// The front cage in side view: its outer plate, whose lower edge follows the largest ring at the height of the gear's
/// own position, and the bridge at its tail.
/// </summary>
internal static class FrontCageDrawn
{
    // Height of the plate and radius of the bridge (mm): for the eye only, never dimensioned.
    private const double PlateHeightMm = 16;
    private const double BridgeRadiusMm = 2;
    private const int Steps = 24;

    internal static void Add(Sheet sheet, Mechanism mechanism)
    {
        if (
            mechanism.Spec.FrontDerailleur is not { } front
            || FrontClearances.Of(mechanism.Table)?.Find(mechanism.Result.Gear)?.Own
                is not { HeightMm: { } height }
        )
        {
            return;
        }
        var radius = FrontClearances.LowerEdgeRadiusMm(mechanism.Spec, front);
        var rise = height - front.HeightMm;
        var outer = radius + PlateHeightMm;
        if (Math.Max(Math.Abs(front.RearXMm), Math.Abs(front.FrontXMm)) >= radius)
        {
            // A plate that reaches beyond its own ring has no edge that follows it.
            return;
        }
        var points = new List<(double X, double Y)>();
        for (var i = 0; i <= Steps; i++)
        {
            var x = front.RearXMm + ((front.FrontXMm - front.RearXMm) * i / Steps);
            points.Add((x, Math.Sqrt((radius * radius) - (x * x)) + rise));
        }
        for (var i = Steps; i >= 0; i--)
        {
            var x = front.RearXMm + ((front.FrontXMm - front.RearXMm) * i / Steps);
            points.Add((x, Math.Sqrt((outer * outer) - (x * x)) + rise));
        }
        sheet.Closed([.. points], Stroke.Part);
        if (FrontClearances.BridgeMm(mechanism.Spec, rise) is { } bridge)
        {
            sheet.Circle(new(bridge.X, bridge.Y - BridgeRadiusMm), BridgeRadiusMm, Stroke.Part);
        }
    }
}
