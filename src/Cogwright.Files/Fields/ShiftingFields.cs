using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Files.Fields;

/// <summary>The fields of the hanger's metal, of what shifts the rear derailleur, and of its adjusters.</summary>
internal static class ShiftingFields
{
    internal const string Inboard = "inboard";
    internal const string Outboard = "outboard";

    private static readonly TextShape Text = new();
    private static readonly CountShape Count = new();
    private static readonly QuantityShape Length = new(Dimension.Length);
    private static readonly QuantityShape Turns = new(Dimension.Turns);

    /// <summary>The names of the materials.</summary>
    internal static ImmutableArray<(HangerMaterial Material, string Name)> Materials { get; } =
    [
        (HangerMaterial.Aluminium, "aluminium"),
        (HangerMaterial.Steel, "steel"),
        (HangerMaterial.Titanium, "titanium"),
    ];

    /// <summary>The names of what an adjuster of the list moves; the body-angle screw has its own place.</summary>
    internal static ImmutableArray<(Moves Moves, string Name)> Moved { get; } =
    [
        (Moves.RearOutboardStop, "rear-outboard-stop"),
        (Moves.RearInboardStop, "rear-inboard-stop"),
        (Moves.CableLength, "cable-length"),
        (Moves.OffsetStep, "offset-step"),
        (Moves.FrontOutboardStop, "front-outboard-stop"),
        (Moves.FrontInboardStop, "front-inboard-stop"),
        (Moves.FrontHeight, "front-height"),
        (Moves.FrontCableLength, "front-cable-length"),
        (Moves.FrontSupport, "front-support"),
    ];

    /// <summary>What the hanger has beside its offset.</summary>
    internal static ImmutableArray<Field> Hanger { get; } =
    [
        Optional("material", new ChoiceShape(() => [.. Materials.Select(m => m.Name)])),
        Optional("bends", Count),
        Optional("gaugeRadius", Length),
    ];

    /// <summary>What the guide pulley has beside what both pulleys have.</summary>
    internal static ImmutableArray<Field> Guide { get; } = [Optional("float", Length)];

    internal static GroupShape Shifting { get; } =
        new([
            Optional("pull", new LengthsShape(MayMiss: false)),
            Optional("shiftRatio", new NumberShape()),
            Optional("positions", new LengthsShape(MayMiss: false)),
            Optional("offsetStep", Length),
            Optional("stepsLeftOutboard", Count),
            Optional("stepsLeftInboard", Count),
        ]);

    internal static GroupShape Adjuster { get; } =
        new([
            new("name", Text, Need.Required),
            new("moves", new ChoiceShape(() => [.. Moved.Select(m => m.Name)]), Need.Required),
            Optional("tool", Text),
            Optional("threadPitch", Length),
            Optional("leverRadius", Length),
            Optional("mmPerTurn", Length),
            Optional("clicksPerTurn", Count),
            Optional("turnsLeftIn", Turns),
            Optional("turnsLeftOut", Turns),
            Optional("clockwise", new ChoiceShape(() => [Inboard, Outboard])),
            Optional("leastTurn", Turns),
        ]);

    private static Field Optional(string name, Shape shape) => new(name, shape, Need.Optional);
}
