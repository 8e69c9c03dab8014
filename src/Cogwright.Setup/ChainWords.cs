using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>The chain choice in sentences.</summary>
public static class ChainWords
{
    /// <summary>The number to cut in words, or why there is none.</summary>
    internal static string Headline(ChainFacts chain) =>
        chain.Pitches is { } pitches ? Length(pitches) : Texts.Get("chain.none");

    /// <summary>A length in words: never bare "links".</summary>
    internal static string Length(int pitches) =>
        Texts.Get("chain.length", pitches, Links(pitches));

    /// <summary>The links that a length (pitches) consists of: as many inner as outer ones, and a half link when it is odd.</summary>
    public static string Links(int pitches) =>
        Texts.Get(pitches % 2 == 0 ? "chain.even" : "chain.odd", pitches / 2);

    /// <summary>How near the bench rule is to another number.</summary>
    internal static string RoundingEdge(ChainFacts chain) =>
        Texts.Get(
            chain.RoundingEdgeIsBelow ? "chain.edgeBelow" : "chain.edgeAbove",
            chain.DirectPath,
            chain.BenchRule,
            chain.RoundingEdge,
            chain.RoundingEdgeIsBelow ? chain.BenchRule - 2 : chain.BenchRule + 2
        );

    /// <summary>The same on one line of paper; how far the direct path may be from the edge.</summary>
    private static string EdgeInShort(ChainFacts chain) =>
        Texts.Get(
            chain.RoundingEdgeIsBelow ? "chain.edgeBelow.short" : "chain.edgeAbove.short",
            chain.BenchRule,
            chain.RoundingEdge,
            chain.RoundingEdgeIsBelow ? chain.BenchRule - 2 : chain.BenchRule + 2
        );

    /// <summary>The box on paper.</summary>
    internal static ChainBox Box(QuantityCatalogue catalogue) =>
        new()
        {
            Pitches = catalogue.Chain.Pitches,
            InnerLinks = catalogue.Chain.Pitches / 2,
            OuterLinks = catalogue.Chain.Pitches / 2,
            DirectPathPitches = catalogue.Chain.DirectPath,
            Headline = Headline(catalogue.Chain),
            EdgeInShort = EdgeInShort(catalogue.Chain),
            Lines = [.. Lines(catalogue)],
        };

    private static IEnumerable<string> Lines(QuantityCatalogue catalogue)
    {
        var chain = catalogue.Chain;
        if (chain.StatedBySpec && chain.Recommended is { } better && better != chain.Pitches)
        {
            yield return Texts.Get("chain.specDiffers", chain.Pitches, better);
        }
        foreach (var reason in chain.Reasons)
        {
            yield return reason;
        }
    }
}
