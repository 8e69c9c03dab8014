namespace Cogwright.Gearing.Tests;

/// <summary>Tyres by size and by roll-out.</summary>
public class TyreTests
{
    /// <summary>Source: testdata/published/tyre-roll-out.csv; the same size stands there with several values.</summary>
    public static IEnumerable<TheoryDataRow<double, int, double>> PublishedRollOuts() =>
        Repository
            .Published("tyre-roll-out")
            .Select(row => new TheoryDataRow<double, int, double>(row[0], (int)row[1], row[2]));

    [Theory]
    [MemberData(nameof(PublishedRollOuts))]
    public void Spread_HoldsEveryPublishedRollOut(double widthMm, int seatMm, double rollOutMm)
    {
        var tyre = Tyre.OfSize(widthMm, seatMm);

        Assert.InRange(rollOutMm / 1000, tyre.LeastM, tyre.MostM);
    }

    /// <summary>The spread is that of the tables and not any: without a tenth of it some published value falls out.</summary>
    [Fact]
    public void Spread_IsNotWiderThanTheTablesAsk()
    {
        foreach (var is622 in (ReadOnlySpan<bool>)[true, false])
        {
            var rows = Repository
                .Published("tyre-roll-out")
                .Where(row => (row[1] == 622) == is622)
                .ToList();
            Assert.Contains(
                rows,
                row =>
                {
                    var tyre = Tyre.OfSize(row[0], (int)row[1]);
                    return (row[2] / 1000)
                        < tyre.CircumferenceM - (0.9 * (tyre.CircumferenceM - tyre.LeastM));
                }
            );
            Assert.Contains(
                rows,
                row =>
                {
                    var tyre = Tyre.OfSize(row[0], (int)row[1]);
                    return (row[2] / 1000)
                        > tyre.CircumferenceM + (0.9 * (tyre.MostM - tyre.CircumferenceM));
                }
            );
        }
    }

    /// <summary>Source: π(d + 2w), d and w after ISO 5775; computed apart from the product.</summary>
    [Theory]
    [InlineData("28-622", 2130)]
    [InlineData("25-622", 2111)]
    [InlineData("47-507", 1888)]
    [InlineData("47-305", 1253)]
    public void Size_Iso5775_GivesTheGeometricCircumference(string size, double circumferenceMm) =>
        Assert.Equal(circumferenceMm, Tyre.Parse(size).CircumferenceM * 1000, 0.5);

    [Theory]
    [InlineData("28-622", 28, 622)]
    [InlineData(" 28 – 622 ", 28, 622)]
    [InlineData("700x28C", 28, 622)]
    [InlineData("700x28", 28, 622)]
    [InlineData("650x47b", 47, 584)]
    [InlineData("650x23C", 23, 571)]
    [InlineData("26x2.1", 53.34, 559)]
    [InlineData("27,5x2,4", 60.96, 584)]
    [InlineData("29x2.25", 57.15, 622)]
    public void Size_AsPeopleWriteIt_IsRead(string text, double widthMm, int seatMm)
    {
        var tyre = Tyre.Parse(text);

        Assert.Equal(widthMm, tyre.WidthMm!.Value, 1e-9);
        Assert.Equal(seatMm, tyre.BeadSeatMm);
        Assert.Equal(TyreSource.Size, tyre.Source);
    }

    [Theory]
    [InlineData("2105 mm")]
    [InlineData("2105mm")]
    [InlineData("2105")]
    [InlineData("2,105 m")]
    public void RollOut_IsTakenAsMeasured(string text)
    {
        var tyre = Tyre.Parse(text);

        Assert.Equal(2.105, tyre.CircumferenceM, 1e-12);
        Assert.Equal(TyreSource.RollOut, tyre.Source);
        Assert.True(tyre.MostM - tyre.LeastM < Spread(Tyre.OfSize(25, 622)));
        Assert.True(tyre.IsSeatListed);
    }

    [Theory]
    [InlineData("26x1 3/8", "more than one rim")]
    [InlineData("28x1.75", "more than one rim")]
    [InlineData("650x40", "more than one rim")]
    [InlineData("", "28-622")]
    [InlineData("big", "28-622")]
    [InlineData("622-28", "28-622")]
    [InlineData("5-622", "15 to 150")]
    [InlineData("28-999", "130 to 800")]
    [InlineData("2.1 mm", "500 to 3200")]
    [InlineData("21 m", "500 to 3200")]
    public void Size_ThatIsNone_SaysWhatWasExpected(string text, string expected)
    {
        var refused = Assert.Throws<ImpossibleInputException>(() => Tyre.Parse(text));

        Assert.Equal("tyre", refused.Input);
        Assert.Contains(expected, refused.Message, StringComparison.Ordinal);
    }

    /// <summary>A seat that no table lists is most often a slip: it is used, and told.</summary>
    [Theory]
    [InlineData(622, true)]
    [InlineData(623, false)]
    public void Seat_ThatIsNotUsual_IsTold(int seatMm, bool listed) =>
        Assert.Equal(listed, Tyre.OfSize(28, seatMm).IsSeatListed);

    private static double Spread(Tyre tyre) => tyre.MostM - tyre.LeastM;
}
