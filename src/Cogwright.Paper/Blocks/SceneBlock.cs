using System.Globalization;

namespace Cogwright.Paper.Blocks;

/// <summary>A drawing under its title and its scale.</summary>
internal sealed class SceneBlock(PlacedScene placed) : Block
{
    private const double TitlePt = 9;

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
            Texts.Get("sheet.drawingCaption", placed.Scene.Title, percent),
            box with
            {
                Height = Setting.Line(TitlePt),
            },
            TitlePt,
            bold: true
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
