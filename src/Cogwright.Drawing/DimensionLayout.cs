using System.Collections.Immutable;

namespace Cogwright.Drawing;

/// <summary>
/// A dimension taken apart into lines, arrow heads and a text, so that every writer draws it alike.
/// A distance too small for its arrows gets them from outside, and its text beside the line.
/// </summary>
public static class DimensionLayout
{
    // Proportions to the height of the text, as is usual on technical drawings (arrow about as long as a figure is high).
    private const double ArrowLength = 1.0;
    private const double ArrowHalfWidth = 0.17;
    private const double ExtensionGap = 0.3;
    private const double ExtensionBeyond = 0.6;
    private const double TextOverLine = 0.5;

    /// <summary>The shapes of a dimension, all drawn with <see cref="Stroke.Dimension"/>; arrow heads are filled with its ink.</summary>
    public static ImmutableArray<Shape> Shapes(Dimension dimension)
    {
        ArgumentNullException.ThrowIfNull(dimension);
        var d = dimension;
        var h = d.TextHeightMm;
        var length = Math.Sqrt(Square(d.X2 - d.X1) + Square(d.Y2 - d.Y1));
        var (ux, uy) = length > 0 ? ((d.X2 - d.X1) / length, (d.Y2 - d.Y1) / length) : (1.0, 0.0);
        var side = d.OffsetMm < 0 ? -1.0 : 1.0;
        var (nx, ny) = (-uy * side, ux * side);
        var offset = Math.Abs(d.OffsetMm);
        var (ax, ay) = (d.X1 + (nx * offset), d.Y1 + (ny * offset));
        var (bx, by) = (d.X2 + (nx * offset), d.Y2 + (ny * offset));

        var shapes = ImmutableArray.CreateBuilder<Shape>();
        if (offset > ExtensionGap * h)
        {
            var (from, to) = (ExtensionGap * h, offset + (ExtensionBeyond * h));
            shapes.Add(Extension(d.X1, d.Y1, nx, ny, from, to));
            shapes.Add(Extension(d.X2, d.Y2, nx, ny, from, to));
        }

        var arrow = ArrowLength * h;
        var textWidth = TextSize.WidthMm(d.Text, h);
        var arrowsInside = length >= 3 * arrow;
        var reach = arrowsInside ? 0 : 2 * arrow;
        var toText = Math.Abs(d.TextAlongMm) + (h / 2) - (length / 2);
        var (before, behind) = (
            d.TextAlongMm < 0 ? Math.Max(reach, toText) : reach,
            d.TextAlongMm > 0 ? Math.Max(reach, toText) : reach
        );
        shapes.Add(
            new Line(
                ax - (ux * before),
                ay - (uy * before),
                bx + (ux * behind),
                by + (uy * behind),
                Stroke.Dimension
            )
        );
        var inward = arrowsInside ? 1 : -1;
        shapes.Add(Arrow(ax, ay, ux * inward, uy * inward, h));
        shapes.Add(Arrow(bx, by, -ux * inward, -uy * inward, h));

        var (mx, my) = ((ax + bx) / 2, (ay + by) / 2);
        shapes.Add(
            arrowsInside && length >= textWidth + (2 * arrow)
                ? AlongLine(d.Text, h, mx, my, ux, uy)
                : BesideLine(
                    d.Text,
                    h,
                    mx + (ux * d.TextAlongMm),
                    my + (uy * d.TextAlongMm),
                    nx,
                    ny
                )
        );
        return shapes.ToImmutable();
    }

    private static double Square(double value) => value * value;

    private static Line Extension(
        double x,
        double y,
        double nx,
        double ny,
        double from,
        double to
    ) => new(x + (nx * from), y + (ny * from), x + (nx * to), y + (ny * to), Stroke.Dimension);

    /// <summary>An arrow head with its point at (x, y) and its shaft in direction (dx, dy).</summary>
    internal static Polyline Arrow(double x, double y, double dx, double dy, double heightMm)
    {
        var (length, half) = (ArrowLength * heightMm, ArrowHalfWidth * heightMm);
        var (bx, by) = (x + (dx * length), y + (dy * length));
        return new Polyline(
            [(x, y), (bx - (dy * half), by + (dx * half)), (bx + (dy * half), by - (dx * half))],
            Stroke.Dimension,
            Closed: true,
            Filled: true
        );
    }

    private static Label AlongLine(
        string text,
        double heightMm,
        double x,
        double y,
        double ux,
        double uy
    )
    {
        // Read from below or from the right, never upside down.
        if (ux < -1e-9 || (Math.Abs(ux) <= 1e-9 && uy < 0))
        {
            (ux, uy) = (-ux, -uy);
        }
        var over = TextOverLine * heightMm;
        return new Label(
            x - (uy * over),
            y + (ux * over),
            text,
            heightMm,
            Anchor.Middle,
            TurnRad: Math.Atan2(uy, ux),
            Stroke: Stroke.Dimension
        );
    }

    private static Label BesideLine(
        string text,
        double heightMm,
        double x,
        double y,
        double nx,
        double ny
    )
    {
        var anchor =
            nx > 0.35 ? Anchor.Start
            : nx < -0.35 ? Anchor.End
            : Anchor.Middle;
        var away = 1.1 * heightMm;
        var vertical = anchor == Anchor.Middle ? Math.Sign(ny) * 0.5 * heightMm : 0;
        return new Label(
            x + (nx * away),
            y + (ny * away) + vertical - (heightMm / 2),
            text,
            heightMm,
            anchor,
            Bold: true,
            Stroke: Stroke.Dimension
        );
    }
}
