using System.Globalization;

namespace Cogwright.Paper.Blocks;

/// <summary>A drawing, which bears its own title, under its scale.</summary>
/// <param name="placed">The drawing with its place.</param>
/// <param name="caption">What stands over it; its scale when null.</param>
internal sealed class SceneBlock(PlacedScene placed, string? caption = null) : Block
{
    private const double TitlePt = Setting.SmallPt;

    /// <summary>A scale in percent of true size, as it is printed.</summary>
    internal static string Percent(double scale) =>
        (scale * 100).ToString("0.#", CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    internal override string Name => "drawing:" + placed.Scene.Title;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) => placed.Box.Height;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Print(
            caption ?? Texts.Get("sheet.drawingScale", Percent(placed.Scale)),
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
