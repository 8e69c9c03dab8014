namespace Cogwright.Paper.Tests;

public sealed class WorksheetTests
{
    private const double Tolerance = 0.5;

    public static IEnumerable<TheoryDataRow<string, PaperSize>> All => SheetCases.All;

    [Theory]
    [MemberData(nameof(All))]
    public void Pages_AnyBike_HaveThePaperAskedFor(string name, PaperSize size)
    {
        var (bytes, layout) = SheetCases.Set(name, size);
        KeepForEyes(name, size, bytes);
        using var document = Pdf.Open(bytes);
        Assert.Equal(layout.Sides, document.PageCount);
        Assert.InRange(document.PageCount, 2, 6);
        // ISO 216: A4 is 210 × 297 mm; ANSI/ASME Y14.1: Letter is 8.5 × 11 in.
        var (width, height) =
            size is PaperSize.A4 ? (210 / 25.4 * 72, 297 / 25.4 * 72) : (8.5 * 72, 11.0 * 72);
        for (var i = 0; i < document.PageCount; i++)
        {
            Assert.Equal(width, document.Pages[i].Width.Point, Tolerance);
            Assert.Equal(height, document.Pages[i].Height.Point, Tolerance);
        }
    }

    [Fact]
    public void Fonts_AnySheet_AreEmbeddedAsSubsets()
    {
        var bytes = SheetCases.Set("fixture: three rings", PaperSize.A4).Pdf;
        using var document = Pdf.Open(bytes);
        Assert.NotEmpty(Pdf.Fonts(document));
        Assert.All(
            Pdf.Fonts(document),
            font => Assert.Matches("^/[A-Z]{6}\\+.*DejaVu", font.Elements.GetName("/BaseFont"))
        );
        Assert.NotEmpty(Pdf.FontDescriptors(document));
        Assert.All(
            Pdf.FontDescriptors(document),
            descriptor => Assert.NotNull(descriptor.Elements.GetDictionary("/FontFile2"))
        );
        // The two faces are 1.3 MB together; a subset is a small part of that.
        Assert.InRange(bytes.Length, 10_000, 300_000);
    }

    [Fact]
    public void Name_PolishGreekCyrillic_CopiesOutAsItWentIn()
    {
        var name = "Żółć Łódź ąęśź, Αθήνα Ωμέγα, Ёлка Юрий № 7";
        var content = WorksheetFixtures.TwoRings() with { BikeName = name };
        var (bytes, layout) = Worksheet.Set(content, [], PaperSize.A4);
        Assert.Contains(layout.Printed, text => text.Text == name);
        using var document = Pdf.Open(bytes);
        var maps = Pdf.CharacterMaps(document).ToUpperInvariant();
        Assert.All(
            name.Where(letter => letter > 0x7f),
            letter => Assert.Contains($"<{(int)letter:X4}>", maps, StringComparison.Ordinal)
        );
        Assert.Contains(name, document.Info.Title, StringComparison.Ordinal);
    }

    [Fact]
    public void Name_TooLong_IsShortenedWithAnEllipsis()
    {
        var layout = SheetCases.Set("fixture: long names", PaperSize.A4).Layout;
        var lines = layout
            .Printed.Where(text => text.Block == "header" && text.SizePt > 15)
            .ToList();
        Assert.Equal(2, lines.Count);
        Assert.EndsWith("…", lines[1].Text, StringComparison.Ordinal);
        Assert.StartsWith(lines[0].Text, WorksheetFixtures.LongName, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Gauge_AnyBike_IsTrueToTheMillimetre(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        var hasGap = SheetCases
            .Content(name)
            .Stages.Any(stage => stage.Targets.Any(target => target.Id == "gap"));
        Assert.Equal(hasGap ? 8 : 0, layout.Lengths.Length);
        Assert.All(
            layout.Lengths,
            length => Assert.Equal(length.NominalMm, length.LengthPt / 72 * 25.4, 1e-9)
        );
        if (hasGap)
        {
            Assert.Contains(layout.Lengths, length => length is { Name: "bar", NominalMm: 100 });
            Assert.All(layout.Lengths, length => Assert.Equal(layout.Sides - 1, length.Side));
        }
    }

    [Fact]
    public void Gauge_GapOfSeven_StepsFromFourToTen()
    {
        var layout = SheetCases.Set("fixture: two rings", PaperSize.A4).Layout;
        Assert.Equal(
            [4, 5, 6, 7, 8, 9, 10],
            layout.Lengths.Where(length => length.Name != "bar").Select(length => length.NominalMm)
        );
    }

    [Fact]
    public void Sheet_SameContentTwice_IsTheSameSheet()
    {
        var first = SheetCases.Set("fixture: two rings", PaperSize.A4);
        var second = SheetCases.Set("fixture: two rings", PaperSize.A4);
        Assert.Equal(first.Layout.Printed, second.Layout.Printed);
        Assert.Equal(first.Pdf, second.Pdf);
    }

    [Fact]
    public async Task Sheet_ManyThreadsAtOnce_AllComeOut()
    {
        var sheets = await Task.WhenAll(
            Enumerable
                .Range(0, 6)
                .Select(i =>
                    Task.Run(() =>
                        Worksheet.Set(
                            WorksheetFixtures.OneRing(),
                            [],
                            i % 2 == 0 ? PaperSize.A4 : PaperSize.Letter
                        )
                    )
                )
        );
        Assert.All(sheets, sheet => Assert.Equal(sheets[0].Layout.Sides, sheet.Layout.Sides));
    }

    [Fact]
    public void Date_Given_IsPrintedAndNoClockIsRead()
    {
        var content = WorksheetFixtures.OneRing();
        var dated = Worksheet.Set(content, [], PaperSize.A4, new DateOnly(2026, 3, 14));
        var blank = Worksheet.Set(content, [], PaperSize.A4);
        Assert.Contains(dated.Layout.Printed, text => text.Text == "2026-03-14");
        Assert.DoesNotContain(
            blank.Layout.Printed,
            text => text.Text.StartsWith("20", StringComparison.Ordinal)
        );
        using var document = Pdf.Open(dated.Pdf);
        Assert.Equal(2026, document.Info.CreationDate.Year);
        Assert.Equal(14, document.Info.CreationDate.Day);
    }

    /// <summary>With a folder named in COGWRIGHT_SHEETS the sheets stay there, for a person to look at.</summary>
    private static void KeepForEyes(string name, PaperSize size, byte[] bytes)
    {
        if (Environment.GetEnvironmentVariable("COGWRIGHT_SHEETS") is { } folder)
        {
            var file = $"{name}-{size}.pdf".Replace(": ", "-", StringComparison.Ordinal);
            File.WriteAllBytes(Path.Combine(folder, file.Replace(' ', '-')), bytes);
        }
    }
}
