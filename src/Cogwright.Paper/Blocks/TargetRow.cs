using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// One measure: what, how much, in which gear, and at the right the boxes to write in: found, left at, initials;
/// below, by which convention and tool.
/// </summary>
internal sealed class TargetRow(Target target) : Block
{
    private const double Gap = 2;
    private const double GearPt = 10;
    private const double Apart = 6;

    /// <inheritdoc/>
    internal override string Name => "target:" + target.Id;

    // Where things stand: title above the value or before it, the gear behind the value or leading the small print,
    // the small print beside the boxes or below them.
    private sealed record Layout(
        List<string> TitleAbove,
        bool GearBehindValue,
        List<string> Small,
        bool SmallBelow,
        double BoxHeight,
        double Height
    );

    private string Title => ShortWords.Title(target);

    private string Gear =>
        target.Gear is { } gear ? Texts.Get("sheet.inGear", Amount.Gear(gear)) : "";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Lay(setting, widthPt).Height + Gap;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var layout = Lay(setting, box.Width);
        var (width, size) = (TextWidth(box.Width), setting.Density.TitlePt);
        var top = box.Top + (Gap / 2);
        // With the small print below, the words stand in the middle of the boxes' height.
        var lower = layout.SmallBelow
            ? (layout.BoxHeight - Head(setting, layout.TitleAbove)) / 2
            : 0;
        var line = new PaperBox(box.Left, top + lower, width, Setting.Line(Setting.StandPt));
        if (layout.TitleAbove.Count > 0)
        {
            line = line with
            {
                Top = sheet.PrintLines(layout.TitleAbove, box.Left, line.Top, width, size),
            };
        }
        else
        {
            sheet.Print(Title, line, size);
            line = Behind(line, setting.Fit.Width(Title, size, false) + Apart);
        }
        sheet.Print(Amount.Of(target), line, Setting.StandPt, bold: true);
        if (layout.GearBehindValue)
        {
            var value = setting.Fit.Width(Amount.Of(target), Setting.StandPt, true);
            sheet.Print(Gear, Behind(line, value + 4), GearPt, bold: true);
        }
        Columns.WriteIn(sheet, box.Right, top, layout.BoxHeight);
        var small = new PaperBox(
            box.Left,
            layout.SmallBelow ? top + layout.BoxHeight : line.Bottom,
            layout.SmallBelow ? box.Width : width,
            Setting.Line(GearPt)
        );
        if (!layout.GearBehindValue)
        {
            sheet.Print(Gear, small, GearPt, bold: true);
            small = Behind(small, GearWidth(setting));
            small = small with { Top = small.Top + LowerBy };
        }
        sheet.PrintLines(layout.Small, small.Left, small.Top, small.Width, Setting.SmallPt);
    }

    // The small print stands on the gear's baseline.
    private static double LowerBy => (GearPt - Setting.SmallPt) * Typeface.BaselineFactor;

    private static double TextWidth(double widthPt) => widthPt - Columns.WriteInPt - 3;

    private static PaperBox Behind(PaperBox line, double used) =>
        line with
        {
            Left = line.Left + used,
            Width = line.Width - used,
        };

    private double GearWidth(Setting setting) => setting.Fit.Width(Gear, GearPt, true) + 5;

    private static double Head(Setting setting, List<string> titleAbove) =>
        (titleAbove.Count * Setting.Line(setting.Density.TitlePt)) + Setting.Line(Setting.StandPt);

    private Layout Lay(Setting setting, double widthPt)
    {
        var (width, size) = (TextWidth(widthPt), setting.Density.TitlePt);
        var value = setting.Fit.Width(Amount.Of(target), Setting.StandPt, true);
        var gear = Gear.Length == 0 ? 0 : GearWidth(setting);
        var used = setting.Fit.Width(Title, size, false) + Apart + value;
        var options = new List<Layout>();
        if (used + gear <= width)
        {
            options.AddRange(WithSmall(setting, widthPt, [], gearBehind: true));
        }
        else if (used <= width)
        {
            options.AddRange(WithSmall(setting, widthPt, [], gearBehind: false));
        }
        var above = setting.Fit.Wrap(Title, size, false, width);
        options.AddRange(WithSmall(setting, widthPt, above, gearBehind: true));
        return options.MinBy(option => option.Height)!;
    }

    private IEnumerable<Layout> WithSmall(
        Setting setting,
        double widthPt,
        List<string> titleAbove,
        bool gearBehind
    )
    {
        var text = SmallPrint.OfMeasure(target);
        var lead = gearBehind || Gear.Length == 0 ? 0 : GearWidth(setting);
        var head = Head(setting, titleAbove);
        var least = Points.FromMm(setting.Density.BoxMm);
        foreach (var below in (bool[])[false, true])
        {
            var room = (below ? widthPt : TextWidth(widthPt)) - lead;
            var lines = setting.Fit.Wrap(text, Setting.SmallPt, false, room);
            var small =
                (lines.Count * Setting.Line(Setting.SmallPt)) + (lead > 0 ? LowerBy + 0.5 : 0);
            var box = Math.Max(least, below ? head : head + small);
            yield return new(
                titleAbove,
                gearBehind || Gear.Length == 0,
                lines,
                below,
                box,
                below ? box + small : box
            );
        }
    }
}
