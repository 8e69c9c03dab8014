using Cogwright.Parts.Rules;
using static Cogwright.Parts.Tests.Invented;

namespace Cogwright.Parts.Tests;

/// <summary>The rules beside figures that workshops have published.</summary>
public sealed class PublishedFigureTests
{
    /// <summary>
    /// Source: workshop tables of cable pull, shift ratio and cog distance by family (common practice; the pull and the
    /// ratio of the one-to-one family and of the mountain families are from memory). Pull × ratio must give the distance
    /// closely enough that the family shifts over its whole cassette; the table rounds the pull to 0.1 mm, which over many
    /// clicks can ask for a guide pulley with play.
    /// </summary>
    [Theory]
    [InlineData(7, 2.9, 1.7, 5.0)]
    [InlineData(8, 2.8, 1.7, 4.8)]
    [InlineData(9, 2.55, 1.7, 4.34)]
    [InlineData(10, 2.3, 1.7, 3.95)]
    [InlineData(11, 2.7, 1.38, 3.72)]
    [InlineData(9, 3.95, 1.1, 4.34)]
    [InlineData(8, 4.3, 1.12, 4.8)]
    [InlineData(10, 3.4, 1.16, 3.95)]
    [InlineData(11, 3.6, 1.03, 3.72)]
    public void Index_FamilyOfOneTable_ShiftsOverTheWholeCassette(
        int cogs,
        double pull,
        double ratio,
        double spacing
    ) => Assert.NotEqual(Compatibility.No, Family(cogs, pull, ratio, spacing).Answer);

    /// <summary>Source: the usual wrong mixtures (common practice): a road shifter with a mountain rear derailleur.</summary>
    [Theory]
    [InlineData(11, 2.7, 1.1, 3.72)]
    [InlineData(10, 2.3, 1.16, 3.95)]
    [InlineData(9, 2.55, 1.1, 4.34)]
    public void Index_FamiliesMixed_DoesNotShift(
        int cogs,
        double pull,
        double ratio,
        double spacing
    )
    {
        var answer = Family(cogs, pull, ratio, spacing);

        Assert.Equal(Compatibility.No, answer.Answer);
        Assert.True(answer.Reserve < 0);
    }

    /// <summary>
    /// Source: pulls measured click by click and published: 3.0, then six of 2.5, then two of 3.5 mm (common practice). One
    /// mean for all clicks hides that a shifter is not even.
    /// </summary>
    [Fact]
    public void Index_PullsMeasuredClickByClick_CountsThemAsTheyAre()
    {
        var uneven = new[] { 3.0, 2.5, 2.5, 2.5, 2.5, 2.5, 2.5, 3.5, 3.5 };
        var even = Enumerable.Repeat(uneven.Average(), uneven.Length).ToArray();
        var spacing = uneven.Average() * 1.5;

        Assert.Equal(Compatibility.No, Family(10, uneven, 1.5, spacing).Answer);
        Assert.Equal(Compatibility.Yes, Family(10, even, 1.5, spacing).Answer);
    }

    /// <summary>
    /// Source: rear chainlines derived from the published workshop method for a gap of 2.8 mm, by hub spacing and width of
    /// the cogs; a published hand measurement of a 130 mm hub with 10 cogs gives 43.4 mm (cogs at 61.2 to 25.65).
    /// </summary>
    [Theory]
    [InlineData(130, 9, 36.5, 44.0)]
    [InlineData(130, 10, 37.2, 43.6)]
    [InlineData(130, 11, 39.0, 42.7)]
    [InlineData(135, 9, 36.5, 46.5)]
    [InlineData(142, 11, 39.0, 45.2)]
    [InlineData(142, 12, 41.3, 44.1)]
    [InlineData(148, 12, 41.3, 47.1)]
    [InlineData(148, 10, 37.2, 49.1)]
    public void RearChainline_HubAndStack_AsPublished(
        double hub,
        int cogs,
        double stack,
        double expectedMm
    )
    {
        var cassette = Of(PartKind.Cassette, "c")
            .With(PartFields.Teeth, Numbers([.. Enumerable.Range(11, cogs).Select(z => (double)z)]))
            .With(PartFields.StackWidth, Number(stack));

        var rear = ChainlineRule.RearMm(
            Of(PartKind.RearWheel, "w").With(PartFields.HubSpacing, Number(hub)),
            cassette
        );

        // The table is rounded to 0.1 mm.
        Assert.Equal(expectedMm, rear!.Value, 0.06);
    }

    [Fact]
    public void RearChainline_HandMeasured_Within03Mm()
    {
        var cassette = Of(PartKind.Cassette, "c")
            .With(PartFields.Teeth, Numbers(11, 12, 13, 14, 15, 17, 19, 21, 23, 25))
            .With(PartFields.Spacing, Number(3.95));
        var wheel = Of(PartKind.RearWheel, "w").With(PartFields.HubSpacing, Number(130));

        Assert.Equal(43.4, ChainlineRule.RearMm(wheel, cassette)!.Value, 0.3);
    }

    /// <summary>Source: (large ring − small ring) + (large cog − small cog), common practice.</summary>
    [Theory]
    [InlineData(50, 34, 11, 34, 39)]
    [InlineData(52, 36, 11, 28, 33)]
    [InlineData(48, 26, 11, 36, 47)]
    [InlineData(32, 32, 10, 51, 41)]
    public void Capacity_RingsAndCogs_SumOfTheDifferences(
        int large,
        int small,
        int smallestCog,
        int largestCog,
        int asked
    )
    {
        var build = new Build(
            Rings.With(PartFields.Teeth, Numbers(small, large)),
            Cassette.With(PartFields.Teeth, Numbers(smallestCog, largestCog)),
            Derailleur.With(PartFields.Capacity, Number(asked))
        );

        Assert.Equal(Compatibility.Yes, build.Asked("capacity").Answer);
        Assert.Equal(0, build.Asked("capacity").Reserve!.Value, 1e-12);
        Assert.Equal(
            Compatibility.No,
            build
                .With(Derailleur.With(PartFields.Capacity, Number(asked - 1)))
                .Asked("capacity")
                .Answer
        );
    }

    private static RuleAnswer Family(int cogs, double pull, double ratio, double spacing) =>
        Family(cogs, [.. Same(pull, cogs - 1)], ratio, spacing);

    private static RuleAnswer Family(int cogs, double[] pull, double ratio, double spacing) =>
        new Build(
            Shifter.With(PartFields.Pull, Numbers(pull)).With(PartFields.Speeds, Number(cogs)),
            Derailleur.With(PartFields.ShiftRatio, Number(ratio)),
            Cassette
                .With(
                    PartFields.Teeth,
                    Numbers([.. Enumerable.Range(11, cogs).Select(z => (double)z)])
                )
                .With(PartFields.Spacing, Number(spacing))
        ).Asked("index");
}
