using System.Globalization;

namespace Cogwright.Paper.Blocks;

/// <summary>A drawing, which bears its own title, under its scale.</summary>
internal sealed class SceneBlock(PlacedScene placed) : Block
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
            Texts.Get("sheet.drawingScale", percent),
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
