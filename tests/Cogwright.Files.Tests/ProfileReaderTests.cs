namespace Cogwright.Files.Tests;

/// <summary>Roads typed piece by piece.</summary>
public class ProfileReaderTests
{
    [Fact]
    public void Profile_InLinesAndBySemicolons_IsRead()
    {
        var reading = ProfileReader.Read(
            "5 km 2 %; 800 m -3,5%\n# over the top\n1.2 km +8.5 % # the wall\n\n",
            "typed"
        );

        Assert.Empty(reading.Problems);
        Assert.Equal(7000, reading.Route!.LengthM, 1e-6);
        Assert.Equal([0.02, -0.035, 0.085], reading.Route.Gradients.Distinct());
        Assert.Equal("typed", reading.Route.Name);
    }

    [Theory]
    [InlineData("5 km 2 %;\n  8 miles 3 %", 2, 3, "8 miles 3 %")]
    [InlineData("5 km 2 %; 3 km", 1, 11, "3 km")]
    [InlineData("5 km 200 %", 1, 1, "-60 to 60 %")]
    [InlineData("0 km 2 %", 1, 1, "more than 0")]
    [InlineData("9000 km 2 %", 1, 1, "5000000")]
    public void Piece_ThatIsNone_IsNamedWithItsPlace(
        string text,
        int line,
        int column,
        string words
    )
    {
        var reading = ProfileReader.Read(text, "typed");

        Assert.Null(reading.Route);
        Assert.Equal((line, column), (reading.Problems[^1].Line, reading.Problems[^1].Column));
        Assert.Contains(words, reading.Problems[^1].Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("# nothing\n;;")]
    [InlineData("4000 km 1 %; 4000 km 1 %")]
    [InlineData("\u0000")]
    public void Profile_ThatIsNone_IsRefused(string text)
    {
        var reading = ProfileReader.Read(text, "typed");

        Assert.Null(reading.Route);
        Assert.True(Assert.Single(reading.Problems).IsError);
    }

    [Fact]
    public void Profile_OfMorePiecesThanThereCanBe_IsRefusedAndNotCut()
    {
        var text = string.Concat(Enumerable.Repeat("10 m 1 %\n", ProfileReader.MostPieces + 1));
        var reading = ProfileReader.Read(text, "typed");

        Assert.Null(reading.Route);
        Assert.Equal(ProfileReader.MostPieces + 1, Assert.Single(reading.Problems).Line);
    }
}
