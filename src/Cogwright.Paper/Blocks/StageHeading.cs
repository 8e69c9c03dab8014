using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>A stage's number and name, the headings of its boxes, and its cautions: before the first action.</summary>
internal sealed class StageHeading(int number, WorksheetStage stage, bool writeIn) : Block
{
    private const double Above = 3;
    private const double NamePt = 10;

    /// <inheritdoc/>
    internal override string Name => "stage:" + stage.Stage;

    /// <inheritdoc/>
    internal override bool StaysWithNext => true;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Above
        + Setting.Line(NamePt)
        + 1
        + (Cautions(setting, widthPt).Count * Setting.Line(Setting.SmallPt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var line = Setting.Line(NamePt);
        var top = box.Top + Above;
        sheet.Blacken(new PaperBox(box.Left, top, Columns.TabPt - 3, line));
        sheet.Print(
            number.ToString(CultureInfo.InvariantCulture),
            new PaperBox(box.Left, top, Columns.TabPt - 3, line),
            NamePt,
            bold: true,
            align: Align.Middle,
            white: true
        );
        var rightPart = writeIn ? Columns.WriteInPt : 0;
        sheet.Print(
            stage.Title,
            new PaperBox(
                box.Left + Columns.TabPt,
                top,
                box.Width - Columns.TabPt - rightPart - 3,
                line
            ),
            NamePt,
            bold: true
        );
        if (writeIn)
        {
            Columns.Headings(sheet, box.Right, top, line);
        }
        sheet.Rule(box.Left, top, box.Right, top, 0.9);
        sheet.PrintLines(
            Cautions(setting, box.Width),
            box.Left + Columns.TabPt,
            top + line + 1,
            box.Width - Columns.TabPt,
            Setting.SmallPt,
            bold: true
        );
    }

    private List<string> Cautions(Setting setting, double widthPt) =>
        SmallPrint.Cautions(setting, stage.Cautions, widthPt - Columns.TabPt);
}
