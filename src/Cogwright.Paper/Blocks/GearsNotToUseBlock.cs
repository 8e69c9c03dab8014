using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>Gears that the customer must be told not to use; the reasons stand on side two when there are many.</summary>
internal sealed class GearsNotToUseBlock(ImmutableArray<GearNotToUse> gears) : Block
{
    private const int MostLines = 3;
    private const double TitlePt = 10;
    private const double Pad = 2.5;
    private const double Above = 2;

    /// <inheritdoc/>
    internal override string Name => "gears-not-to-use";

    // On one line where they fit; else the title above them.
    private sealed record Layout(bool OnOneLine, double TitleWidth, List<string> Lines);

    private static double ToldPt => Points.FromMm(15);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt)
    {
        if (gears.IsEmpty)
        {
            return 0;
        }
        var layout = Lay(setting, widthPt);
        return Above
            + (2 * Pad)
            + (layout.OnOneLine ? 0 : Setting.Line(TitlePt))
            + (layout.Lines.Count * Setting.Line(Setting.StandPt));
    }

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + Above, Height = box.Height - Above });
        var layout = Lay(setting, box.Width);
        var title = new PaperBox(
            box.Left + Pad,
            box.Top + Above + Pad,
            box.Width - (2 * Pad) - ToldPt,
            Setting.Line(layout.OnOneLine ? Setting.StandPt : TitlePt)
        );
        sheet.Tick(
            Texts.Get("sheet.told"),
            title with
            {
                Left = title.Right,
                Width = ToldPt,
            },
            TitlePt
        );
        sheet.Print(Texts.Get("sheet.gearsNotToUse"), title, TitlePt, bold: true);
        var (left, top, width) = layout.OnOneLine
            ? (title.Left + layout.TitleWidth, title.Top, title.Width - layout.TitleWidth)
            : (title.Left, title.Bottom, box.Width - (2 * Pad));
        sheet.PrintLines(layout.Lines, left, top, width, Setting.StandPt, bold: true);
    }

    private Layout Lay(Setting setting, double widthPt)
    {
        var width = widthPt - (2 * Pad);
        var title = setting.Fit.Width(Texts.Get("sheet.gearsNotToUse"), TitlePt, true) + 6;
        var whole = Words(gears.Length);
        return setting.Fit.Width(whole, Setting.StandPt, true) <= width - ToldPt - title
            ? new(true, title, [whole])
            : new(false, title, Lines(setting, width));
    }

    private List<string> Lines(Setting setting, double width)
    {
        for (var shown = gears.Length; ; shown--)
        {
            var text =
                shown < gears.Length
                    ? Texts.Get("sheet.andMore", Words(shown), gears.Length - shown)
                    : Words(shown);
            var lines = setting.Fit.Wrap(text, Setting.StandPt, true, width);
            if (lines.Count <= MostLines || shown == 1)
            {
                return lines;
            }
        }
    }

    /// <summary>The first of the gears, as ring-cog: "48-34, 26-11"; many of one ring share it: "44-23/26/30".</summary>
    private string Words(int shown) =>
        string.Join(
            ", ",
            gears
                .Take(shown)
                .GroupBy(gear => gear.RingTeeth)
                .Select(ring =>
                    Texts.Get(
                        "sheet.gearsOfRing",
                        ring.Key,
                        string.Join('/', ring.Select(gear => gear.CogTeeth).Order())
                    )
                )
        );
}
