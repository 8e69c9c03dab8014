using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Cogwright.Drawing;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Cogwright.Paper.Tests;

public sealed partial class PdfSceneWriterTests
{
    private static readonly Scene Bar = new(
        "Bar",
        -10,
        -10,
        120,
        20,
        [new Line(0, 0, 100, 0, Stroke.Part)]
    );

    [GeneratedRegex(@"([-\d.]+) ([-\d.]+) m\s+([-\d.]+) ([-\d.]+) l\s+S")]
    private static partial Regex MoveAndLine { get; }

    [Theory]
    [InlineData(1)]
    [InlineData(0.35)]
    public void Draw_LineOfHundred_IsTrueToTheScale(double scale)
    {
        using var document = new PdfDocument();
        document.Options.CompressContentStreams = false;
        var page = document.AddPage();
        using (var graphics = XGraphics.FromPdfPage(page))
        {
            PdfSceneWriter.Draw(graphics, Bar, 20, 30, scale);
        }
        using var stream = new MemoryStream();
        document.Save(stream, closeStream: false);
        var line = MoveAndLine.Match(Encoding.Latin1.GetString(stream.ToArray()));
        Assert.True(line.Success);
        var (x1, x2) = (Number(line.Groups[1]), Number(line.Groups[3]));
        Assert.Equal(20 + (10 * scale / 25.4 * 72), x1, 0.01);
        Assert.Equal(100 * scale, (x2 - x1) / 72 * 25.4, 0.01);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(-1)]
    public void Draw_ScaleThatIsNone_IsRefusedByName(double scale)
    {
        using var document = new PdfDocument();
        using var graphics = XGraphics.FromPdfPage(document.AddPage());
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() =>
            PdfSceneWriter.Draw(graphics, Bar, 0, 0, scale)
        );
        Assert.Contains("Bar", refusal.Message, StringComparison.Ordinal);
    }

    private static double Number(Group group) =>
        double.Parse(group.ValueSpan, CultureInfo.InvariantCulture);
}
