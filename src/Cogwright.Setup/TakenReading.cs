using Cogwright.Measurement;

namespace Cogwright.Setup;

/// <summary>A reading taken at the bike: what, where, how much, with which uncertainty.</summary>
/// <param name="Quantity">Name of the target or quantity, such as <c>gap</c>.</param>
/// <param name="Gear">The gear it was read in, or null when it has none.</param>
/// <param name="Reading">Value and standard uncertainty, in the unit of the target.</param>
/// <param name="Turned">Turns of the adjuster since the last reading of the same quantity (clockwise positive), or null.</param>
public sealed record TakenReading(
    string Quantity,
    (int RingTeeth, int CogTeeth)? Gear,
    Reading Reading,
    double? Turned = null
);

/// <summary>A trial turn of the body-angle screw: the same gap read before and after.</summary>
/// <param name="Gear">The gear it was read in.</param>
/// <param name="BeforeMm">Gap before (mm, tooth tip to tooth tip).</param>
/// <param name="AfterMm">Gap after (mm, same convention).</param>
/// <param name="Turns">Turns made, clockwise positive.</param>
public sealed record TrialTurn(
    (int RingTeeth, int CogTeeth) Gear,
    double BeforeMm,
    double AfterMm,
    double Turns
);
