using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Targets;

/// <summary>
/// The trade's gap where the spec gives none. All values are common practice, tooth tip to tooth tip with the chain on
/// the largest cog; makers differ, so the part's own value wins.
/// </summary>
/// <param name="LowerMm">Least gap (mm).</param>
/// <param name="UpperMm">Greatest gap (mm).</param>
/// <param name="TextKey">The key of the sentence that says whose practice it is.</param>
/// <param name="WithoutSag">Whether the practice reads it with a suspended rear end fully extended, and not at sag.</param>
internal sealed record GapPractice(
    double LowerMm,
    double UpperMm,
    string TextKey,
    bool WithoutSag = false
)
{
    /// <summary>Least number of cogs of the newer road practice.</summary>
    private const int LeastCogsOfRoad = 10;

    /// <summary>Largest cog of the newer road practice (teeth).</summary>
    private const int LargestRoadCog = 36;

    /// <summary>Largest cog of the generic practice (teeth).</summary>
    private const int LargestGenericCog = 34;

    /// <summary>Largest cog before a cassette counts as wide (teeth).</summary>
    private const int LargestMediumCog = 44;

    /// <summary>Several rings, ten cogs or more up to 36 teeth: 6 to 8 mm.</summary>
    internal static readonly GapPractice Road = new(6, 8, "gap.road");

    /// <summary>Up to 34 teeth: 4 to 6 mm; one guide says 5 to 6.</summary>
    internal static readonly GapPractice Generic = new(4, 6, "gap.generic");

    /// <summary>Up to 44 teeth: some say 5 to 10 mm.</summary>
    internal static readonly GapPractice Medium = new(5, 10, "gap.medium");

    /// <summary>Wider: about 11 mm measured by hand without sag in one family; no number in another.</summary>
    internal static readonly GapPractice Wide = new(10, 12, "gap.wide", WithoutSag: true);

    /// <summary>The practice for a bike.</summary>
    internal static GapPractice For(QuantityCatalogue catalogue) =>
        catalogue switch
        {
            { Rings.Length: > 1, Cogs.Length: >= LeastCogsOfRoad, LargestCog: <= LargestRoadCog } =>
                Road,
            { LargestCog: <= LargestGenericCog } => Generic,
            { LargestCog: <= LargestMediumCog } => Medium,
            _ => Wide,
        };
}
