using Cogwright.Web.Quick;

namespace Cogwright.Web.Tests;

public sealed class TapeTextTests
{
    [Theory]
    [InlineData("430", 430, "mm", false)]
    [InlineData("430,5 mm", 430.5, "mm", false)]
    [InlineData("43", 430, "cm", true)]
    [InlineData("43.2cm", 432, "cm", false)]
    [InlineData("16,9", 429.26, "in", true)]
    [InlineData("16.9 in", 429.26, "in", false)]
    [InlineData("16 7/8\"", 428.625, "in", false)]
    [InlineData("17\"", 431.8, "in", false)]
    [InlineData("16-7/8 in", 428.625, "in", false)]
    [InlineData("0,43 m", 430, "m", false)]
    public void Read_ALengthAsReadOffATape_IsTaken(
        string text,
        double mm,
        string unit,
        bool guessed
    )
    {
        var tape = TapeText.Read(text)!.Value;
        Assert.Equal(mm, tape.Mm, 6);
        Assert.Equal((unit, guessed), (tape.Unit, tape.IsGuessed));
    }

    [Theory]
    [InlineData("")]
    [InlineData("about 43")]
    [InlineData("4,3,0")]
    [InlineData("-430")]
    [InlineData("16 7/0")]
    public void Read_WhatIsNoLength_IsRefused(string text) => Assert.Null(TapeText.Read(text));
}
