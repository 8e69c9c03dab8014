namespace Cogwright.Gearing.Tests;

/// <summary>Sizes of tyres and their circumferences against outside sources.</summary>
public class TyrePublishedTests
{
    /// <summary>
    /// π(d + 2w) to the millimetre, d and w after ISO 5775, computed apart from the product; and how far the printed roll-out
    /// (mm) of a semiconductor maker's sample library and of david-cook.org lies from it (%).
    /// </summary>
    [Theory]
    [InlineData("20-622", 2080, 2086, 0.30)]
    [InlineData("23-622", 2099, 2096, -0.1)]
    [InlineData("23-622", 2099, 2097, -0.1)]
    [InlineData("25-622", 2111, 2105, -0.29)]
    [InlineData("28-622", 2130, 2136, 0.28)]
    [InlineData("32-622", 2155, 2155, -0.01)]
    [InlineData("35-622", 2174, 2168, -0.28)]
    [InlineData("37-622", 2187, 2205, 0.84)]
    [InlineData("38-622", 2193, 2180, -0.59)]
    [InlineData("40-622", 2205, 2224, 0.84)]
    [InlineData("47-622", 2249, 2268, 0.83)]
    [InlineData("50-622", 2268, 2284, 0.70)]
    [InlineData("60-622", 2331, 2340, 0.38)]
    [InlineData("47-559", 2051, 2055, 0.17)]
    [InlineData("50-559", 2070, 2089, 0.90)]
    [InlineData("54-559", 2095, 2114, 0.89)]
    [InlineData("57-559", 2114, 2133, 0.88)]
    [InlineData("40-559", 2007, 2026, 0.9)]
    [InlineData("44-559", 2033, 2051, 0.9)]
    [InlineData("35-590", 2073, 2068, -0.3)]
    [InlineData("37-590", 2086, 2105, 0.9)]
    [InlineData("20-571", 1920, 1954, 1.80)]
    [InlineData("23-571", 1938, 1973, 1.79)]
    [InlineData("25-571", 1951, 1952, 0.05)]
    [InlineData("34-540", 1910, 1948, 2.0)]
    [InlineData("47-507", 1888, 1907, 1.0)]
    [InlineData("50-507", 1907, 1910, 0.2)]
    [InlineData("28-451", 1593, 1618, 1.58)]
    [InlineData("47-406", 1571, 1590, 1.2)]
    [InlineData("50-406", 1590, 1593, 0.2)]
    [InlineData("28-369", 1335, 1325, -0.8)]
    [InlineData("35-349", 1316, 1282, -2.6)]
    [InlineData("47-305", 1253, 1272, 1.48)]
    public void Circumference_OfASize_IsTheGeometricOneAndThePrintedOneLiesAsFarOff(
        string size,
        double geometricMm,
        double printedMm,
        double printedOffPercent
    )
    {
        var tyre = Tyre.Parse(size);
        var mm = tyre.CircumferenceM * 1000;

        Assert.Equal(geometricMm, mm, 0.51);
        Assert.Equal(printedOffPercent, ((printedMm / mm) - 1) * 100, 0.051);
        // Published rolls lie within 1 % of the geometry for 622 mm and within 2.6 % for all others.
        Assert.True(
            Math.Abs((printedMm / mm) - 1) <= (tyre.BeadSeatMm == 622 ? 0.01 : 0.0265),
            size
        );
    }

    /// <summary>
    /// The same size is printed with two roll-outs: such tables are guides ("can vary due to pressure, rider weight, rim width").
    /// Neither is taken for the truth: both lie within what is told, and what is told is wider than either's rounding.
    /// </summary>
    [Theory]
    [InlineData("20-622", 2086, 2114)]
    [InlineData("25-622", 2105, 2146)]
    [InlineData("28-622", 2136, 2149)]
    [InlineData("32-622", 2155, 2174)]
    [InlineData("32-630", 2161, 2199)]
    public void Size_PrintedWithTwoRollOuts_TellsASpreadWithBoth(
        string size,
        double firstMm,
        double secondMm
    )
    {
        var tyre = Tyre.Parse(size);

        Assert.InRange(firstMm / 1000, tyre.LeastM, tyre.MostM);
        Assert.InRange(secondMm / 1000, tyre.LeastM, tyre.MostM);
        Assert.True((tyre.MostM - tyre.LeastM) * 1000 >= secondMm - firstMm);
    }

    /// <summary>
    /// Bead seats (mm) of published tables; 597 from the marking "32-597 inflate to 400 kPa" in an account of ISO 5775, 584 as 650B
    /// and 27.5 in.
    /// </summary>
    [Fact]
    public void Seat_OfThePublishedTables_IsAUsualOne() =>
        Assert.All(
            (int[])
                [
                    203,
                    288,
                    305,
                    349,
                    369,
                    406,
                    451,
                    507,
                    540,
                    559,
                    571,
                    584,
                    590,
                    597,
                    622,
                    630,
                    635,
                ],
            seat => Assert.True(Tyre.OfSize(32, seat).IsSeatListed, $"{seat}")
        );

    /// <summary>ISO 5775 writes the width first and the bead seat behind it; 700C is 622, 26 in 559, 650B and 27.5 in 584 mm.</summary>
    [Theory]
    [InlineData("32-597", 32, 597)]
    [InlineData("700x32C", 32, 622)]
    [InlineData("26x2.0", 50.8, 559)]
    [InlineData("650x40B", 40, 584)]
    [InlineData("27.5x2.0", 50.8, 584)]
    public void Size_OfTheMarking_IsWidthAndThenSeat(string marking, double widthMm, int seatMm)
    {
        var tyre = Tyre.Parse(marking);

        Assert.Equal(widthMm, tyre.WidthMm!.Value, 1e-9);
        Assert.Equal(seatMm, tyre.BeadSeatMm);
    }
}
