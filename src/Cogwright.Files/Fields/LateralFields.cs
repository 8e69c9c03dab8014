using System.Collections.Immutable;

namespace Cogwright.Files.Fields;

/// <summary>The fields of a spec that say what lies where sideways. All may be left out.</summary>
internal static class LateralFields
{
    private static readonly QuantityShape Length = new(Dimension.Length);

    /// <summary>Into <c>frame</c>.</summary>
    internal static Field DropoutFace { get; } = Of("dropoutFace");

    /// <summary>Into <c>chain</c>.</summary>
    internal static Field ChainWidth { get; } = Of("width");

    /// <summary>Into <c>cogs</c>, after the hub spacing.</summary>
    internal static ImmutableArray<Field> Cassette { get; } =
    [Of("recess"), Of("locknutGap"), Of("thickness"), Of("stackWidth"), Of("chainline")];

    /// <summary>Into <c>rearDerailleur</c>, after the stops as angles.</summary>
    internal static ImmutableArray<Field> Stops { get; } =
    [
        Of("outboardStopLateral"),
        Of("outboardStopOvershoot"),
        Of("inboardStopLateral"),
        Of("inboardStopOvershoot"),
    ];

    /// <summary>Into <c>rearDerailleur.cage</c>.</summary>
    internal static ImmutableArray<Field> CageFace { get; } = [Of("innerFace"), Of("reach")];

    /// <summary>The groups <c>crank</c> and <c>wheel</c>.</summary>
    internal static ImmutableArray<Field> Groups { get; } =
    [
        Group("crank", Of("chainline"), Of("ringSpacing"), Of("ringThickness")),
        Group(
            "wheel",
            Of("flangeLateral"),
            Of("flangeRadius"),
            Of("rimLateral"),
            Of("rimRadius"),
            Of("spokeThickness"),
            Of("cageToSpokes"),
            Of("cogToSpokes")
        ),
    ];

    private static Field Of(string name) => new(name, Length, Need.Optional);

    private static Field Group(string name, params ImmutableArray<Field> fields) =>
        new(name, new GroupShape(fields), Need.Optional);
}
