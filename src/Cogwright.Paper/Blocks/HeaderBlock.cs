using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>Bike, gearing, and the lines for date, job and people.</summary>
internal sealed class HeaderBlock(WorksheetContent content, string date) : Block
{
    private const double NamePt = 16;
    private const double GearingPt = 9;
    private const double FieldHeight = 21;

    /// <inheritdoc/>
    internal override string Name => "header";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (NameLines(setting, widthPt).Count * Setting.Line(NamePt))
        + (OnOneLine(setting, widthPt) ? 0 : Setting.Line(GearingPt))
        + FieldHeight
        + 2;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var top = sheet.PrintLines(
            NameLines(setting, box.Width),
            box.Left,
            box.Top,
            box.Width,
            NamePt,
            bold: true
        );
        if (OnOneLine(setting, box.Width))
        {
            var height = Setting.Line(NamePt);
            sheet.Print(
                content.Gearing,
                box with
                {
                    Top = box.Top + 2,
                    Height = height,
                    Left = box.Right - GearingWidth(setting),
                    Width = GearingWidth(setting),
                },
                GearingPt
            );
        }
        else
        {
            sheet.Print(
                content.Gearing,
                new PaperBox(box.Left, top, box.Width, Setting.Line(GearingPt)),
                GearingPt
            );
            top += Setting.Line(GearingPt);
        }
        top += 2;
        ReadOnlySpan<(string Words, string Value, double Share)> fields =
        [
            (Texts.Get("sheet.date"), date, 0.2),
            (Texts.Get("sheet.jobNumber"), "", 0.2),
            (Texts.Get("sheet.mechanic"), "", 0.34),
            (Texts.Get("sheet.checkedBy"), "", 0.26),
        ];
        var left = box.Left;
        foreach (var (words, value, share) in fields)
        {
            var field = new PaperBox(left, top, box.Width * share, FieldHeight);
            sheet.Frame(field);
            var width = setting.Fit.Width(words, Setting.SmallPt, false);
            sheet.Print(
                words,
                new PaperBox(left + 2.5, top + 1, width + 1, Setting.Line(Setting.SmallPt)),
                Setting.SmallPt
            );
            sheet.Print(
                value,
                new PaperBox(left + width + 6, top, field.Width - width - 8, FieldHeight),
                12
            );
            left += field.Width;
        }
    }

    private double GearingWidth(Setting setting) =>
        setting.Fit.Width(content.Gearing, GearingPt, false) + 1;

    private bool OnOneLine(Setting setting, double widthPt) =>
        setting.Fit.Width(content.BikeName, NamePt, true) + 12 + GearingWidth(setting) <= widthPt;

    private List<string> NameLines(Setting setting, double width) =>
        setting.Fit.Wrap(content.BikeName, NamePt, true, width, mostLines: 2);
}
