using Cogwright.Files;
using Cogwright.Web.Specs;

namespace Cogwright.Web.Tests;

/// <summary>The sentences of the list of changes.</summary>
public sealed class ChangeWordsTests
{
    private static readonly SpecSheet Sheet = SpecSheet
        .Empty.With("frame.chainstay", "410")
        .With("rings[0].teeth", "50")
        .With("rings[1].teeth", "34")
        .With("hanger.offset", "[-8, -28]")
        .With("work.assisted", "true");

    private static SpecField Field(string path) => SheetFields.Of(Sheet, isWhole: true).Find(path)!;

    [Theory]
    [InlineData("frame.chainstay", "412.5", "Chainstay length: 412.5 mm instead of 410 mm")]
    [InlineData("frame.chainstay", "16.25 in", "Chainstay length: 16.25 in instead of 410 mm")]
    [InlineData("frame.chainstay", null, "Chainstay length left out, was 410 mm")]
    [InlineData("frame.bbDrop", "70", "Bottom-bracket drop: 70 mm")]
    [InlineData("rings[1].teeth", "36", "Ring 2: teeth: 36 instead of 34")]
    [InlineData("work.assisted", "false", "Has a motor that assists: no instead of yes")]
    [InlineData("work.actuation", "motor-wireless", "Shifted by: motor wireless")]
    [InlineData(
        "hanger.offset",
        "[-9, -28]",
        "Axle to hanger bolt: forward -9, up -28 instead of forward -8, up -28"
    )]
    public void Of_AField_SaysWhatChangedWithItsUnit(string path, string? text, string said) =>
        Assert.Equal(said, ChangeWords.Of(Field(path), text));

    [Fact]
    public void Removed_AnEntry_SaysWhatStoodInIt()
    {
        var rings = SheetFields
            .Of(Sheet)
            .Groups.SelectMany(group => group.Lists)
            .Single(list => list.Path == "rings");
        Assert.Equal("Ring 2 taken out: 34", ChangeWords.Removed(rings, 1));
    }
}
