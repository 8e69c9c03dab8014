using Cogwright.Drawing;
using PdfSharp.Drawing;
using Dimension = Cogwright.Drawing.Dimension;

namespace Cogwright.Paper;

/// <summary>One scene being drawn: turns its millimetres, y up, into points of the page, y down.</summary>
internal sealed class ScenePlate(
    XGraphics graphics,
    Scene scene,
    double leftPt,
    double topPt,
    double pointsPerMm
)
{
    internal void Draw(Shape shape)
    {
        switch (shape)
        {
            case Line line:
                graphics.DrawLine(PenOf(line.Stroke), At(line.X1, line.Y1), At(line.X2, line.Y2));
                break;
            case Circle circle:
                Draw(circle);
                break;
            case Arc arc:
                Draw(arc);
                break;
            case Polyline polyline:
                Draw(polyline);
                break;
            case Label label:
                Draw(label);
                break;
            case Dimension dimension:
                foreach (var piece in DimensionLayout.Shapes(dimension))
                {
                    Draw(piece);
                }
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(shape));
        }
    }

    private void Draw(Circle circle)
    {
        var radius = circle.Radius * pointsPerMm;
        var box = new XRect(
            At(circle.X, circle.Y) - new XVector(radius, radius),
            new XSize(2 * radius, 2 * radius)
        );
        if (circle.Filled)
        {
            graphics.DrawEllipse(PenOf(circle.Stroke), FillOf(circle.Stroke), box);
        }
        else
        {
            graphics.DrawEllipse(PenOf(circle.Stroke), box);
        }
    }

    private void Draw(Arc arc)
    {
        var radius = arc.Radius * pointsPerMm;
        var corner = At(arc.X, arc.Y) - new XVector(radius, radius);
        // The page's y points down, so its angles run clockwise.
        graphics.DrawArc(
            PenOf(arc.Stroke),
            corner.X,
            corner.Y,
            2 * radius,
            2 * radius,
            -Degrees(arc.StartRad),
            -Degrees(arc.SweepRad)
        );
    }

    private void Draw(Polyline polyline)
    {
        if (polyline.Points.IsDefaultOrEmpty)
        {
            return;
        }
        XPoint[] points = [.. polyline.Points.Select(point => At(point.X, point.Y))];
        var pen = PenOf(polyline.Stroke);
        if (polyline.Closed && polyline.Filled)
        {
            graphics.DrawPolygon(pen, FillOf(polyline.Stroke), points, XFillMode.Winding);
        }
        else if (polyline.Closed)
        {
            graphics.DrawPolygon(pen, points);
        }
        else if (points.Length > 1)
        {
            graphics.DrawLines(pen, points);
        }
    }

    private void Draw(Label label)
    {
        var height = label.HeightMm * pointsPerMm;
        if (label.Text.Length == 0 || height <= 0)
        {
            return;
        }
        var font = Typeface.Of(height / Typeface.CapitalFactor, label.Bold);
        var width = graphics.MeasureString(label.Text, font).Width;
        var start = label.Anchor switch
        {
            Anchor.Middle => -width / 2,
            Anchor.End => -width,
            _ => 0,
        };
        var state = graphics.Save();
        var at = At(label.X, label.Y);
        graphics.TranslateTransform(at.X, at.Y);
        graphics.RotateTransform(-Degrees(label.TurnRad));
        if (label.HasHalo)
        {
            // Paper under the letters keeps them clear of lines.
            var clear = height * Pens.HaloOfHeight / 2;
            graphics.DrawRectangle(
                new XSolidBrush(ColourOf(Pens.Paper)),
                start - clear,
                -height - clear,
                width + (2 * clear),
                height + (2 * clear)
            );
        }
        graphics.DrawString(
            label.Text,
            font,
            new XSolidBrush(ColourOf(Pens.For(label.Stroke).Ink)),
            start,
            0,
            XStringFormats.BaseLineLeft
        );
        graphics.Restore(state);
    }

    private XPoint At(double xMm, double yMm) =>
        new(leftPt + ((xMm - scene.Left) * pointsPerMm), topPt + ((scene.Top - yMm) * pointsPerMm));

    private static double Degrees(double rad) => rad * 180 / Math.PI;

    private static XPen PenOf(Stroke stroke)
    {
        var pen = Pens.For(stroke);
        var width = Points.FromMm(pen.WidthMm);
        var line = new XPen(ColourOf(pen.Ink), width)
        {
            LineCap = XLineCap.Round,
            LineJoin = XLineJoin.Round,
        };
        if (!pen.DashMm.IsEmpty)
        {
            // PDFsharp counts dashes in widths of the line.
            line.DashPattern = [.. pen.DashMm.Select(mm => Points.FromMm(mm) / width)];
        }
        return line;
    }

    private static XSolidBrush FillOf(Stroke stroke) => new(ColourOf(Pens.For(stroke).Fill));

    private static XColor ColourOf(Colour colour) =>
        XColor.FromArgb(colour.Red, colour.Green, colour.Blue);
}
