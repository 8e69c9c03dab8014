using Cogwright.Drawing;

namespace Cogwright.Paper;

/// <summary>A drawing with its place (pt, with the line for its scale) and scale on a side.</summary>
internal sealed record PlacedScene(Scene Scene, PaperBox Box, double Scale);

/// <summary>
/// Puts drawings on shelves below one another, side by side where they fit. A drawing keeps its own scale, for which
/// its texts were sized, or loses a tenth at most; only one too large for a whole side shrinks further.
/// </summary>
internal static class DrawingShelves
{
    internal const double GapPt = 8;
    private const double LeastShrink = 0.9;

    /// <summary>Height over a drawing for its scale (pt).</summary>
    internal static double CaptionPt => Setting.Line(Setting.SmallPt) + 1;

    /// <summary>Those of the drawings that a box holds, in order, a later one before an earlier one that does not fit.</summary>
    /// <param name="scenes">The drawings.</param>
    /// <param name="box">The room.</param>
    /// <param name="whole">Whether the box is a whole side: then at least the first drawing is placed.</param>
    internal static IReadOnlyList<PlacedScene> Lay(
        IReadOnlyList<Scene> scenes,
        PaperBox box,
        bool whole
    )
    {
        var placed = new List<PlacedScene>();
        var (left, top, shelf) = (box.Left, box.Top, 0.0);
        foreach (var scene in scenes)
        {
            double scale;
            var least = whole && placed.Count == 0 ? 0 : LeastShrink * scene.PaperScale;
            var beside = ScaleIn(scene, box.Right - left, box.Bottom - top);
            if (shelf > 0 && beside >= LeastShrink * scene.PaperScale)
            {
                scale = beside;
            }
            else
            {
                (left, top, shelf) = (box.Left, top + shelf, 0);
                scale = ScaleIn(scene, box.Width, box.Bottom - top);
                if (scale < least || scale <= 0)
                {
                    continue;
                }
            }
            var size = new PaperBox(
                left,
                top,
                Points.FromMm(scene.Width * scale),
                Points.FromMm(scene.Height * scale) + CaptionPt
            );
            placed.Add(new PlacedScene(scene, size, scale));
            left += size.Width + GapPt;
            shelf = Math.Max(shelf, size.Height + GapPt);
        }
        return placed;
    }

    private static double ScaleIn(Scene scene, double widthPt, double heightPt) =>
        widthPt <= 0 || heightPt <= CaptionPt
            ? 0
            : PdfSceneWriter.ScaleToFit(scene, widthPt, heightPt - CaptionPt);
}
