using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// A gap that is off, and how far to turn the screw for it: works with the computer switched off. Too small and too
/// large are a row each, with the direction; a column is how much.
/// </summary>
internal sealed class TurnTableBlock(TurnTable turns) : Block
{
    private const double Pad = 3;
    private const double TitlePt = 9.5;
    private const double HeadPt = 9;
    private const double RowPt = 12;

    /// <inheritdoc/>
    internal override string Name => "turns";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * Pad)
        + 3
        + (TitleLines(setting, widthPt).Count * Setting.Line(TitlePt))
        + Setting.Line(HeadPt)
        + (2 * Setting.Line(RowPt))
        + (NoteLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + 2, Height = box.Height - 3 }, 1.2);
        var (left, width) = (box.Left + Pad, box.Width - (2 * Pad));
        var top = sheet.PrintLines(
            TitleLines(setting, box.Width),
            left,
            box.Top + 2 + Pad,
            width,
            TitlePt,
            bold: true
        );
        var first = width * 0.52;
        var amounts = Amounts;
        var cell = (width - first) / Math.Max(1, amounts.Count);
        for (var i = 0; i < amounts.Count; i++)
        {
            sheet.Print(
                Texts.Get("sheet.millimetres", Amount.Number(amounts[i])),
                new PaperBox(left + first + (cell * i), top, cell, Setting.Line(HeadPt)),
                HeadPt,
                align: Align.Middle
            );
        }
        top += Setting.Line(HeadPt);
        foreach (var sign in (ReadOnlySpan<int>)[-1, 1])
        {
            DrawRow(sheet, sign, new PaperBox(left, top, width, Setting.Line(RowPt)), first);
            top += Setting.Line(RowPt);
        }
        sheet.PrintLines(NoteLines(setting, box.Width), left, top, width, Setting.SmallPt);
    }

    private List<double> Amounts =>
        [
            .. turns
                .Rows.Select(row => Math.Abs(row.OffByMm))
                .Where(off => off > 0)
                .Distinct()
                .Order(),
        ];

    private void DrawRow(Sheet sheet, int sign, PaperBox line, double first)
    {
        sheet.Rule(line.Left, line.Top, line.Right, line.Top, 0.4);
        var rows = turns.Rows.Where(row => Math.Sign(row.OffByMm) == sign).ToList();
        var known = rows.Where(row => row.Turns is not null and not 0).ToList();
        var clockwise = known.TrueForAll(row => row.Turns > 0);
        var oneWay = known.Count > 0 && (clockwise || known.TrueForAll(row => row.Turns < 0));
        var side = Texts.Get(sign < 0 ? "sheet.tooSmall" : "sheet.tooLarge");
        var way = Texts.Get(clockwise ? "sheet.clockwise" : "sheet.anticlockwise");
        sheet.Print(
            oneWay ? Texts.Get("sheet.turnRow", side, way) : side,
            line with
            {
                Width = first,
            },
            TitlePt,
            bold: true
        );
        var amounts = Amounts;
        var cell = (line.Width - first) / Math.Max(1, amounts.Count);
        for (var i = 0; i < amounts.Count; i++)
        {
            var row = rows.Find(row => Math.Abs(row.OffByMm).Equals(amounts[i]));
            sheet.Print(
                row?.Turns is { } count ? Quarters(count, withSign: !oneWay) : "?",
                new PaperBox(line.Left + first + (cell * i), line.Top, cell, line.Height),
                RowPt,
                bold: true,
                align: Align.Middle
            );
        }
    }

    /// <summary>Turns as a hand counts them: whole turns and quarters.</summary>
    private static string Quarters(double turns, bool withSign)
    {
        var quarters = (int)Math.Round(Math.Abs(turns) * 4);
        var whole = quarters / 4;
        var part = (quarters % 4) switch
        {
            1 => "¼",
            2 => "½",
            3 => "¾",
            _ => "",
        };
        var figures =
            whole == 0 && part.Length > 0
                ? part
                : whole.ToString(CultureInfo.InvariantCulture) + part;
        return !withSign || turns == 0 ? figures
            : turns > 0 ? figures + "↻"
            : figures + "↺";
    }

    private List<string> TitleLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(
            turns.Tool is { } tool
                ? Texts.Get("sheet.turnTitleTool", turns.Screw, tool, Amount.Gear(turns.Gear))
                : Texts.Get("sheet.turnTitle", turns.Screw, Amount.Gear(turns.Gear)),
            TitlePt,
            true,
            widthPt - (2 * Pad)
        );

    private List<string> NoteLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(
            string.Join(' ', setting.Density.Notes ? turns.Notes : turns.Notes.Take(1)),
            Setting.SmallPt,
            false,
            widthPt - (2 * Pad)
        );
}
