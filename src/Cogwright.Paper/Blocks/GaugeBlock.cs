using Cogwright.Setup;
using PdfSharp.Drawing;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// A stepped gap gauge to cut out, in true size, and the bar of 100 mm that proves the print's scale.
/// </summary>
internal sealed class GaugeBlock(double wantedMm) : Block
{
    private const int Steps = 7;
    private const double BarMm = 100;
    private const double StepMm = 13;
    private const double LeastStepMm = 2;
    private const double SameMm = 0.05;
    private const double StepTextPt = 10;

    /// <summary>The gauge for the gap that a worksheet asks for, or null when it asks for none.</summary>
    internal static GaugeBlock? For(WorksheetContent content)
    {
        var gap = content
            .Stages.SelectMany(stage => stage.Targets)
            .FirstOrDefault(target => target.Id == TargetNames.Gap);
        var wanted = content.Turns?.WantedMm ?? gap?.Value ?? ((gap?.Lower + gap?.Upper) / 2);
        return wanted is { } mm ? new GaugeBlock(mm) : null;
    }

    /// <inheritdoc/>
    internal override string Name => "gauge";

    private double[] Widths
    {
        get
        {
            var first = Math.Max(LeastStepMm, Math.Round(wantedMm) - (Steps / 2));
            var widths = Enumerable.Range(0, Steps).Select(i => first + i).ToArray();
            // The step next to the wanted gap becomes exactly the wanted gap.
            var nearest = Array.IndexOf(widths, widths.MinBy(width => Math.Abs(width - wantedMm)));
            widths[nearest] = wantedMm;
            return widths;
        }
    }

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Points.FromMm(12)
        + Points.FromMm(Widths[^1])
        + Setting.Line(StepTextPt)
        + Math.Max(0, TextLines(setting, widthPt, TextWidth(widthPt)) - Points.FromMm(24));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Rule(box.Left, box.Top, box.Right, box.Top, 0.5);
        DrawBar(sheet, box.Left, box.Top + Points.FromMm(5));
        DrawGauge(sheet, box.Left, box.Bottom - Points.FromMm(2));
        var left = box.Left + Points.FromMm(BarMm + 5);
        var top = sheet.PrintLines(
            setting.Fit.Wrap(Texts.Get("sheet.gaugeScale"), 9, true, TextWidth(box.Width)),
            left,
            box.Top + 4,
            TextWidth(box.Width),
            9,
            bold: true
        );
        sheet.PrintLines(
            setting.Fit.Wrap(
                Texts.Get("sheet.gaugeUse"),
                Setting.SmallPt,
                false,
                TextWidth(box.Width)
            ),
            left,
            top + 2,
            TextWidth(box.Width),
            Setting.SmallPt
        );
    }

    private static double TextWidth(double widthPt) => widthPt - Points.FromMm(BarMm + 5);

    private static double TextLines(Setting setting, double widthPt, double textWidth) =>
        setting.HeightOf(Texts.Get("sheet.gaugeScale"), 9, true, textWidth)
        + setting.HeightOf(Texts.Get("sheet.gaugeUse"), Setting.SmallPt, false, textWidth)
        + 8;

    private static void DrawBar(Sheet sheet, double left, double middle)
    {
        var length = Points.FromMm(BarMm);
        var half = Points.FromMm(2.5);
        sheet.Rule(left, middle, left + length, middle, 1);
        for (var mm = 0; mm <= 10; mm++)
        {
            var x = left + Points.FromMm(mm * 10);
            var tall = mm is 0 or 10 ? half : half / 2;
            sheet.Rule(x, middle - tall, x, middle + tall, 0.4);
        }
        sheet.Length("bar", BarMm, length);
        sheet.Print(
            Texts.Get("sheet.bar"),
            new PaperBox(left + 6, middle - half - 4, length - 12, Setting.Line(Setting.SmallPt)),
            Setting.SmallPt,
            bold: true,
            align: Align.Middle
        );
    }

    private void DrawGauge(Sheet sheet, double left, double bottom)
    {
        var widths = Widths;
        var outline = new List<XPoint> { new(left, bottom) };
        for (var i = 0; i < widths.Length; i++)
        {
            var height = Points.FromMm(widths[i]);
            var x = left + Points.FromMm(StepMm * i);
            outline.Add(new XPoint(x, bottom - height));
            outline.Add(new XPoint(x + Points.FromMm(StepMm), bottom - height));
            sheet.Length("gauge-" + Amount.Number(widths[i]), widths[i], height);
            var isWanted = Math.Abs(widths[i] - wantedMm) < SameMm;
            var step = new PaperBox(x + 1, bottom - height, Points.FromMm(StepMm) - 2, height);
            // On a low step the figure stands above it.
            var size = height >= Setting.Line(StepTextPt) ? StepTextPt : Setting.SmallPt;
            var line = Setting.Line(size);
            var figure = height >= line ? step : step with { Top = step.Top - line, Height = line };
            sheet.Print(
                Amount.Number(widths[i]),
                figure,
                size,
                bold: isWanted,
                align: Align.Middle
            );
            if (isWanted)
            {
                sheet.Print(
                    Texts.Get("sheet.wanted"),
                    figure with
                    {
                        Left = x - Points.FromMm(3),
                        Top = figure.Top - Setting.Line(Setting.SmallPt),
                        Height = Setting.Line(Setting.SmallPt),
                    },
                    Setting.SmallPt,
                    bold: true,
                    align: Align.Middle
                );
            }
        }
        outline.Add(new XPoint(left + Points.FromMm(StepMm * widths.Length), bottom));
        // The edge itself is the measure: a hairline, cut along its outer side.
        sheet.Graphics.DrawPolygon(new XPen(XColors.Black, 0.25), [.. outline]);
    }
}
