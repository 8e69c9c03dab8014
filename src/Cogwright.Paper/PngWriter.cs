using Cogwright.Drawing;
using SkiaSharp;

namespace Cogwright.Paper;

/// <summary>How a scene becomes a picture of dots.</summary>
public sealed record PngOptions
{
    /// <summary>Dots per millimetre of paper (8 is about 200 to the inch); not used when <see cref="WidthPx"/> is given.</summary>
    public double PixelsPerMm { get; init; } = 8;

    /// <summary>Width of the picture (dots), or null to take it from <see cref="PixelsPerMm"/>.</summary>
    public int? WidthPx { get; init; }

    /// <summary>Millimetres of paper per millimetre of the scene; null takes the scene's own.</summary>
    public double? Scale { get; init; }
}

/// <summary>Draws a scene on white as PNG, with the fonts that this assembly carries.</summary>
public static class PngWriter
{
    // A picture of more dots than this is a slip of the pen and would only exhaust memory.
    private const long MostDots = 200_000_000;

    /// <summary>The bytes of the PNG file.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The size asked for is not a picture.</exception>
    public static byte[] Write(Scene scene, PngOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(scene);
        options ??= new PngOptions();
        var scale = options.Scale ?? scene.PaperScale;
        // Dots per millimetre of the scene.
        var zoom = options.WidthPx is { } asked ? asked / scene.Width : options.PixelsPerMm * scale;
        var width = options.WidthPx ?? Math.Ceiling(scene.Width * zoom);
        var height = Math.Ceiling(scene.Height * zoom);
        if (!(width >= 1 && height >= 1 && width * height <= MostDots))
        {
            throw new ArgumentOutOfRangeException(
                nameof(options),
                Texts.Get("png.size", width, height)
            );
        }

        var info = new SKImageInfo(
            (int)width,
            (int)height,
            SKColorType.Rgba8888,
            SKAlphaType.Opaque
        );
        using var surface = SKSurface.Create(info);
        var canvas = surface.Canvas;
        canvas.Clear(ColourOf(Pens.Paper));
        canvas.Scale((float)zoom);
        canvas.Translate((float)-scene.Left, (float)scene.Top);
        using var plate = new Plate(canvas, scale);
        foreach (var shape in scene.Shapes)
        {
            plate.Draw(shape);
        }
        canvas.Flush();
        using var image = surface.Snapshot();
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private static SKColor ColourOf(Colour colour) => new(colour.Red, colour.Green, colour.Blue);

    /// <summary>One picture being drawn; the canvas is in scene millimetres, y still to be turned down.</summary>
    private sealed class Plate(SKCanvas canvas, double scale) : IDisposable
    {
        private readonly SKTypeface _regular = Typeface("DejaVuSansCondensed.ttf");
        private readonly SKTypeface _bold = Typeface("DejaVuSansCondensed-Bold.ttf");

        public void Dispose()
        {
            _regular.Dispose();
            _bold.Dispose();
        }

        public void Draw(Shape shape)
        {
            switch (shape)
            {
                case Line l:
                    using (var paint = Pencil(l.Stroke))
                    {
                        canvas.DrawLine(
                            (float)l.X1,
                            (float)-l.Y1,
                            (float)l.X2,
                            (float)-l.Y2,
                            paint
                        );
                    }
                    break;
                case Circle c:
                    using (var path = new SKPath())
                    {
                        path.AddCircle((float)c.X, (float)-c.Y, (float)c.Radius);
                        Draw(path, c.Stroke, c.Filled);
                    }
                    break;
                case Arc a:
                    using (var path = new SKPath())
                    {
                        var box = SKRect.Create(
                            (float)(a.X - a.Radius),
                            (float)(-a.Y - a.Radius),
                            (float)(2 * a.Radius),
                            (float)(2 * a.Radius)
                        );
                        path.AddArc(box, Degrees(-a.StartRad), Degrees(-a.SweepRad));
                        Draw(path, a.Stroke, filled: false);
                    }
                    break;
                case Polyline p when !p.Points.IsDefaultOrEmpty:
                    using (var path = new SKPath())
                    {
                        path.AddPoly(
                            [.. p.Points.Select(at => new SKPoint((float)at.X, (float)-at.Y))],
                            p.Closed
                        );
                        Draw(path, p.Stroke, p.Filled);
                    }
                    break;
                case Label t:
                    Draw(t);
                    break;
                case Dimension d:
                    foreach (var piece in DimensionLayout.Shapes(d))
                    {
                        Draw(piece);
                    }
                    break;
                default:
                    break;
            }
        }

        private static float Degrees(double angleRad) => (float)(angleRad * 180 / Math.PI);

        private static SKTypeface Typeface(string resource)
        {
            using var stream =
                typeof(PngWriter).Assembly.GetManifestResourceStream(resource)
                ?? throw new InvalidOperationException(resource);
            return SKTypeface.FromStream(stream) ?? throw new InvalidOperationException(resource);
        }

        private SKPaint Pencil(Stroke stroke)
        {
            var pen = Pens.For(stroke);
            var paint = new SKPaint
            {
                IsAntialias = true,
                Style = SKPaintStyle.Stroke,
                Color = ColourOf(pen.Ink),
                StrokeWidth = (float)(pen.WidthMm / scale),
                StrokeCap = SKStrokeCap.Round,
                StrokeJoin = SKStrokeJoin.Round,
            };
            if (!pen.DashMm.IsEmpty)
            {
                paint.PathEffect = SKPathEffect.CreateDash(
                    [.. pen.DashMm.Select(mm => (float)(mm / scale))],
                    0
                );
            }
            return paint;
        }

        private void Draw(SKPath path, Stroke stroke, bool filled)
        {
            if (filled)
            {
                using var fill = new SKPaint
                {
                    IsAntialias = true,
                    Style = SKPaintStyle.Fill,
                    Color = ColourOf(Pens.For(stroke).Fill),
                };
                canvas.DrawPath(path, fill);
            }
            using var paint = Pencil(stroke);
            canvas.DrawPath(path, paint);
        }

        private void Draw(Label label)
        {
            using var font = new SKFont(
                label.Bold ? _bold : _regular,
                (float)(label.HeightMm / Pens.CapHeightOfFontSize)
            )
            {
                Subpixel = true,
                Hinting = SKFontHinting.None,
            };
            using var ink = new SKPaint
            {
                IsAntialias = true,
                Color = ColourOf(Pens.For(label.Stroke).Ink),
            };
            using var halo = new SKPaint
            {
                IsAntialias = true,
                Style = SKPaintStyle.Stroke,
                StrokeJoin = SKStrokeJoin.Round,
                StrokeWidth = (float)(label.HeightMm * Pens.HaloOfHeight),
                Color = ColourOf(Pens.Paper),
            };
            var align = label.Anchor switch
            {
                Anchor.Start => SKTextAlign.Left,
                Anchor.Middle => SKTextAlign.Center,
                _ => SKTextAlign.Right,
            };
            canvas.Save();
            canvas.Translate((float)label.X, (float)-label.Y);
            canvas.RotateDegrees(Degrees(-label.TurnRad));
            if (label.HasHalo)
            {
                canvas.DrawText(label.Text, 0, 0, align, font, halo);
            }
            canvas.DrawText(label.Text, 0, 0, align, font, ink);
            canvas.Restore();
        }
    }
}
