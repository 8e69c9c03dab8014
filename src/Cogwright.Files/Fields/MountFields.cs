using System.Collections.Immutable;

namespace Cogwright.Files.Fields;

/// <summary>The fields of a derailleur that sits on the axle, and of one whose springs pull inboard.</summary>
internal static class MountFields
{
    private static readonly CountShape Count = new();
    private static readonly QuantityShape Angle = new(Dimension.Angle);

    /// <summary>What the rear derailleur has for them.</summary>
    internal static ImmutableArray<Field> OfDerailleur { get; } =
    [
        new(
            "coaxial",
            new GroupShape([
                new("setUpCog", Count, Need.Required),
                new("setUpRing", Count, Need.Optional),
                new("cageAtSetUp", Angle, Need.Required),
                new("bodyLeast", Angle, Need.Optional),
                new("bodyMost", Angle, Need.Optional),
            ]),
            Need.Optional
        ),
        new("restsInboard", new FlagShape(), Need.Optional),
    ];
}
