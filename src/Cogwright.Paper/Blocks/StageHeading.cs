using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// A stage's number and name, beside it its cautions in short, before the first action, and the headings of its boxes.
/// </summary>
internal sealed class StageHeading(
    int number,
    WorksheetStage stage,
    StageCautions cautions,
    bool writeIn
) : Block
{
    private const double Above = 1.5;
    private const double NamePt = 10;
    private const double NumberWidth = 17;

    /// <inheritdoc/>
    internal override string Name => "stage:" + stage.Stage;

    /// <inheritdoc/>
    internal override bool StaysWithNext => true;

    private string Title =>
        cautions is { HoldsEarlier: true, Fresh.IsEmpty: true }
            ? Texts.Get("sheet.stageWithSign", stage.Title)
            : stage.Title;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Above
        + Setting.Line(NamePt)
        + ((Cautions(setting, widthPt).Count - 1) * Setting.Line(Setting.SmallPt));

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
        var (left, room) = (box.Left + NumberWidth + 4, Beside(setting, box.Width));
        var title = new PaperBox(left, top, box.Right - RightPart - left, line);
        sheet.Print(Title, title, NamePt, bold: true);
        if (writeIn)
        {
            Columns.Headings(sheet, box.Right, top, line);
        }
        sheet.Rule(box.Left, top, box.Right, top, 0.9);
        var lines = Cautions(setting, box.Width);
        if (room > 0)
        {
            var beside = title with { Left = title.Right - room, Width = room };
            sheet.Print(lines[0], beside, Setting.SmallPt, bold: true);
        }
        sheet.PrintLines(
            [.. lines.Skip(1)],
            box.Left,
            top + line,
            box.Width,
            Setting.SmallPt,
            bold: true
        );
    }

    private double RightPart => writeIn ? Columns.WriteInPt + 3 : 0;

    private double Beside(Setting setting, double widthPt) =>
        widthPt - NumberWidth - 4 - setting.Fit.Width(Title, NamePt, true) - 6 - RightPart;

    private List<string> Cautions(Setting setting, double widthPt) =>
        cautions.Lines(setting, Beside(setting, widthPt), widthPt);
}
