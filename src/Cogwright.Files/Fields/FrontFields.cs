using Cogwright.Files.Classes;

namespace Cogwright.Files.Fields;

/// <summary>The fields of the front derailleur.</summary>
internal static class FrontFields
{
    private static readonly CountShape Count = new();
    private static readonly QuantityShape Length = new(Dimension.Length);
    private static readonly QuantityShape Angle = new(Dimension.Angle);

    private static GroupShape Plate { get; } =
        new([
            OrClass("faceRear", Length),
            OrClass("faceFront", Length),
            OrClass("thickness", Length),
        ]);

    private static GroupShape Range { get; } =
        new([Required("lower", Length), Required("upper", Length)]);

    internal static GroupShape FrontDerailleur { get; } =
        new([
            Optional("class", new ChoiceShape(() => ClassLibrary.Names(ClassKind.FrontDerailleur))),
            OrClass("xRear", Length),
            OrClass("xFront", Length),
            OrClass("innerPlate", Plate),
            OrClass("outerPlate", Plate),
            OrClass("linkLength", Length),
            OrClass("linkAngle", Angle),
            OrClass("height", Length),
            Optional("bridgeBelow", Length),
            Optional("outboardStop", Length),
            Optional("inboardStop", Length),
            Optional(
                "positions",
                new ListShape(
                    new GroupShape([Required("ring", Count), Required("lateral", Length)]),
                    20
                )
            ),
            Optional(
                "trims",
                new ListShape(new GroupShape([Required("ring", Count), Required("by", Length)]), 20)
            ),
            Optional("cableRatio", new NumberShape()),
            Optional(
                "wanted",
                new GroupShape([
                    Optional("outerGap", Range),
                    Optional("innerGap", Range),
                    Optional("height", Range),
                ])
            ),
        ]);

    private static Field Required(string name, Shape shape) => new(name, shape, Need.Required);

    private static Field Optional(string name, Shape shape) => new(name, shape, Need.Optional);

    private static Field OrClass(string name, Shape shape) => new(name, shape, Need.OrClass);
}
