namespace Cogwright.Files.Tests;

/// <summary>Figures as a workshop writes them.</summary>
public sealed class FieldTypingTests
{
    [Theory]
    [InlineData("410", "410")]
    [InlineData("410,5", "410.5")]
    [InlineData("16,2 in", "16.2 in")]
    [InlineData("16 1/4 in", "16.25 in")]
    [InlineData("16-1/4\"", "16.25 \"")]
    [InlineData("3/8 in", "0.375 in")]
    [InlineData("-1/2 in", "-0.5 in")]
    [InlineData("−8,5", "-8.5")]
    [InlineData("1.234,5", "1.234,5")]
    [InlineData("1,234.5", "1,234.5")]
    [InlineData("about 41", "about 41")]
    [InlineData("5 lbf·in", "5 lbf·in")]
    [InlineData("1/0 in", "1/0 in")]
    [InlineData("  ", null)]
    public void ToSheet_OfAQuantity_TakesCommaPointAndFraction(string typed, string? held) =>
        Assert.Equal(held, FieldTyping.ToSheet(FieldKind.Quantity, typed));

    [Theory]
    [InlineData("11 12 13 14", "11-12-13-14")]
    [InlineData("11,12,13", "11-12-13")]
    [InlineData("[11, 12, 13]", "11-12-13")]
    [InlineData("11-34", "11-34")]
    [InlineData("11/34", "11-34")]
    [InlineData("16, 19", "[16, 19]")]
    [InlineData("18", "18")]
    [InlineData("11 to 34", "11 to 34")]
    public void ToSheet_OfTeeth_TakesAnySeparatorButNoRange(string typed, string held) =>
        Assert.Equal(held, FieldTyping.ToSheet(FieldKind.Teeth, typed));

    [Theory]
    [InlineData("2,6 2,5 2,5", "[2.6, 2.5, 2.5]")]
    [InlineData("2.6, 2.5, 2.5", "[2.6, 2.5, 2.5]")]
    [InlineData("2.6,2.5,2.5", "[2.6, 2.5, 2.5]")]
    [InlineData("2,6; 2,5", "[2.6, 2.5]")]
    [InlineData("49.9, -, 51", "[49.9, null, 51]")]
    [InlineData("2,6", "[2.6]")]
    public void ToSheet_OfLengths_TellsDecimalCommasFromSeparators(string typed, string held) =>
        Assert.Equal(held, FieldTyping.ToSheet(FieldKind.Lengths, typed));

    [Fact]
    public void Pair_ThereAndBack_IsTheSame()
    {
        var held = FieldTyping.ToPair("-8,5", "-1 1/8 in");
        Assert.Equal("[-8.5, -1.125 in]", held);
        Assert.Equal(("-8.5", "-1.125 in"), FieldTyping.PairOf(held));
        Assert.Null(FieldTyping.ToPair("", " "));
        Assert.Equal(("-8", ""), FieldTyping.PairOf(FieldTyping.ToPair("-8", null)));
    }

    [Theory]
    [InlineData("29.05", false, 29.05)]
    [InlineData("29,05 mm", false, 29.05)]
    [InlineData("1 1/8 in", false, 28.575)]
    [InlineData("1.125", true, 28.575)]
    [InlineData("28.575 mm", true, 28.575)]
    [InlineData("", false, null)]
    [InlineData("29.0.5", false, null)]
    [InlineData("29 kg", false, null)]
    public void LengthMm_OfWhatAGaugeSends_IsMillimetres(string typed, bool inInches, double? mm)
    {
        var read = FieldTyping.LengthMm(typed, inInches);
        Assert.Equal(mm is null, read is null);
        Assert.Equal(mm ?? 0, read ?? 0, 1e-9);
    }

    private static SpecField Field(string path, string? text = null) =>
        SheetFields.Of(SpecSheet.Empty.With(path, text), isWhole: true).Find(path)!;

    [Theory]
    [InlineData("chain.elongation", "0.3", false, "0.3 %")]
    [InlineData("chain.elongation", "0,3 %", false, "0.3 %")]
    [InlineData("frame.suspension.sag", "25", false, "25 %")]
    [InlineData("frame.chainstay", "16.2", true, "16.2 in")]
    [InlineData("frame.chainstay", "16.", true, "16. in")]
    [InlineData("frame.chainstay", "16 1/4", true, "16.25 in")]
    [InlineData("frame.chainstay", "410 mm", true, "410 mm")]
    [InlineData("frame.chainstay", " ", true, null)]
    [InlineData("frame.chainstay", "16.2", false, "16.2")]
    [InlineData("cogs.tipDiameters", "2.6; -; 2,5", true, "[2.6 in, null, 2.5 in]")]
    [InlineData("cogs.tipDiameters", "66 mm; 2.5", true, "[66 mm, 2.5 in]")]
    [InlineData("rings[0].teeth", "50", true, "50")]
    [InlineData("rearDerailleur.bodyAngle", "30", true, "30")]
    public void ToSheet_OfAField_TakesABareNumberInTheUnitBesideIt(
        string path,
        string typed,
        bool inInches,
        string? held
    ) => Assert.Equal(held, FieldTyping.ToSheet(Field(path), typed, inInches));

    [Theory]
    [InlineData("chain.elongation", "0.003", false, "0.3")]
    [InlineData("chain.elongation", "0.3 %", false, "0.3 %")]
    [InlineData("frame.suspension.sag", "0.29", false, "29")]
    [InlineData("frame.chainstay", "410", true, "410 mm")]
    [InlineData("frame.chainstay", "410", false, "410")]
    [InlineData("frame.chainstay", "16.2 in", true, "16.2 in")]
    [InlineData("cogs.tipDiameters", "[66, null, 2.5 in]", true, "66 mm; null; 2.5 in")]
    [InlineData("rings[0].teeth", "50", true, "50")]
    public void Shown_OfAField_IsTrueWithTheUnitBesideIt(
        string path,
        string held,
        bool inInches,
        string shown
    )
    {
        var field = Field(path, held);
        Assert.Equal(shown, FieldTyping.Shown(field, inInches));
    }

    [Theory]
    [InlineData("frame.chainstay", "410")]
    [InlineData("frame.chainstay", "16.2 in")]
    [InlineData("hanger.gaugeRadius", "30 cm")]
    public void Shown_InInchesAndTypedAsItIs_IsTheSameLength(string path, string held)
    {
        var field = Field(path, held);
        var back = FieldTyping.ToSheet(field, FieldTyping.Shown(field, true), true)!;
        Assert.Equal(FieldTyping.LengthMm(held), FieldTyping.LengthMm(back));
    }

    [Fact]
    public void Pair_WithInchMarks_KeepsThem()
    {
        var held = FieldTyping.ToPair("-1/2\"", "-1 1/8\"");
        Assert.Equal(("-0.5 \"", "-1.125 \""), FieldTyping.PairOf(held));
        var spec = SpecSheet.Empty.With("hanger.offset", held);
        Assert.DoesNotContain(
            spec.Check().Problems,
            problem => problem.Field.StartsWith("hanger", StringComparison.Ordinal)
        );
        Assert.Equal(-28.575, FieldTyping.LengthMm(FieldTyping.PairOf(held).Up)!.Value, 1e-9);
    }
}
