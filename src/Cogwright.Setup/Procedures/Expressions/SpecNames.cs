using System.Collections.Immutable;

namespace Cogwright.Setup.Procedures.Expressions;

/// <summary>A quantity of a spec that an expression may name. Immutable.</summary>
/// <param name="Name">Its name, such as <c>largestCog</c>.</param>
/// <param name="Dimension">Its unit.</param>
public sealed record SpecName(string Name, UnitDimension Dimension);

/// <summary>Where an expression's named quantities come from.</summary>
public interface ISpecQuantities
{
    /// <summary>The value of one of <see cref="SpecNames"/> in its unit, or null when the bike has none.</summary>
    double? Find(string name);
}

/// <summary>The closed list of what an expression may name. Names are stable: files use them.</summary>
public static class SpecNames
{
    /// <summary>Ending of the least torque of a fastener, such as <c>rearMount.least</c>.</summary>
    public const string Least = ".least";

    /// <summary>Ending of the greatest torque of a fastener.</summary>
    public const string Most = ".most";

    /// <summary>The names that stand for the bike itself.</summary>
    public static ImmutableArray<SpecName> OfBike { get; } =
    [
        new("largestRing", UnitDimension.OfTeeth),
        new("smallestRing", UnitDimension.OfTeeth),
        new("largestCog", UnitDimension.OfTeeth),
        new("smallestCog", UnitDimension.OfTeeth),
        new("ringCount", UnitDimension.Plain),
        new("cogCount", UnitDimension.Plain),
        new("cogSpacing", UnitDimension.OfLength),
        new("chainPitches", UnitDimension.OfPitches),
        new("directPath", UnitDimension.OfPitches),
        new("gapTarget", UnitDimension.OfLength),
        new("gapLeast", UnitDimension.OfLength),
        new("gapMost", UnitDimension.OfLength),
        new("gapRing", UnitDimension.OfTeeth),
        new("gapCog", UnitDimension.OfTeeth),
        new("hangerMost", UnitDimension.OfLength),
        new("frontHeightLeast", UnitDimension.OfLength),
        new("frontHeightMost", UnitDimension.OfLength),
        new("frontInnerGapLeast", UnitDimension.OfLength),
        new("frontInnerGapMost", UnitDimension.OfLength),
        new("frontOuterGapLeast", UnitDimension.OfLength),
        new("frontOuterGapMost", UnitDimension.OfLength),
        new("sag", UnitDimension.Plain),
        new("sagTravel", UnitDimension.OfLength),
    ];

    /// <summary>Those of the bike and two for every fastener.</summary>
    public static ImmutableArray<SpecName> All { get; } =
    [
        .. OfBike,
        .. Fasteners.All.SelectMany(fastener =>
            new SpecName[]
            {
                new(fastener + Least, UnitDimension.OfTorque),
                new(fastener + Most, UnitDimension.OfTorque),
            }
        ),
    ];

    /// <summary>Those of the bike, for a message.</summary>
    internal static string Listed { get; } = string.Join(", ", OfBike.Select(name => name.Name));

    /// <summary>The quantity of that name, or null.</summary>
    public static SpecName? Find(string name) => All.FirstOrDefault(known => known.Name == name);
}
