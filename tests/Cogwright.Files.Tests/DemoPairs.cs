namespace Cogwright.Files.Tests;

/// <summary>Which demo procedure is for which demo bikes.</summary>
internal static class DemoPairs
{
    /// <summary>Every procedure with the demo bikes that it is for.</summary>
    internal static IReadOnlyDictionary<string, string[]> Bikes { get; } =
        new Dictionary<string, string[]>
        {
            ["cable-3x9-set-up"] = ["touring-3x9-cable"],
            ["chain-replacement"] =
            [
                "full-suspension-1x12",
                "gravel-1x13",
                "high-pivot-idler-1x12",
                "road-2x12-wireless",
                "touring-3x9-cable",
                "trail-1x12",
            ],
            ["full-suspension-1x12-set-up"] = ["full-suspension-1x12", "high-pivot-idler-1x12"],
            ["hanger-alignment"] =
            [
                "full-suspension-1x12",
                "gravel-1x13",
                "high-pivot-idler-1x12",
                "road-2x12-wireless",
                "touring-3x9-cable",
                "trail-1x12",
            ],
            ["torque-walk-round-cable-front"] = ["touring-3x9-cable"],
            ["torque-walk-round-cable-one-ring"] = ["commuter-1x8-rests-inboard", "gravel-1x13"],
            ["torque-walk-round-motor-front"] = ["road-2x12-wireless"],
            ["torque-walk-round-motor-one-ring"] =
            [
                "full-suspension-1x12",
                "high-pivot-idler-1x12",
                "trail-1x12",
            ],
            ["wheel-swap-cable"] = ["gravel-1x13", "touring-3x9-cable"],
            ["wheel-swap-motor"] = ["road-2x12-wireless", "trail-1x12"],
            ["wireless-2x12-installation"] = ["road-2x12-wireless"],
        };
}
