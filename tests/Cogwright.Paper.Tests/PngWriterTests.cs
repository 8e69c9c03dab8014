using Cogwright.Drawing;
using SkiaSharp;

namespace Cogwright.Paper.Tests;

public class PngWriterTests
{
    private static readonly Scene Drawing = new(
        "test",
        -10,
        -10,
        100,
        50,
        [
            new Line(0, 0, 60, 0, Stroke.Part),
            new Circle(30, 15, 10, Stroke.Part, Filled: true),
            new Arc(60, 15, 10, 0, Math.PI, Stroke.Warning),
            new Polyline([(0, 0), (10, 10), (20, 0)], Stroke.Ghost, Closed: true),
            new Label(0, 30, "110 pitches", 4, Bold: true),
            new Dimension(0, 0, 60, 0, -5, "60 mm", 3),
        ]
    )
    {
        PaperScale = 0.5,
    };

    private static SKBitmap Read(byte[] png) => SKBitmap.Decode(png);

    [Fact]
    public void Write_DotsPerMillimetreOfPaper_HasThatSize()
    {
        using var picture = Read(PngWriter.Write(Drawing, new() { PixelsPerMm = 8 }));
        Assert.Equal(100 * 0.5 * 8, picture.Width);
        Assert.Equal(50 * 0.5 * 8, picture.Height);
    }

    [Fact]
    public void Write_WidthGiven_HasThatWidthAndTheDrawingsShape()
    {
        using var picture = Read(PngWriter.Write(Drawing, new() { WidthPx = 640 }));
        Assert.Equal(640, picture.Width);
        Assert.Equal(320, picture.Height);
    }

    [Fact]
    public void Write_Drawing_IsInkOnWhite()
    {
        using var picture = Read(PngWriter.Write(Drawing, new() { WidthPx = 640 }));
        Assert.Equal(SKColors.White, picture.GetPixel(1, 1));
        var dark = picture.Pixels.Count(pixel => pixel.Red < 80);
        Assert.InRange(dark, 500, picture.Pixels.Length / 4);
        // The line's middle (30, 0) mm lies 40 mm from the left and 40 mm from the top, 6.4 dots to the millimetre.
        Assert.True(picture.GetPixel(256, 256).Red < 80);
    }

    [Fact]
    public void Write_SideView_DrawsItsTextsWithTheFontCarried()
    {
        var empty = Drawing with { Shapes = [] };
        var text = Drawing with { Shapes = [new Label(0, 10, "Zażółć, Ω, 7.0 ± 0.5", 5)] };
        using var without = Read(PngWriter.Write(empty));
        using var with = Read(PngWriter.Write(text));
        Assert.All(without.Pixels, pixel => Assert.Equal(SKColors.White, pixel));
        Assert.Contains(with.Pixels, pixel => pixel.Red < 80);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(1_000_000)]
    public void Write_ImpossibleWidth_IsRefusedInWords(int widthPx)
    {
        var error = Assert.Throws<ArgumentOutOfRangeException>(() =>
            PngWriter.Write(Drawing, new() { WidthPx = widthPx })
        );
        Assert.Contains("cannot be made", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(
        "gap 6.4 mm teeth to teeth · cage angle −77.3° · reserve of chain 99 mm tight",
        false
    )]
    [InlineData("Chain too short by 28.4 mm with the cage as far forward as it goes.", true)]
    [InlineData("assumed, not measured: rearDerailleur.slant, rearDerailleur.linkAngle", false)]
    [InlineData("110 pitches (55 inner + 55 outer)", false)]
    [InlineData("WWWWMMMM—→", true)]
    public void TextSize_RealFont_NeverNeedsMoreThanEstimated(string text, bool bold)
    {
        var resource = bold ? "DejaVuSansCondensed-Bold.ttf" : "DejaVuSansCondensed.ttf";
        using var stream = typeof(PngWriter).Assembly.GetManifestResourceStream(resource)!;
        using var face = SKTypeface.FromStream(stream);
        using var font = new SKFont(face, 100);
        var heightMm = 100 * Pens.CapHeightOfFontSize;
        var real = font.MeasureText(text);
        var estimate = TextSize.WidthMm(text, heightMm, bold);
        Assert.InRange(estimate, real, 1.5 * real);
    }
}
