using System.Collections.Immutable;
using Cogwright.Drawing;

namespace Cogwright.Paper;

/// <summary>A drawing with its place (pt) and scale on a side.</summary>
internal sealed record PlacedScene(Scene Scene, PaperBox Box, double Scale);

/// <summary>
/// Puts drawings on shelves below one another, side by side where they fit at their own scale; all shrink alike
/// when they are too high together.
/// </summary>
internal static class DrawingShelves
{
    private const double GapPt = 8;

    /// <summary>Height over a drawing for its caption (pt).</summary>
    internal static double CaptionPt => Setting.Line(9) + 2;

    /// <summary>The drawings in their places inside a box, in the order given.</summary>
    internal static IReadOnlyList<PlacedScene> Lay(ImmutableArray<Scene> scenes, PaperBox box)
    {
        var shelves = Shelves(scenes, box.Width);
        var captions = shelves.Count * (CaptionPt + GapPt);
        var natural = shelves.Sum(shelf => shelf.Max(item => Height(item.Scene, item.Scale)));
        var shrink = Math.Min(1, (box.Height - captions) / natural);
        var placed = new List<PlacedScene>();
        var top = box.Top;
        foreach (var shelf in shelves)
        {
            var left = box.Left;
            var tallest = 0.0;
            foreach (var (scene, own) in shelf)
            {
                var scale = own * shrink;
                var height = Height(scene, scale) + CaptionPt;
                var width = Points.FromMm(scene.Width * scale);
                placed.Add(new PlacedScene(scene, new PaperBox(left, top, width, height), scale));
                left += width + GapPt;
                tallest = Math.Max(tallest, height);
            }
            top += tallest + GapPt;
        }
        return placed;
    }

    private static double Height(Scene scene, double scale) => Points.FromMm(scene.Height * scale);

    private static List<List<(Scene Scene, double Scale)>> Shelves(
        ImmutableArray<Scene> scenes,
        double widthPt
    )
    {
        var shelves = new List<List<(Scene, double)>>();
        var used = double.PositiveInfinity;
        foreach (var scene in scenes)
        {
            var scale = PdfSceneWriter.ScaleToFit(scene, widthPt, double.PositiveInfinity);
            var width = Points.FromMm(scene.Width * scale);
            if (used + GapPt + width > widthPt)
            {
                shelves.Add([]);
                used = -GapPt;
            }
            shelves[^1].Add((scene, scale));
            used += GapPt + width;
        }
        return shelves;
    }
}
