using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>Where a step begins: its number, the part that it is done on, and at the right the box to tick with initials.</summary>
internal sealed class StepHead(BookletStep step) : Block
{
    private const double AbovePt = 7;
    private const double NumberPt = 14;
    private const double NumberWidth = 30;
    private const double PartPt = 10.5;
    private const double TickWidth = 44;
    private const double BelowPt = 2;

    private static double RowPt => Points.FromMm(6.5);

    /// <inheritdoc/>
    internal override string Name => "step:" + Number;

    private string Number => step.Number.ToString(CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) => AbovePt + RowPt + BelowPt;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var row = box with { Top = box.Top + AbovePt, Height = RowPt };
        sheet.Rule(row.Left, row.Top, row.Right, row.Top, 1.2);
        var tab = row with { Width = NumberWidth };
        sheet.Blacken(tab);
        sheet.Print(Number, tab, NumberPt, bold: true, align: Align.Middle, white: true);
        var boxes = TickWidth + Columns.InitialsPt;
        sheet.Print(
            step.Part,
            row with
            {
                Left = tab.Right + 5,
                Width = row.Width - NumberWidth - boxes - 10,
            },
            PartPt,
            bold: true
        );
        var initials = new PaperBox(
            row.Right - Columns.InitialsPt,
            row.Top,
            Columns.InitialsPt,
            row.Height
        );
        sheet.Tick(
            Texts.Get("booklet.done"),
            row with
            {
                Left = initials.Left - TickWidth,
                Width = TickWidth - 2,
            },
            PartPt
        );
        sheet.Frame(initials);
    }
}
