using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// A gap that is off, and how far to turn the screw for it: works with the computer switched off. Too small and too
/// large are a row each, with the direction; a column is how much. Where no turn is to be given stands a dash, and why.
/// </summary>
internal sealed class TurnTableBlock(TurnTable turns) : Block
{
    private const double Pad = 3;
    private const double LabelPt = 9;
    private const double HeadPt = 9;
    private const double RowPt = 14;
    private const double Above = 1.5;

    /// <inheritdoc/>
    internal override string Name => "turns";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * Above)
        + 3
        + HeadHeight(setting, widthPt)
        + (2 * Setting.Line(RowPt))
        + (NoteLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + Above, Height = box.Height - (2 * Above) }, 1.2);
        var (left, width) = (box.Left + Pad, box.Width - (2 * Pad));
        var top = box.Top + Above + 1.5;
        var first = LabelWidth(setting, box.Width);
        var amounts = Amounts;
        var cell = (width - first) / Math.Max(1, amounts.Count);
        var head = HeadHeight(setting, box.Width);
        sheet.PrintLines(
            TitleLines(setting, box.Width),
            left,
            top,
            first - 3,
            Setting.SmallPt,
            bold: true
        );
        for (var i = 0; i < amounts.Count; i++)
        {
            sheet.Print(
                Texts.Get("sheet.millimetres", Amount.Number(amounts[i])),
                new PaperBox(
                    left + first + (cell * i),
                    top + head - Setting.Line(HeadPt),
                    cell,
                    Setting.Line(HeadPt)
                ),
                HeadPt,
                align: Align.Middle
            );
        }
        top += head;
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
        var rows = Rows(sign);
        var oneWay = Way(rows) != 0;
        sheet.Print(Label(sign), line with { Width = first - 2 }, LabelPt, bold: true);
        var amounts = Amounts;
        var cell = (line.Width - first) / Math.Max(1, amounts.Count);
        for (var i = 0; i < amounts.Count; i++)
        {
            var row = rows.Find(row => Math.Abs(row.OffByMm).Equals(amounts[i]));
            sheet.Print(
                row?.Turns is { } count ? Quarters(count, withSign: !oneWay) : "—",
                new PaperBox(line.Left + first + (cell * i), line.Top, cell, line.Height),
                RowPt,
                bold: true,
                align: Align.Middle
            );
        }
    }

    private List<TurnTableRow> Rows(int sign) =>
        [.. turns.Rows.Where(row => Math.Sign(row.OffByMm) == sign)];

    /// <summary>1 when all turns go clockwise, -1 when all go anticlockwise, 0 when they differ or none is known.</summary>
    private static int Way(List<TurnTableRow> rows)
    {
        var known = rows.Where(row => row.Turns is not null and not 0).ToList();
        return known.Count == 0 ? 0
            : known.TrueForAll(row => row.Turns > 0) ? 1
            : known.TrueForAll(row => row.Turns < 0) ? -1
            : 0;
    }

    private string Label(int sign)
    {
        var side = Texts.Get(sign < 0 ? "sheet.tooSmall" : "sheet.tooLarge");
        return Way(Rows(sign)) switch
        {
            > 0 => Texts.Get("sheet.turnRow", side, Texts.Get("sheet.clockwise")),
            < 0 => Texts.Get("sheet.turnRow", side, Texts.Get("sheet.anticlockwise")),
            _ => side,
        };
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

    private double LabelWidth(Setting setting, double widthPt) =>
        Math.Max(
            Math.Max(
                setting.Fit.Width(Label(-1), LabelPt, true),
                setting.Fit.Width(Label(1), LabelPt, true)
            ) + 4,
            (widthPt - (2 * Pad)) * 0.44
        );

    private double HeadHeight(Setting setting, double widthPt) =>
        Math.Max(
            TitleLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt),
            Setting.Line(HeadPt)
        );

    private List<string> TitleLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(
            turns.Tool is { } tool
                ? Texts.Get("sheet.turnTitleTool", turns.Screw, tool.Replace(' ', '\u00a0'))
                : Texts.Get("sheet.turnTitle", turns.Screw),
            Setting.SmallPt,
            true,
            LabelWidth(setting, widthPt) - 3
        );

    private List<string> NoteLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(
            turns.WithoutTurns is { } why
                ? why
                : Texts.Get(
                    turns.Rows.Any(row => row.Turns is null) ? "sheet.turnNone" : "sheet.turnAgain"
                ),
            Setting.SmallPt,
            false,
            widthPt - (2 * Pad)
        );
}
