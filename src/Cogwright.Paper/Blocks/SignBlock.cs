using System.Collections.Immutable;

namespace Cogwright.Paper.Blocks;

/// <summary>Lines to sign on, side by side.</summary>
internal sealed class SignBlock(ImmutableArray<string> names) : Block
{
    private const double Gap = 14;
    private static readonly double RoomPt = Points.FromMm(12);

    /// <inheritdoc/>
    internal override string Name => "signatures";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        RoomPt + Setting.Line(Setting.SmallPt) + 2;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var width = (box.Width - (Gap * (names.Length - 1))) / names.Length;
        foreach (var (i, name) in names.Index())
        {
            var left = box.Left + (i * (width + Gap));
            sheet.Rule(left, box.Top + RoomPt, left + width, box.Top + RoomPt, 0.7);
            sheet.Print(
                name,
                new PaperBox(left, box.Top + RoomPt + 1, width, Setting.Line(Setting.SmallPt)),
                Setting.SmallPt
            );
        }
    }
}
