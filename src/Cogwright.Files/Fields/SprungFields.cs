namespace Cogwright.Files.Fields;

/// <summary>The part of the field table that is about a spring at the hanger bolt and a damper about the cage pivot.</summary>
internal static class SprungFields
{
    internal const string On = "on";
    internal const string Off = "off";

    private static readonly QuantityShape Angle = new(Dimension.Angle);
    private static readonly QuantityShape Torque = new(Dimension.Torque);

    /// <summary>What <c>rearDerailleur</c> holds for it.</summary>
    internal static Field Sprung { get; } =
        Optional(
            "sprung",
            new GroupShape([
                Required("rearRest", Angle),
                Required("forwardLimit", Angle),
                Required("preload", Torque),
                Required("rate", new QuantityShape(Dimension.TorqueRate)),
                Optional("torquePerTurn", Torque),
                Optional("anglePerTurn", Angle),
            ])
        );

    /// <summary>What <c>rearDerailleur.cage</c> holds for it.</summary>
    internal static Field Damper { get; } =
        Optional(
            "damper",
            new GroupShape([
                Required("frictionTorque", Torque),
                Optional("state", new ChoiceShape(() => [On, Off])),
            ])
        );

    private static Field Required(string name, Shape shape) => new(name, shape, Need.Required);

    private static Field Optional(string name, Shape shape) => new(name, shape, Need.Optional);
}
