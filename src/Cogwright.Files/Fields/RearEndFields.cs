using System.Collections.Immutable;

namespace Cogwright.Files.Fields;

/// <summary>The part of the field table that is about the suspension of the rear end and the idler.</summary>
internal static class RearEndFields
{
    /// <summary>Most rows of a path; a maker's table has ten to thirty.</summary>
    private const int MostRows = 200;

    internal const string SinglePivot = "single-pivot";
    internal const string FourBar = "four-bar";
    internal const string Path = "path";

    /// <summary>The names of the meanings of travel, in the order of <see cref="Drivetrain.TravelMeaning"/>.</summary>
    internal static ImmutableArray<string> TravelMeanings { get; } =
    ["vertical-at-wheel", "shock-stroke"];

    /// <summary>The names of the moving members, in the order of <see cref="Drivetrain.LinkageMember"/>.</summary>
    internal static ImmutableArray<string> Members { get; } =
    ["lower-link", "upper-link", "coupler"];

    /// <summary>What an idler is mounted on, in the order of <see cref="Drivetrain.IdlerMount"/>.</summary>
    internal static ImmutableArray<string> Mounts { get; } = ["frame", "member"];

    /// <summary>Where the chain runs at the idler: over it, or under it.</summary>
    internal static ImmutableArray<string> Sides { get; } = ["over", "under"];

    private static readonly QuantityShape Length = new(Dimension.Length);
    private static readonly OffsetShape Offset = new();

    private static GroupShape Link { get; } =
        new([Required("frame", Offset), Required("rear", Offset)]);

    private static GroupShape Row { get; } =
        new([
            Required("travel", Length),
            Required("x", Length),
            Required("y", Length),
            Required("rotation", new QuantityShape(Dimension.Angle)),
        ]);

    private static GroupShape Shock { get; } =
        new([
            Required("frame", Offset),
            Required("member", Offset),
            Optional("on", new ChoiceShape(() => Members)),
        ]);

    /// <summary>What <c>frame</c> holds beside the rigid figures.</summary>
    internal static Field Suspension { get; } =
        Optional(
            "suspension",
            new GroupShape([
                Required("kind", new ChoiceShape(() => [SinglePivot, FourBar, Path])),
                Optional("pivot", Offset),
                Optional("lowerLink", Link),
                Optional("upperLink", Link),
                Optional("axleOn", new ChoiceShape(() => [Members[0], Members[2]])),
                Optional("path", new ListShape(Row, MostRows)),
                Required("travel", Length),
                Optional("travelMeans", new ChoiceShape(() => TravelMeanings)),
                Optional("shock", Shock),
                Optional("sag", new QuantityShape(Dimension.Fraction)),
            ])
        );

    /// <summary>What a spec holds beside its other groups.</summary>
    internal static Field Idler { get; } =
        Optional(
            "idler",
            new GroupShape([
                Required("centre", Offset),
                Required("teeth", new CountShape()),
                Optional("on", new ChoiceShape(() => Mounts)),
                Optional("chain", new ChoiceShape(() => Sides)),
                Optional("lateral", Length),
            ])
        );

    private static Field Required(string name, Shape shape) => new(name, shape, Need.Required);

    private static Field Optional(string name, Shape shape) => new(name, shape, Need.Optional);
}
