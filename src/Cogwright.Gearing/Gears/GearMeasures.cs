namespace Cogwright.Gearing;

/// <summary>
/// The measures of a gear. Source: their definitions (common practice): development is what the bike covers in one turn of the
/// cranks, gear inches the diameter of the wheel that would do the same without gears, gain the bike's way over the pedal's.
/// </summary>
public static class GearMeasures
{
    /// <summary>Millimetres in an inch, exactly.</summary>
    public const double MmPerInch = 25.4;

    /// <summary>Most turns of the cranks in a minute that are reckoned with (rpm).</summary>
    public const double MostRpm = 300;

    /// <summary>Fastest speed that is reckoned with (m/s).</summary>
    public const double MostMs = 60;

    /// <summary>Shortest crank (mm).</summary>
    public const double LeastCrankMm = 50;

    /// <summary>Longest crank (mm).</summary>
    public const double MostCrankMm = 300;

    /// <summary>Development (m per turn of the cranks): the wheel's circumference times the ratio.</summary>
    /// <param name="ratio">Turns of the wheel per turn of the cranks, greater than 0.</param>
    /// <param name="circumferenceM">Circumference of the wheel under load (m, greater than 0).</param>
    /// <exception cref="ImpossibleInputException">A number is not greater than 0.</exception>
    public static double DevelopmentM(double ratio, double circumferenceM)
    {
        Demand.Positive(ratio, "ratio", "measure.ratio");
        Demand.Positive(circumferenceM, "tyre", "measure.development");
        return ratio * circumferenceM;
    }

    /// <summary>
    /// Gear inches (in): the wheel's diameter times the ratio. It is a diameter and no distance: one turn of the cranks covers
    /// π times as much.
    /// </summary>
    /// <param name="ratio">Turns of the wheel per turn of the cranks, greater than 0.</param>
    /// <param name="diameterM">Diameter of the wheel (m, greater than 0): circumference/π under load.</param>
    /// <exception cref="ImpossibleInputException">A number is not greater than 0.</exception>
    public static double GearInches(double ratio, double diameterM) =>
        DevelopmentM(ratio, diameterM) * 1000 / MmPerInch;

    /// <summary>Gain: the bike's way over the pedal's, wheel radius × ratio / crank length; a plain number.</summary>
    /// <param name="ratio">Turns of the wheel per turn of the cranks, greater than 0.</param>
    /// <param name="circumferenceM">Circumference of the wheel (m, greater than 0).</param>
    /// <param name="crankMm">Length of the crank, axle to pedal axle (mm, 50 to 300).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static double Gain(double ratio, double circumferenceM, double crankMm)
    {
        Demand.Between(crankMm, LeastCrankMm, MostCrankMm, "crank", "crank.length");
        return DevelopmentM(ratio, circumferenceM) / (2 * Math.PI * crankMm / 1000);
    }

    /// <summary>Speed (m/s) at a cadence.</summary>
    /// <param name="developmentM">Development of the gear (m, greater than 0).</param>
    /// <param name="rpm">Cadence (turns of the cranks a minute, 0 to 300).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static double SpeedMs(double developmentM, double rpm)
    {
        Demand.Positive(developmentM, "development", "measure.development");
        Demand.Between(rpm, 0, MostRpm, "cadence", "measure.cadence");
        return developmentM * rpm / 60;
    }

    /// <summary>Cadence (rpm) at a speed.</summary>
    /// <param name="developmentM">Development of the gear (m, greater than 0).</param>
    /// <param name="speedMs">Speed (m/s, 0 to 60).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static double CadenceRpm(double developmentM, double speedMs)
    {
        Demand.Positive(developmentM, "development", "measure.development");
        Demand.Between(speedMs, 0, MostMs, "speed", "measure.speed");
        return speedMs * 60 / developmentM;
    }
}
