using System.Globalization;
using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Paper;

/// <summary>
/// The measuring form: one box per distance, with a drawing that shows where the caliper goes and room for the
/// figure. Reads no clock and no file: the same bike gives the same sheet.
/// </summary>
public static class MeasuringForm
{
    private const double MarginMm = 8;
    private const int ColumnCount = 4;
    private const int RowCount = 4;
    private const double TitlePt = 16;
    private const double WriteInPt = 24;
    private const double GapPt = 5;

    /// <summary>The PDF file.</summary>
    /// <param name="spec">The bike, with class values where nothing is measured; it has a rear derailleur.</param>
    /// <param name="size">The printer's paper.</param>
    public static byte[] Write(DrivetrainSpec spec, PaperSize size) => Set(spec, size).Pdf;

    /// <summary>The PDF file, and what lies where on it.</summary>
    /// <inheritdoc cref="Write"/>
    public static (byte[] Pdf, WorksheetLayout Layout) Set(DrivetrainSpec spec, PaperSize size)
    {
        ArgumentNullException.ThrowIfNull(spec);
        WorksheetFontResolver.Install();
        using var fit = new TextFit();
        using var printed = new PrintedSides(
            Texts.Get("sheet.documentTitle", spec.Name),
            null,
            size,
            MarginMm,
            fit
        );
        var page = printed.Page;
        var places = BenchMeasurements.WholeForm(spec);
        const int perSide = ColumnCount * RowCount;
        var sides = Math.Max(1, (places.Length + perSide - 1) / perSide);
        for (var i = 0; i < sides; i++)
        {
            var sheet = printed.New();
            var top = Head(sheet, fit, spec, page, i, sides);
            var grid = page with { Top = top, Height = page.Bottom - top };
            for (var k = 0; k < perSide && (i * perSide) + k < places.Length; k++)
            {
                var index = (i * perSide) + k;
                Cell(sheet, fit, spec, places[index], index + 1, BoxOf(grid, k));
            }
        }
        return printed.Close();
    }

    private static PaperBox BoxOf(PaperBox grid, int place)
    {
        var width = (grid.Width - ((ColumnCount - 1) * GapPt)) / ColumnCount;
        var height = (grid.Height - ((RowCount - 1) * GapPt)) / RowCount;
        return new(
            grid.Left + (place % ColumnCount * (width + GapPt)),
            grid.Top + (place / ColumnCount * (height + GapPt)),
            width,
            height
        );
    }

    /// <summary>Title, and on the first side how to measure; returns where the boxes begin (pt).</summary>
    private static double Head(
        Sheet sheet,
        TextFit fit,
        DrivetrainSpec spec,
        PaperBox page,
        int side,
        int sides
    )
    {
        sheet.Begin("head", page with { Height = 2 * Setting.Line(TitlePt) });
        sheet.Print(
            Texts.Get("measuring.title", spec.Name),
            page with
            {
                Height = Setting.Line(TitlePt),
                Width = page.Width - 70,
            },
            TitlePt,
            bold: true
        );
        sheet.Print(
            Texts.Get("sheet.sideOf", side + 1, sides),
            new PaperBox(page.Right - 66, page.Top, 66, Setting.Line(TitlePt)),
            Setting.SmallPt,
            align: Align.End
        );
        var lines = fit.Wrap(
            Texts.Get(side == 0 ? "measuring.how" : "measuring.then"),
            Setting.SmallPt,
            false,
            page.Width
        );
        return sheet.PrintLines(
                lines,
                page.Left,
                page.Top + Setting.Line(TitlePt) + 1,
                page.Width,
                Setting.SmallPt
            ) + 4;
    }

    private static void Cell(
        Sheet sheet,
        TextFit fit,
        DrivetrainSpec spec,
        BenchPlace place,
        int number,
        PaperBox box
    )
    {
        sheet.Begin("measure:" + BenchNames.Path(place.Distance), box);
        sheet.Frame(box);
        var inner = new PaperBox(box.Left + 3, box.Top + 3, box.Width - 6, box.Height - 6);
        var text = number.ToString(CultureInfo.InvariantCulture);
        var numberWidth = fit.Width("00", Setting.StandPt, true) + 3;
        sheet.Print(
            text,
            inner with
            {
                Width = numberWidth,
                Height = Setting.Line(Setting.StandPt),
            },
            Setting.StandPt,
            bold: true
        );
        var writeIn = new PaperBox(
            inner.Left + numberWidth,
            inner.Top,
            inner.Width - numberWidth,
            WriteInPt
        );
        sheet.Frame(writeIn, 1);
        sheet.Print(
            Texts.Get("measuring.unit"),
            new PaperBox(writeIn.Right - 20, writeIn.Top, 18, writeIn.Height),
            Setting.SmallPt,
            align: Align.End
        );
        var words = fit.Wrap(BenchWords.Of(place), Setting.SmallPt, false, inner.Width, 4);
        var end = sheet.PrintLines(
            words,
            inner.Left,
            writeIn.Bottom + 2,
            inner.Width,
            Setting.SmallPt
        );
        var (widthMm, heightMm) = (
            inner.Width / Points.PerMm,
            (inner.Bottom - end - 2) / Points.PerMm
        );
        if (MeasuringScene.Of(spec, place, text, widthMm, heightMm) is { } scene)
        {
            var width = Points.FromMm(scene.Width * scene.PaperScale);
            PdfSceneWriter.Draw(
                sheet.Graphics,
                scene,
                inner.Left + ((inner.Width - width) / 2),
                end + 2
            );
        }
    }
}
