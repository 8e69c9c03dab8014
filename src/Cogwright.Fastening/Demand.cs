namespace Cogwright.Fastening;

/// <summary>What this room asks of the numbers it is given.</summary>
internal static class Demand
{
    /// <summary>Greatest torque that a bicycle's fastener or a shop's hand tool has (N·m); beyond it a unit was mistaken.</summary>
    internal const double MostTorqueNm = TorqueRange.GreatestNm;

    /// <summary>Refuses a torque that is not above 0 and at most <see cref="MostTorqueNm"/>; not a number is refused too.</summary>
    internal static double Torque(double valueNm, string parameter) =>
        valueNm is > 0 and <= MostTorqueNm
            ? valueNm
            : throw new ArgumentException(
                Texts.Get("demand.torque", valueNm, MostTorqueNm),
                parameter
            );

    /// <summary>Refuses a length (mm) outside its range, limits included; not a number is refused too.</summary>
    internal static double Length(
        double valueMm,
        double leastMm,
        double mostMm,
        string parameter
    ) =>
        valueMm >= leastMm && valueMm <= mostMm
            ? valueMm
            : throw new ArgumentException(
                Texts.Get("demand.length", valueMm, leastMm, mostMm),
                parameter
            );

    /// <summary>Refuses a value outside its range, limits included; not a number is refused too.</summary>
    internal static double Range(double value, double least, double most, string parameter) =>
        value >= least && value <= most
            ? value
            : throw new ArgumentException(Texts.Get("demand.range", value, least, most), parameter);
}
