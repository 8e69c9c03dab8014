using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>A stage's number and name, the headings of its boxes, and its cautions: before the first action.</summary>
internal sealed class StageHeading(
    int number,
    WorksheetStage stage,
    StageCautions cautions,
    bool writeIn,
    string? convention
) : Block
{
    private const double Above = 2;
    private const double NamePt = 10;
    private const double NumberWidth = 17;

    /// <inheritdoc/>
    internal override string Name => "stage:" + stage.Stage;

    /// <inheritdoc/>
    internal override bool StaysWithNext => true;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Above
        + Setting.Line(NamePt)
        + 1
        + (Small(setting, widthPt).Count * Setting.Line(Setting.SmallPt))
        + (
            SmallPrint.Cautions(setting, cautions.Fresh, widthPt).Count
            * Setting.Line(Setting.SmallPt)
        );

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var line = Setting.Line(NamePt);
        var top = box.Top + Above;
        var tab = new PaperBox(box.Left, top, NumberWidth, line);
        sheet.Blacken(tab);
        sheet.Print(
            number.ToString(CultureInfo.InvariantCulture),
            tab,
            NamePt,
            bold: true,
            align: Align.Middle,
            white: true
        );
        var rightPart = writeIn ? Columns.WriteInPt : Columns.InitialsPt;
        sheet.Print(
            cautions.HoldsEarlier ? Texts.Get("sheet.stageWithSign", stage.Title) : stage.Title,
            new PaperBox(
                box.Left + NumberWidth + 4,
                top,
                box.Width - NumberWidth - 4 - rightPart - 3,
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
        var next = sheet.PrintLines(
            SmallPrint.Cautions(setting, cautions.Fresh, box.Width),
            box.Left,
            top + line + 1,
            box.Width,
            Setting.SmallPt,
            bold: true
        );
        sheet.PrintLines(Small(setting, box.Width), box.Left, next, box.Width, Setting.SmallPt);
    }

    private List<string> Small(Setting setting, double widthPt) =>
        setting.Fit.Wrap(convention ?? "", Setting.SmallPt, false, widthPt);
}
