using Cogwright.Fastening;

namespace Cogwright.Files.Fields;

/// <summary>The table of all fields of a file of torque tools, used as <see cref="SpecFields"/> is.</summary>
internal static class TorqueToolFields
{
    /// <summary>Most tools that one shop lists.</summary>
    internal const int MostTools = 200;

    private static readonly QuantityShape Torque = new(Dimension.Torque);
    private static readonly CountShape Count = new();

    private static GroupShape Calibration { get; } =
        new([
            new("on", new DateShape(), Need.Required),
            new("months", Count, Need.Optional),
            new("uses", Count, Need.Optional),
            new("usesSince", Count, Need.Optional),
        ]);

    private static GroupShape Tool { get; } =
        new([
            new("name", new TextShape(80), Need.Required),
            new(
                "class",
                new ChoiceShape(() => [.. ToolClass.All.Select(each => each.Id)]),
                Need.Required
            ),
            new(
                "unit",
                new ChoiceShape(() => [.. TorqueUnit.All.Select(each => each.Symbol)]),
                Need.Optional
            ),
            new("min", Torque, Need.Optional),
            new("max", Torque, Need.Required),
            new("graduation", Torque, Need.Optional),
            new("arm", new QuantityShape(Dimension.Length), Need.Optional),
            new("bothWays", new FlagShape(), Need.Optional),
            new("deviation", new QuantityShape(Dimension.Fraction), Need.Optional),
            new("calibration", Calibration, Need.Optional),
        ]);

    /// <summary>The whole file.</summary>
    internal static GroupShape Tools { get; } =
        new([
            new("format", new NumberChoiceShape([SpecFields.Format]), Need.Optional),
            new("torqueTools", new ListShape(Tool, MostTools), Need.Required),
        ]);
}
