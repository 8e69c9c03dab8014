using Cogwright.Files;
using Cogwright.Web.Bikes;
using Cogwright.Web.Specs;

namespace Cogwright.Web.Tests;

/// <summary>Finding one figure among all.</summary>
public sealed class FieldSearchTests
{
    private static readonly SheetFields Fields = SheetFields.Of(
        DemoWorkshop.Sheet("demo-touring-3x9-cable")
    );

    private static List<string> Found(string asked) =>
        [
            .. FieldSearch
                .Find(Fields.Groups, asked)
                .SelectMany(group =>
                    group.Fields.Select(f => f.Path).Concat(group.Lists.Select(list => list.Path))
                ),
        ];

    [Theory]
    [InlineData("slant", "rearDerailleur.slant")]
    [InlineData("HUB", "cogs.hubSpacing")]
    [InlineData("guide teeth", "rearDerailleur.cage.guide.teeth")]
    [InlineData("adjuster", "adjusters")]
    public void Find_AWordOfTheTrade_FindsItsField(string asked, string path) =>
        Assert.Contains(path, Found(asked));

    [Fact]
    public void Find_Nothing_ShowsAll() =>
        Assert.Equal(Fields.Groups, FieldSearch.Find(Fields.Groups, "  "));

    [Fact]
    public void Find_AWordThatNobodyUses_FindsNothing() => Assert.Empty(Found("zebra"));

    [Fact]
    public void Find_TwoWords_AsksForBoth() =>
        Assert.DoesNotContain("cogs.hubSpacing", Found("hub slant"));
}
