namespace Cogwright.Paper.Blocks;

/// <summary>What the three boxes of the line below are for.</summary>
internal sealed class WriteInHeadings : Block
{
    /// <inheritdoc/>
    internal override string Name => "write-in";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Setting.Line(Setting.SmallPt) + 1;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        Columns.Headings(sheet, box.Right, box.Top, box.Height);
    }
}
