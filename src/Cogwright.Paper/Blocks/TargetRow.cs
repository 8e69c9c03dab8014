using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// One measure: what, how much, in which gear, and at the right the boxes to write in: found, left at, initials;
/// below, by which convention and tool.
/// </summary>
internal sealed class TargetRow(Target target) : Block
{
    private const double Gap = 3;
    private const double GearPt = 10;
    private const double Apart = 6;

    /// <inheritdoc/>
    internal override string Name => "target:" + target.Id;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Lay(setting, widthPt).Height + Gap;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var layout = Lay(setting, box.Width);
        var (top, width, size) = (box.Top + (Gap / 2), TextWidth(box.Width), setting.Density.TitlePt);
        var line = new PaperBox(box.Left, top, width, Setting.Line(Setting.StandPt));
        if (layout.TitleLines.Count > 0)
        {
            var next = sheet.PrintLines(layout.TitleLines, box.Left, top, width, size);
            line = line with { Top = next };
        }
        else
        {
            sheet.Print(Title, line, size);
            var used = setting.Fit.Width(Title, size, false) + Apart;
            line = line with { Left = line.Left + used, Width = line.Width - used };
        }
        DrawValue(setting, sheet, line);
        Columns.WriteIn(sheet, box.Right, top, layout.BoxHeight);
        sheet.PrintLines(
            layout.Small,
            box.Left,
            layout.SmallBelow ? top + layout.BoxHeight : line.Bottom,
            layout.SmallBelow ? box.Width : width,
            Setting.SmallPt
        );
    }

    private string Title => ShortWords.Title(target);

    private string Gear =>
        target.Gear is { } gear ? Texts.Get("sheet.inGear", Amount.Gear(gear)) : "";

    private static double TextWidth(double widthPt) => widthPt - Columns.WriteInPt - 3;

    private void DrawValue(Setting setting, Sheet sheet, PaperBox line)
    {
        sheet.Print(Amount.Of(target), line, Setting.StandPt, bold: true);
        if (Gear.Length > 0)
        {
            var used = setting.Fit.Width(Amount.Of(target), Setting.StandPt, true) + 4;
            var gear = line with { Left = line.Left + used, Width = line.Width - used };
            sheet.Print(Gear, gear, GearPt, bold: true);
        }
    }

    private double ValueWidth(Setting setting) =>
        setting.Fit.Width(Amount.Of(target), Setting.StandPt, true)
        + (Gear.Length > 0 ? 4 + setting.Fit.Width(Gear, GearPt, true) : 0);

    /// <summary>Title and value on one line where they fit; the small print beside the boxes or below, whichever is lower.</summary>
    private (List<string> TitleLines, List<string> Small, bool SmallBelow, double BoxHeight, double Height) Lay(
        Setting setting,
        double widthPt
    )
    {
        var (width, size) = (TextWidth(widthPt), setting.Density.TitlePt);
        var oneLine =
            setting.Fit.Width(Title, size, false) + Apart + ValueWidth(setting) <= width;
        List<string> title = oneLine ? [] : setting.Fit.Wrap(Title, size, false, width);
        var head = (title.Count * Setting.Line(size)) + Setting.Line(Setting.StandPt);
        var text = SmallPrint.OfMeasure(target);
        var beside = setting.Fit.Wrap(text, Setting.SmallPt, false, width);
        var below = setting.Fit.Wrap(text, Setting.SmallPt, false, widthPt);
        var least = Points.FromMm(setting.Density.BoxMm);
        var small = Setting.Line(Setting.SmallPt);
        var besideHeight = Math.Max(least, head + (beside.Count * small));
        var belowBox = Math.Max(least, head);
        var belowHeight = belowBox + (below.Count * small);
        return besideHeight <= belowHeight
            ? (title, beside, false, besideHeight, besideHeight)
            : (title, below, true, belowBox, belowHeight);
    }
}
