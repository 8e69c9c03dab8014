using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Files.Fields;

/// <summary>The fields under <c>measured</c>: what a caliper read, in place of parameters.</summary>
internal static class MeasuredFields
{
    internal const string Group = "measured";

    /// <summary>Most entries of a list: more cogs, or more gears, than any bike has.</summary>
    private const int MostPositions = 40;
    private const int MostGaps = 400;

    private static readonly QuantityShape Length = new(Dimension.Length);
    private static readonly CountShape Count = new();

    /// <summary>A length alone, or with an uncertainty of its own.</summary>
    private static GroupShape Reading { get; } =
        new(
            [new("value", Length, Need.Required), new("uncertainty", Length, Need.Optional)],
            Short: "value"
        );

    /// <summary>The distances that stand alone, in the order of the file.</summary>
    internal static ImmutableArray<BenchDistance> Single { get; } =
    [
        BenchDistance.AxleToBottomBracket,
        BenchDistance.AxleToHangerBolt,
        BenchDistance.HangerBoltToBottomBracket,
        BenchDistance.AcrossLinkPins,
        BenchDistance.PivotToGuide,
        BenchDistance.PivotToTension,
        BenchDistance.GuideToTension,
        BenchDistance.SmallestCogTip,
        BenchDistance.LargestCogTip,
        BenchDistance.GuideTip,
        BenchDistance.TensionTip,
        BenchDistance.EndCogSpacing,
        BenchDistance.Chainline,
        BenchDistance.TensionToAxleAtRearStop,
        BenchDistance.TensionToAxleAtFrontStop,
    ];

    /// <summary>The distances of a position.</summary>
    internal static ImmutableArray<BenchDistance> Position { get; } =
    [
        BenchDistance.PivotToAxle,
        BenchDistance.PivotToHangerBolt,
        BenchDistance.PivotToBottomBracket,
    ];

    internal static GroupShape Measured { get; } =
        new([
            new("uncertainty", Length, Need.Optional),
            One("axleToBottomBracket"),
            One("axleToHangerBolt"),
            One("hangerBoltToBottomBracket"),
            One("acrossLinkPins"),
            Several("cage", "pivotToGuide", "pivotToTension", "guideToTension"),
            Several("tips", "smallestCog", "largestCog", "guide", "tension"),
            One("endCogSpacing"),
            One("chainline"),
            new(
                "positions",
                new ListShape(
                    new GroupShape([
                        new("cog", Count, Need.Required),
                        One("pivotToAxle"),
                        One("pivotToHangerBolt"),
                        One("pivotToBottomBracket"),
                    ]),
                    MostPositions
                ),
                Need.Optional
            ),
            Several("tensionToAxle", "rearStop", "frontStop"),
            new(
                "afterScrew",
                new GroupShape([
                    new("cog", Count, Need.Required),
                    new("turns", new QuantityShape(Dimension.Turns), Need.Optional),
                    new("pivotToAxle", Reading, Need.Required),
                ]),
                Need.Optional
            ),
            new(
                "gaps",
                new ListShape(
                    new GroupShape([
                        new("ring", Count, Need.Required),
                        new("cog", Count, Need.Required),
                        new("gap", Reading, Need.Required),
                    ]),
                    MostGaps
                ),
                Need.Optional
            ),
        ]);

    /// <summary>All readings share the sentences about value and uncertainty.</summary>
    internal static string AboutKey(string key)
    {
        foreach (var name in (string[])["value", "uncertainty"])
        {
            if (
                key.StartsWith(Group + ".", StringComparison.Ordinal)
                && key.EndsWith("." + name, StringComparison.Ordinal)
                && key != $"{Group}.{name}"
            )
            {
                return $"{Group}.reading.{name}";
            }
        }
        return key;
    }

    private static Field One(string name) => new(name, Reading, Need.Optional);

    private static Field Several(string name, params string[] names) =>
        new(name, new GroupShape([.. names.Select(One)]), Need.Optional);
}
