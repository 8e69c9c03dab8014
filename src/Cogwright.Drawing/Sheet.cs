using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>A scene being made: shapes, and texts set above and below them so that nothing collides.</summary>
internal sealed class Sheet(double textMm)
{
    private readonly ImmutableArray<Shape>.Builder _shapes = ImmutableArray.CreateBuilder<Shape>();

    /// <summary>Height of a plain text (mm in the scene).</summary>
    internal double TextMm => textMm;

    internal Extent Extent { get; private set; } = Extent.Nothing;

    /// <summary>The shapes so far.</summary>
    internal ReadOnlySpan<Shape> Shapes => _shapes.ToArray();

    internal void Add(Shape shape)
    {
        _shapes.Add(shape);
        Extent = Extent.With(Extent.Of(shape));
    }

    internal void Circle(Point centre, double radiusMm, Stroke stroke, bool filled = false) =>
        Add(new Circle(centre.X, centre.Y, radiusMm, stroke, filled));

    internal void Line(Point from, Point to, Stroke stroke) =>
        Add(new Line(from.X, from.Y, to.X, to.Y, stroke));

    internal void Closed(
        ImmutableArray<(double X, double Y)> points,
        Stroke stroke,
        bool filled = false
    ) => Add(new Polyline(points, stroke, Closed: true, Filled: filled));

    /// <summary>Lines of text above everything drawn so far, from the left edge; long ones are broken.</summary>
    internal void LinesAbove(IReadOnlyList<(string Text, bool Bold, Stroke Stroke)> lines)
    {
        var broken = lines
            .SelectMany(line =>
                Broken(line.Text, line.Bold).Select(part => (Text: part, line.Bold, line.Stroke))
            )
            .ToList();
        var left = Extent.Left;
        var y = Extent.Top + (1.2 * textMm) + (1.7 * textMm * (broken.Count - 1));
        foreach (var (text, bold, stroke) in broken)
        {
            Add(new Label(left, y, text, textMm, Bold: bold, Stroke: stroke));
            y -= 1.7 * textMm;
        }
    }

    /// <summary>Lines of text below everything drawn so far, from the left edge; long ones are broken.</summary>
    internal void LinesBelow(IReadOnlyList<string> lines)
    {
        var left = Extent.Left;
        var y = Extent.Bottom - (2.2 * textMm);
        foreach (var text in lines.SelectMany(line => Broken(line, bold: false)))
        {
            Add(new Label(left, y, text, textMm));
            y -= 1.7 * textMm;
        }
    }

    /// <summary>A bar of 100 mm below everything drawn so far, at the right edge.</summary>
    internal void ScaleBarBelow(string text)
    {
        const double length = 100;
        var thick = 0.5 * textMm;
        var right = Extent.Right;
        var left = right - length;
        var y = Extent.Bottom - (1.5 * textMm);
        for (var part = 0; part < 10; part += 2)
        {
            var x = left + (part * length / 10);
            Closed(
                [(x, y), (x + (length / 10), y), (x + (length / 10), y - thick), (x, y - thick)],
                Stroke.Dimension,
                filled: true
            );
        }
        Closed([(left, y), (right, y), (right, y - thick), (left, y - thick)], Stroke.Dimension);
        Add(
            new Label(
                left - (0.8 * textMm),
                y - thick,
                text,
                textMm,
                Anchor.End,
                Stroke: Stroke.Dimension
            )
        );
    }

    internal Scene Scene(string title, double paperScale)
    {
        var box = Extent.Grown(1.5 * textMm);
        return new Scene(title, box.Left, box.Bottom, box.Width, box.Height, _shapes.ToImmutable())
        {
            PaperScale = paperScale,
        };
    }

    /// <summary>What of it lies behind a line (mm): a shape that reaches over it is cut there, a text or a dimension is left out.</summary>
    internal Scene SceneBehind(string title, double paperScale, double rightMm)
    {
        var behind = _shapes
            .Where(shape =>
                shape is Label or Dimension
                    ? Drawing.Extent.Of(shape).Right <= rightMm
                    : Drawing.Extent.Of(shape).Left < rightMm
            )
            .ToImmutableArray();
        var box = Drawing.Extent.Of(behind).Grown(1.5 * textMm);
        return new Scene(title, box.Left, box.Bottom, rightMm - box.Left, box.Height, behind)
        {
            PaperScale = paperScale,
        };
    }

    private IEnumerable<string> Broken(string text, bool bold)
    {
        var most = Math.Max(Extent.Width, 40 * textMm);
        var line = "";
        foreach (var word in text.Split(' '))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && TextSize.WidthMm(longer, textMm, bold) > most)
            {
                yield return line;
                line = word;
            }
            else
            {
                line = longer;
            }
        }
        yield return line;
    }
}
