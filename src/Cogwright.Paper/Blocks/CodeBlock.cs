namespace Cogwright.Paper.Blocks;

/// <summary>A square code that a telephone reads, with its quiet zone.</summary>
internal sealed class CodeBlock(string text) : Block
{
    /// <summary>Length of a side with the quiet zone (pt): 34 mm, so that a dot is 0.6 mm and more in what a record holds.</summary>
    internal static readonly double SidePt = Points.FromMm(34);

    private readonly SquareCode _code = SquareCode.Of(text);

    /// <inheritdoc/>
    internal override string Name => "code";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) => SidePt;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box with { Width = SidePt, Height = SidePt });
        var dot = SidePt / _code.Side;
        foreach (var (row, first, length) in _code.Runs())
        {
            sheet.Blacken(
                new PaperBox(
                    box.Left + (first * dot),
                    box.Top + (row * dot),
                    length * dot,
                    // A hair more, or a printer leaves white between the rows.
                    dot * 1.02
                )
            );
        }
    }
}
