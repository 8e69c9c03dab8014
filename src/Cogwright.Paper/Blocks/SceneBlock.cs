using System.Globalization;

namespace Cogwright.Paper.Blocks;

/// <summary>A drawing, which bears its own title, under its scale.</summary>
/// <param name="placed">The drawing with its place.</param>
/// <param name="captionKey">The sentence over it, with its scale.</param>
internal sealed class SceneBlock(PlacedScene placed, string captionKey = "sheet.drawingScale")
    : Block
{
    private const double TitlePt = Setting.SmallPt;

    /// <inheritdoc/>
    internal override string Name => "drawing:" + placed.Scene.Title;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) => placed.Box.Height;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var percent = (placed.Scale * 100).ToString("0.#", CultureInfo.InvariantCulture);
        sheet.Print(
            Texts.Get(captionKey, percent),
            box with
            {
                Height = Setting.Line(TitlePt),
            },
            TitlePt
        );
        PdfSceneWriter.Draw(
            sheet.Graphics,
            placed.Scene,
            box.Left,
            box.Top + DrawingShelves.CaptionPt,
            placed.Scale
        );
    }
}
