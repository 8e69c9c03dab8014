using Cogwright.Drivetrain;
using Cogwright.Gearing;

namespace Cogwright.Files;

/// <summary>The gears of a spec as the rider has them.</summary>
public static class SpecGears
{
    /// <summary>The rings and cogs, with where they stand sideways (mm) and which gears are not used.</summary>
    /// <param name="spec">The mechanism that a spec says.</param>
    /// <exception cref="ImpossibleInputException">There are more rings than a bike has, or teeth out of range.</exception>
    public static GearSet Of(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var rings = spec.Rings.OrderBy(ring => ring.Teeth).ToList();
        return new(
            spec.Name,
            rings.Select(ring => ring.Teeth),
            spec.Cogs.Teeth,
            spec.GearsNotUsed.Select(gear => new GearTeeth(gear.RingTeeth, gear.CogTeeth)),
            new(
                [.. rings.Select(ring => ring.LateralMm)],
                [.. Enumerable.Range(0, spec.Cogs.Teeth.Length).Select(spec.Cogs.LateralMm)],
                spec.Frame.ChainstayMm
            )
        );
    }
}
