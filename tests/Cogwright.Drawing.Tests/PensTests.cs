namespace Cogwright.Drawing.Tests;

public class PensTests
{
    [Fact]
    public void Table_EveryStroke_HasAPenThatPrints() =>
        Assert.All(
            Enum.GetValues<Stroke>(),
            stroke => Assert.InRange(Pens.For(stroke).WidthMm, 0.1, 1)
        );

    // Contrast ratio as WCAG 2.2 defines it (relative luminance of sRGB, 1.4.6: 7:1 for text).
    [Theory]
    [InlineData(Stroke.Part)]
    [InlineData(Stroke.Dimension)]
    [InlineData(Stroke.Warning)]
    [InlineData(Stroke.Frame)]
    public void Ink_OfText_StandsOutSevenToOne(Stroke stroke)
    {
        var pen = Pens.For(stroke);
        Assert.True(Contrast(pen.Ink, Pens.Paper) >= 7);
        Assert.True(Contrast(pen.InkOnDark, Pens.PaperOnDark) >= 7);
    }

    [Fact]
    public void Strokes_WithoutColour_DifferInWidthOrDash()
    {
        // A frame and a warning never stand for the same thing as a part; these four cross one another all the time.
        Stroke[] together =
        [
            Stroke.Part,
            Stroke.Ghost,
            Stroke.Centre,
            Stroke.Faint,
            Stroke.Warning,
        ];
        var looks = together
            .Select(s => $"{Pens.For(s).WidthMm} {string.Join(',', Pens.For(s).DashMm)}")
            .ToList();
        Assert.Equal(looks.Count, looks.Distinct().Count());
    }

    private static double Contrast(Colour a, Colour b)
    {
        var (one, two) = (Luminance(a), Luminance(b));
        return (Math.Max(one, two) + 0.05) / (Math.Min(one, two) + 0.05);
    }

    private static double Luminance(Colour c) =>
        (0.2126 * Linear(c.Red)) + (0.7152 * Linear(c.Green)) + (0.0722 * Linear(c.Blue));

    private static double Linear(byte channel)
    {
        var s = channel / 255.0;
        return s <= 0.04045 ? s / 12.92 : Math.Pow((s + 0.055) / 1.055, 2.4);
    }
}
