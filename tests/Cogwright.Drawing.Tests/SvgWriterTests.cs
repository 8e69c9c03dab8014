using System.Globalization;
using System.Xml;
using System.Xml.Linq;

namespace Cogwright.Drawing.Tests;

public class SvgWriterTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    private static Scene One(params Shape[] shapes) =>
        new("A & <b>", -10, -5, 100, 50, [.. shapes]);

    private static XElement Parsed(string svg)
    {
        using var reader = XmlReader.Create(
            new StringReader(svg),
            new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit }
        );
        return XDocument.Load(reader).Root!;
    }

    [Theory]
    [MemberData(nameof(SideViewTests.States), MemberType = typeof(SideViewTests))]
    public void Write_EveryState_IsWellFormedAndHoldsNoNaN(string state)
    {
        var (_, table, gear) = WorkedExample.EveryState().Single(s => s.Name == state);
        foreach (
            var scene in (Scene[])
                [
                    SideView.Draw(table, gear),
                    GapView.Draw(table, gear),
                    GearTableDrawing.Draw(table),
                ]
        )
        {
            var svg = SvgWriter.Write(scene);
            var root = Parsed(svg);
            Assert.Equal(scene.Title, root.Element(Svg + "title")!.Value);
            Assert.Equal("img", root.Attribute("role")!.Value);
            Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
            Assert.DoesNotContain("Infinity", svg, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Write_NoScaleGiven_PrintsTrue()
    {
        var root = Parsed(SvgWriter.Write(One()));
        Assert.Equal("100mm", root.Attribute("width")!.Value);
        Assert.Equal("50mm", root.Attribute("height")!.Value);
        Assert.Equal("0 0 100 50", root.Attribute("viewBox")!.Value);
    }

    [Fact]
    public void Write_HalfScale_HalvesThePaperAndKeepsThePens()
    {
        var root = Parsed(
            SvgWriter.Write(One(new Line(0, 0, 1, 1, Stroke.Part)), new() { Scale = 0.5 })
        );
        Assert.Equal("50mm", root.Attribute("width")!.Value);
        var group = root.Element(Svg + "g")!;
        Assert.Equal(
            Pens.For(Stroke.Part).WidthMm / 0.5,
            double.Parse(group.Attribute("stroke-width")!.Value, CultureInfo.InvariantCulture),
            1e-3
        );
    }

    [Fact]
    public void Write_PointInTheBox_IsTurnedDown()
    {
        var root = Parsed(SvgWriter.Write(One(new Circle(0, 0, 2, Stroke.Part))));
        var circle = root.Descendants(Svg + "circle").Single();
        Assert.Equal("10", circle.Attribute("cx")!.Value);
        Assert.Equal("45", circle.Attribute("cy")!.Value);
    }

    [Theory]
    [InlineData(Math.PI / 2, "M10 45A")]
    [InlineData(-Math.PI / 2, "M10 45A")]
    public void Write_Arc_EndsWhereItsSweepEnds(double sweep, string begins)
    {
        // Centre at (−3, 0), so that angle 0 is the scene's origin.
        var root = Parsed(SvgWriter.Write(One(new Arc(-3, 0, 3, 0, sweep, Stroke.Part))));
        var d = root.Descendants(Svg + "path").Single().Attribute("d")!.Value;
        Assert.StartsWith(begins, d, StringComparison.Ordinal);
        Assert.EndsWith(sweep > 0 ? "7 42" : "7 48", d, StringComparison.Ordinal);
        // The sweep flag: 0 is anticlockwise on a page whose y runs down.
        Assert.Contains(sweep > 0 ? " 0 0 0 " : " 0 0 1 ", d, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_TextWithMarkup_IsEscaped()
    {
        var root = Parsed(SvgWriter.Write(One(new Label(0, 0, "<script>\"x\" & \u0001'y'", 3))));
        Assert.Equal("<script>\"x\" &  'y'", root.Descendants(Svg + "text").Single().Value);
        Assert.Empty(root.Descendants(Svg + "script"));
    }

    [Fact]
    public void Write_Anything_RefersToNothingOutside()
    {
        var svg = SvgWriter.Write(SideView.Draw(WorkedExample.Table, new(34, 34)));
        Assert.DoesNotContain("href", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("url(", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("@import", svg, StringComparison.Ordinal);
        Assert.Equal(
            svg.IndexOf("http", StringComparison.Ordinal),
            svg.LastIndexOf("http", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Write_OtherCulture_IsTheSameText()
    {
        var scene = SideView.Draw(WorkedExample.Table, new(50, 17));
        var invariant = SvgWriter.Write(scene);
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Assert.Equal(
                invariant,
                SvgWriter.Write(SideView.Draw(WorkedExample.Table, new(50, 17)))
            );
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Write_DarkPreference_IsHonouredOnScreensOnly()
    {
        var style = Parsed(SvgWriter.Write(One())).Element(Svg + "style")!.Value;
        Assert.Contains(
            "@media screen and (prefers-color-scheme:dark){",
            style,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            "@media",
            SvgWriter.Write(One(), new() { Ground = Ground.White }),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Write_CoordinateThatIsNoNumber_StopsAndSaysSo() =>
        Assert.Contains(
            "not a number",
            Assert
                .Throws<ArgumentException>(() =>
                    SvgWriter.Write(One(new Line(0, double.NaN, 1, 1, Stroke.Part)))
                )
                .Message,
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Write_ImpossibleScale_IsRefused(double scale) =>
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            SvgWriter.Write(One(), new() { Scale = scale })
        );
}
