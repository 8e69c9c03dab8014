namespace Cogwright.Drivetrain;

/// <summary>A friction damper about the cage pivot: it resists the cage both ways alike (Coulomb). Immutable.</summary>
/// <param name="FrictionTorqueNm">Friction torque when it is on (N·m).</param>
/// <param name="On">Whether it is on.</param>
public sealed record Damper(double FrictionTorqueNm, bool On = true);
