using System.Globalization;
using System.Text;

namespace Cogwright.Drawing;

/// <summary>On what ground a drawing is shown.</summary>
public enum Ground
{
    /// <summary>White, and dark where the screen's reader prefers it; always white in print.</summary>
    AsPreferred,

    /// <summary>White paper.</summary>
    White,

    /// <summary>A dark screen.</summary>
    Dark,
}

/// <summary>How a scene becomes SVG.</summary>
public sealed record SvgOptions
{
    /// <summary>Millimetres of paper per millimetre of the scene; null takes the scene's own, 1 prints true.</summary>
    public double? Scale { get; init; }

    /// <summary>The ground.</summary>
    public Ground Ground { get; init; } = Ground.AsPreferred;

    /// <summary>
    /// Whether the picture fills the width it is given (a web page) in place of its size in millimetres (paper).
    /// </summary>
    public bool FillsWidth { get; init; }

    /// <summary>
    /// Whether the drawing goes into a page that carries <see cref="SvgWriter.StyleSheet"/> itself: without a style of its own, its
    /// coordinates those of the scene with y turned down, so that they stay when the drawing changes, and in hundredths of a millimetre.
    /// </summary>
    public bool ForScreen { get; init; }
}

/// <summary>
/// Writes a scene as one SVG document: no outside references, no script, the same text for the same scene on every machine.
/// </summary>
/// <remarks>
/// The view box is in scene millimetres with y turned down; width and height are physical. Every line carries its
/// pen as attributes, and a style with <c>prefers-color-scheme</c> on top; a reader without styles still shows it on white.
/// </remarks>
public static class SvgWriter
{
    private const string FontFamily =
        "'DejaVu Sans Condensed','Noto Sans',Roboto,'Helvetica Neue',Arial,sans-serif";

    /// <summary>The SVG text.</summary>
    /// <param name="scene">The drawing.</param>
    /// <param name="options">Scale and ground; the scene's own scale and the reader's preference when null.</param>
    /// <exception cref="ArgumentException">A coordinate is not a finite number.</exception>
    public static string Write(Scene scene, SvgOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(scene);
        options ??= new SvgOptions();
        var scale = options.Scale ?? scene.PaperScale;
        if (!(scale > 0 && double.IsFinite(scale)))
        {
            throw new ArgumentOutOfRangeException(nameof(options), scale, null);
        }

        var svg = new StringBuilder();
        Head(svg, scene, options, scale);
        var page = new Page(svg, scene.Left, scene.Top, scale, options.ForScreen);
        foreach (var shape in scene.Shapes)
        {
            page.Draw(shape);
        }
        page.Close();
        svg.Append("</svg>\n");
        return svg.ToString();
    }

    /// <summary>Shapes alone, as they stand in a drawing made with <see cref="SvgOptions.ForScreen"/>.</summary>
    /// <param name="svg">What they are added to.</param>
    /// <param name="shapes">The shapes.</param>
    /// <param name="scale">Millimetres of paper per millimetre, for the pens.</param>
    internal static void Fragment(StringBuilder svg, ReadOnlySpan<Shape> shapes, double scale)
    {
        var page = new Page(svg, 0, 0, scale, forScreen: true);
        foreach (var shape in shapes)
        {
            page.Draw(shape);
        }
        page.Close();
    }

    /// <summary>The rules of colour for drawings written with <see cref="SvgOptions.ForScreen"/>.</summary>
    /// <remarks>
    /// Inside <c>.cw-screen</c> lines keep their width on the screen however near one looks: <c>--cw-u</c> says how many millimetres of the
    /// scene a pixel is.
    /// </remarks>
    public static string StyleSheet(Ground ground) => Style(ground, ScreenRules) + ScreenWidths();

    /// <summary>Plates and links that a <see cref="MovingSideView"/> draws as thick lines.</summary>
    private static void ScreenRules(StringBuilder style, bool dark)
    {
        foreach (
            var (stroke, name) in ((Stroke, string)[])
                [(Stroke.Chain, "cw-plate"), (Stroke.Part, "cw-link")]
        )
        {
            var pen = Pens.For(stroke);
            style.Append('.').Append(ClassOf(stroke)).Append(" .").Append(name);
            style.Append("{stroke:").Append((dark ? pen.FillOnDark : pen.Fill).Hex).Append('}');
        }
    }

    private static string ScreenWidths()
    {
        // What a pen is wide on paper it is wide on a screen of 96 dots to the inch.
        const double pixelsPerMm = 96 / 25.4;
        var style = new StringBuilder();
        foreach (var stroke in Enum.GetValues<Stroke>())
        {
            var pen = Pens.For(stroke);
            style.Append(".cw-screen .").Append(ClassOf(stroke)).Append("{stroke-width:");
            Pixels(pen.WidthMm);
            if (!pen.DashMm.IsEmpty)
            {
                style.Append(";stroke-dasharray:");
                foreach (var mm in pen.DashMm)
                {
                    Pixels(mm);
                    style.Append(' ');
                }
            }
            style.Append('}');
        }
        return style.ToString();

        void Pixels(double mm) =>
            style.Append("calc(var(--cw-u,1)*").Append(Number(mm * pixelsPerMm)).Append("px)");
    }

    /// <summary>Adds a number in hundredths: many times faster than the format of .NET where code is interpreted.</summary>
    internal static void Hundredths(StringBuilder svg, double value)
    {
        if (!(Math.Abs(value) < 1e7))
        {
            throw new ArgumentException(Texts.Get("scene.notANumber"), nameof(value));
        }
        var hundredths = (int)Math.Round(value * 100);
        if (hundredths < 0)
        {
            svg.Append('-');
            hundredths = -hundredths;
        }
        var whole = hundredths / 100;
        var part = hundredths - (whole * 100);
        Span<char> text = stackalloc char[12];
        var at = text.Length;
        if (part != 0)
        {
            var tenths = part / 10;
            var last = part - (tenths * 10);
            if (last != 0)
            {
                text[--at] = (char)('0' + last);
            }
            text[--at] = (char)('0' + tenths);
            text[--at] = '.';
        }
        do
        {
            var rest = whole / 10;
            text[--at] = (char)('0' + whole - (rest * 10));
            whole = rest;
        } while (whole != 0);
        svg.Append(text[at..]);
    }

    private static void Head(StringBuilder svg, Scene scene, SvgOptions options, double scale)
    {
        svg.Append("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" class=\"cw-scene\"");
        svg.Append(" viewBox=\"");
        svg.Append(options.ForScreen ? $"{Number(scene.Left)} {Number(-scene.Top)} " : "0 0 ")
            .Append(Number(scene.Width))
            .Append(' ')
            .Append(Number(scene.Height))
            .Append('"');
        if (options.FillsWidth)
        {
            svg.Append(" width=\"100%\"");
        }
        else
        {
            svg.Append(" width=\"").Append(Number(scene.Width * scale)).Append("mm\"");
            svg.Append(" height=\"").Append(Number(scene.Height * scale)).Append("mm\"");
        }
        svg.Append(" font-family=\"").Append(FontFamily).Append("\">\n");
        svg.Append("<title>").Append(Escaped(scene.Title)).Append("</title>\n");
        if (options.ForScreen)
        {
            return;
        }
        svg.Append("<style>").Append(Style(options.Ground)).Append("</style>\n");
        svg.Append("<rect class=\"cw-paper\" width=\"")
            .Append(Number(scene.Width))
            .Append("\" height=\"")
            .Append(Number(scene.Height))
            .Append("\" fill=\"")
            .Append(Pens.Paper.Hex)
            .Append("\"/>\n");
    }

    private static string Style(Ground ground, Action<StringBuilder, bool>? more = null)
    {
        var style = new StringBuilder();
        if (ground != Ground.Dark)
        {
            Rules(style, dark: false);
            more?.Invoke(style, false);
        }
        if (ground == Ground.AsPreferred)
        {
            style.Append("@media screen and (prefers-color-scheme:dark){");
        }
        if (ground != Ground.White)
        {
            Rules(style, dark: true);
            more?.Invoke(style, true);
        }
        if (ground == Ground.AsPreferred)
        {
            style.Append('}');
        }
        return style.ToString();
    }

    private static void Rules(StringBuilder style, bool dark)
    {
        var paper = (dark ? Pens.PaperOnDark : Pens.Paper).Hex;
        style.Append(".cw-paper{fill:").Append(paper).Append('}');
        style.Append(".cw-scene text{stroke:").Append(paper).Append('}');
        style.Append(".cw-scene .n{stroke:none}");
        foreach (var stroke in Enum.GetValues<Stroke>())
        {
            var pen = Pens.For(stroke);
            var ink = (dark ? pen.InkOnDark : pen.Ink).Hex;
            var fill = (dark ? pen.FillOnDark : pen.Fill).Hex;
            var name = ClassOf(stroke);
            style.Append('.').Append(name).Append("{stroke:").Append(ink).Append('}');
            style.Append('.').Append(name).Append(" .f{fill:").Append(fill).Append('}');
            style.Append('.').Append(name).Append(" text{fill:").Append(ink).Append('}');
        }
    }

    /// <summary>The class of a stroke, such as <c>cw-part</c>.</summary>
    public static string ClassOf(Stroke stroke) =>
        stroke switch
        {
            Stroke.Part => "cw-part",
            Stroke.Chain => "cw-chain",
            Stroke.Ghost => "cw-ghost",
            Stroke.Dimension => "cw-dimension",
            Stroke.Centre => "cw-centre",
            Stroke.Warning => "cw-warning",
            Stroke.Frame => "cw-frame",
            Stroke.Faint => "cw-faint",
            _ => throw new ArgumentOutOfRangeException(nameof(stroke)),
        };

    internal static string Number(double value)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentException(Texts.Get("scene.notANumber"), nameof(value));
        }
        var text = value.ToString("0.###", CultureInfo.InvariantCulture);
        return text == "-0" ? "0" : text;
    }

    internal static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            switch (rune.Value)
            {
                case '&':
                    escaped.Append("&amp;");
                    break;
                case '<':
                    escaped.Append("&lt;");
                    break;
                case '>':
                    escaped.Append("&gt;");
                    break;
                case '"':
                    escaped.Append("&quot;");
                    break;
                // XML has no way to write these at all.
                case < 0x20 or 0xfffe or 0xffff:
                    escaped.Append(' ');
                    break;
                default:
                    escaped.Append(rune);
                    break;
            }
        }
        return escaped.ToString();
    }

    /// <summary>The shapes, gathered in groups of one pen so that widths and dashes are written once.</summary>
    private sealed class Page(
        StringBuilder svg,
        double left,
        double top,
        double scale,
        bool forScreen
    )
    {
        private Stroke? _open;

        public void Draw(Shape shape)
        {
            switch (shape)
            {
                case Line l:
                    Open(l.Stroke);
                    svg.Append("<path d=\"M");
                    At(l.X1, l.Y1);
                    svg.Append('L');
                    At(l.X2, l.Y2);
                    svg.Append("\"/>\n");
                    break;
                case Circle c:
                    Open(c.Stroke);
                    svg.Append("<circle cx=\"");
                    X(c.X);
                    svg.Append("\" cy=\"");
                    Y(c.Y);
                    svg.Append("\" r=\"");
                    Add(c.Radius);
                    svg.Append('"');
                    Filled(c.Filled, c.Stroke);
                    break;
                case Arc a:
                    Draw(a);
                    break;
                case Polyline p:
                    Draw(p);
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
                    throw new ArgumentOutOfRangeException(nameof(shape));
            }
        }

        public void Close()
        {
            if (_open is not null)
            {
                svg.Append("</g>\n");
                _open = null;
            }
        }

        private void Draw(Arc arc)
        {
            Open(arc.Stroke);
            var middle = arc.StartRad + (arc.SweepRad / 2);
            var end = arc.StartRad + arc.SweepRad;
            // Two halves: an SVG arc command cannot say "all the way round", and half turns are never ambiguous.
            svg.Append("<path d=\"M");
            OnArc(arc, arc.StartRad);
            foreach (var angle in (ReadOnlySpan<double>)[middle, end])
            {
                svg.Append('A');
                Add(arc.Radius);
                svg.Append(' ');
                Add(arc.Radius);
                svg.Append(" 0 0 ").Append(arc.SweepRad > 0 ? '0' : '1').Append(' ');
                OnArc(arc, angle);
            }
            svg.Append("\"/>\n");
        }

        private void Draw(Polyline polyline)
        {
            if (polyline.Points.IsDefaultOrEmpty)
            {
                return;
            }
            Open(polyline.Stroke);
            svg.Append("<path d=\"");
            for (var i = 0; i < polyline.Points.Length; i++)
            {
                svg.Append(i == 0 ? 'M' : 'L');
                At(polyline.Points[i].X, polyline.Points[i].Y);
            }
            svg.Append(polyline.Closed ? "Z\"" : "\"");
            Filled(polyline.Filled, polyline.Stroke);
        }

        private void Draw(Label label)
        {
            Open(label.Stroke);
            svg.Append("<text");
            if (label.TurnRad == 0)
            {
                svg.Append(" x=\"");
                X(label.X);
                svg.Append("\" y=\"");
                Y(label.Y);
                svg.Append('"');
            }
            else
            {
                svg.Append(" transform=\"translate(");
                At(label.X, label.Y);
                svg.Append(") rotate(");
                svg.Append(Number(-label.TurnRad * 180 / Math.PI)).Append(")\"");
            }
            svg.Append(" font-size=\"")
                .Append(Number(label.HeightMm / Pens.CapHeightOfFontSize))
                .Append('"');
            if (label.Bold)
            {
                svg.Append(" font-weight=\"bold\"");
            }
            if (label.Anchor != Anchor.Start)
            {
                svg.Append(" text-anchor=\"");
                svg.Append(label.Anchor == Anchor.Middle ? "middle" : "end").Append('"');
            }
            svg.Append(" fill=\"").Append(Pens.For(label.Stroke).Ink.Hex);
            if (!label.HasHalo)
            {
                svg.Append("\" class=\"n\" stroke=\"none\">");
                svg.Append(Escaped(label.Text)).Append("</text>\n");
                return;
            }
            // A band of paper under the letters keeps them clear of lines.
            svg.Append("\" stroke=\"").Append(Pens.Paper.Hex).Append("\" stroke-width=\"");
            svg.Append(Number(label.HeightMm * Pens.HaloOfHeight));
            svg.Append("\" stroke-dasharray=\"none\" paint-order=\"stroke\">");
            svg.Append(Escaped(label.Text)).Append("</text>\n");
        }

        private void Open(Stroke stroke)
        {
            if (_open == stroke)
            {
                return;
            }
            Close();
            _open = stroke;
            var pen = Pens.For(stroke);
            svg.Append("<g class=\"").Append(ClassOf(stroke)).Append("\" fill=\"none\" stroke=\"");
            svg.Append(pen.Ink.Hex).Append("\" stroke-width=\"");
            svg.Append(Number(pen.WidthMm / scale)).Append('"');
            if (!pen.DashMm.IsEmpty)
            {
                svg.Append(" stroke-dasharray=\"");
                svg.AppendJoin(' ', pen.DashMm.Select(mm => Number(mm / scale))).Append('"');
            }
            svg.Append(" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n");
        }

        private void Filled(bool filled, Stroke stroke)
        {
            if (filled)
            {
                svg.Append(" class=\"f\" fill=\"").Append(Pens.For(stroke).Fill.Hex).Append('"');
            }
            svg.Append("/>\n");
        }

        private void OnArc(Arc arc, double angleRad)
        {
            var (sin, cos) = Math.SinCos(angleRad);
            At(arc.X + (arc.Radius * cos), arc.Y + (arc.Radius * sin));
        }

        private void At(double x, double y)
        {
            X(x);
            svg.Append(' ');
            Y(y);
        }

        private void X(double x) => Add(forScreen ? x : x - left);

        private void Y(double y) => Add(forScreen ? -y : top - y);

        private void Add(double value)
        {
            if (forScreen)
            {
                Hundredths(svg, value);
            }
            else
            {
                svg.Append(Number(value));
            }
        }
    }
}
