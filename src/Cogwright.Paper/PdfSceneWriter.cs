using Cogwright.Drawing;
using PdfSharp.Drawing;

namespace Cogwright.Paper;

/// <summary>
/// Draws a scene on a PDF page, true to a scale. Pens keep their width on paper whatever the scale; texts grow and
/// shrink with the drawing.
/// </summary>
public static class PdfSceneWriter
{
    /// <summary>Draws the scene with its upper left corner at a point of the page.</summary>
    /// <param name="graphics">The page, measured in points, y down.</param>
    /// <param name="scene">The drawing.</param>
    /// <param name="leftPt">Left edge of the scene's box on the page (pt).</param>
    /// <param name="topPt">Upper edge of the scene's box on the page (pt).</param>
    /// <param name="scale">Millimetres of paper per millimetre of the scene; null takes the scene's own.</param>
    /// <exception cref="ArgumentOutOfRangeException">The scale is not a positive number.</exception>
    public static void Draw(
        XGraphics graphics,
        Scene scene,
        double leftPt,
        double topPt,
        double? scale = null
    )
    {
        ArgumentNullException.ThrowIfNull(graphics);
        ArgumentNullException.ThrowIfNull(scene);
        var used = scale ?? scene.PaperScale;
        if (!(used > 0 && double.IsFinite(used)))
        {
            throw new ArgumentOutOfRangeException(
                nameof(scale),
                used,
                Texts.Get("sheet.sceneScale", scene.Title)
            );
        }
        var state = graphics.Save();
        graphics.IntersectClip(
            new XRect(
                leftPt,
                topPt,
                Points.FromMm(scene.Width * used),
                Points.FromMm(scene.Height * used)
            )
        );
        var plate = new ScenePlate(graphics, scene, leftPt, topPt, Points.FromMm(used));
        foreach (var shape in scene.Shapes)
        {
            plate.Draw(shape);
        }
        graphics.Restore(state);
    }

    /// <summary>The greatest scale, no greater than the scene's own, at which it fits a box (mm of paper per mm).</summary>
    /// <param name="scene">The drawing.</param>
    /// <param name="widthPt">Width of the box (pt).</param>
    /// <param name="heightPt">Height of the box (pt).</param>
    public static double ScaleToFit(Scene scene, double widthPt, double heightPt)
    {
        ArgumentNullException.ThrowIfNull(scene);
        var fitting = Math.Min(
            widthPt / Points.FromMm(scene.Width),
            heightPt / Points.FromMm(scene.Height)
        );
        return Math.Min(fitting, scene.PaperScale);
    }
}
