namespace Cogwright.Paper.Blocks;

/// <summary>Sentences to look at and tick, each behind a box of its own, under a heading.</summary>
/// <param name="name">What it is, for the record of the layout.</param>
/// <param name="heading">The heading; none when empty.</param>
/// <param name="lines">The sentences.</param>
/// <param name="sizePt">Size of the type (pt).</param>
internal sealed class TickLines(
    string name,
    string heading,
    IReadOnlyList<string> lines,
    double sizePt
) : Block
{
    private const double SquarePt = 9;
    private const double TickWidth = 14;
    private const double AbovePt = 2;
    private const double ApartPt = 1;

    /// <inheritdoc/>
    internal override string Name => name;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        lines.Count == 0
            ? 0
            : AbovePt
                + (heading.Length == 0 ? 0 : Setting.Line(sizePt))
                + lines.Sum(line =>
                    (Wrapped(setting, line, widthPt).Count * Setting.Line(sizePt)) + ApartPt
                );

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var top = box.Top + AbovePt;
        if (heading.Length > 0)
        {
            top = sheet.PrintLines([heading], box.Left, top, box.Width, sizePt, bold: true);
        }
        foreach (var line in lines)
        {
            sheet.Frame(
                new PaperBox(
                    box.Left,
                    top + ((Setting.Line(sizePt) - SquarePt) / 2),
                    SquarePt,
                    SquarePt
                ),
                0.9
            );
            top =
                sheet.PrintLines(
                    Wrapped(setting, line, box.Width),
                    box.Left + TickWidth,
                    top,
                    box.Width - TickWidth,
                    sizePt
                ) + ApartPt;
        }
    }

    private List<string> Wrapped(Setting setting, string line, double widthPt) =>
        setting.Fit.Wrap(line, sizePt, false, widthPt - TickWidth);
}
