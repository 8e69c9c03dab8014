using System.Collections.Immutable;

namespace Cogwright.Drawing;

/// <summary>How a shape is drawn; a writer turns each into its own pen, in colour and in black and white alike.</summary>
public enum Stroke
{
    /// <summary>An outline of a part.</summary>
    Part,

    /// <summary>The chain.</summary>
    Chain,

    /// <summary>A part in another gear or pose, faint.</summary>
    Ghost,

    /// <summary>A dimension line with its figures.</summary>
    Dimension,

    /// <summary>A centre line or an axis, dash-dotted.</summary>
    Centre,

    /// <summary>Something that is wrong.</summary>
    Warning,

    /// <summary>A frame round a table or a box.</summary>
    Frame,

    /// <summary>A part that is there but not in use: the other cogs, the other rings.</summary>
    Faint,
}

/// <summary>Where a text is anchored at its point.</summary>
public enum Anchor
{
    /// <summary>The text begins at the point.</summary>
    Start,

    /// <summary>The text is centred on the point.</summary>
    Middle,

    /// <summary>The text ends at the point.</summary>
    End,
}

/// <summary>A shape of a scene. Coordinates in mm, x to the right, y up, as in the model's side view.</summary>
public abstract record Shape
{
    private protected Shape() { }
}

/// <summary>A straight line.</summary>
public sealed record Line(double X1, double Y1, double X2, double Y2, Stroke Stroke) : Shape;

/// <summary>A full circle.</summary>
public sealed record Circle(double X, double Y, double Radius, Stroke Stroke, bool Filled = false)
    : Shape;

/// <summary>An arc from a start angle (rad, anticlockwise from +x) over a sweep (rad, anticlockwise positive).</summary>
public sealed record Arc(
    double X,
    double Y,
    double Radius,
    double StartRad,
    double SweepRad,
    Stroke Stroke
) : Shape;

/// <summary>A polyline, closed when asked.</summary>
public sealed record Polyline(
    ImmutableArray<(double X, double Y)> Points,
    Stroke Stroke,
    bool Closed = false,
    bool Filled = false
) : Shape;

/// <summary>A text; its height is the height of a capital (mm); turned by an angle (rad, anticlockwise).</summary>
public sealed record Label(
    double X,
    double Y,
    string Text,
    double HeightMm,
    Anchor Anchor = Anchor.Start,
    bool Bold = false,
    double TurnRad = 0,
    Stroke Stroke = Stroke.Part
) : Shape
{
    /// <summary>Whether a band of paper is left clear round the letters, so that lines do not run into them.</summary>
    public bool HasHalo { get; init; } = true;
}

/// <summary>
/// A linear dimension between two points: extension lines, a line with arrows at an offset (mm, to the left of the
/// direction from first to second point), and its text.
/// </summary>
public sealed record Dimension(
    double X1,
    double Y1,
    double X2,
    double Y2,
    double OffsetMm,
    string Text,
    double TextHeightMm
) : Shape
{
    /// <summary>
    /// How far a text beside the line is moved along it from its middle, towards the second point (mm; negative towards the
    /// first): off the parts that stand there. The line reaches as far.
    /// </summary>
    public double TextAlongMm { get; init; }
}

/// <summary>
/// A drawing: shapes in model millimetres inside a box. A writer decides the scale; a scene never holds pixels.
/// Immutable.
/// </summary>
/// <param name="Title">What it shows, in words (also the accessible name).</param>
/// <param name="Left">Left edge (mm).</param>
/// <param name="Bottom">Bottom edge (mm).</param>
/// <param name="Width">Width (mm).</param>
/// <param name="Height">Height (mm).</param>
/// <param name="Shapes">The shapes, in drawing order.</param>
public sealed record Scene(
    string Title,
    double Left,
    double Bottom,
    double Width,
    double Height,
    ImmutableArray<Shape> Shapes
)
{
    /// <summary>
    /// How many millimetres of paper the drawing gives to one millimetre of the scene (1 prints true, 0.35 is 35 %).
    /// Text heights in the scene were chosen for it, and pen widths (mm on paper) are divided by it.
    /// A writer may still be given another size; text then grows and shrinks with the drawing.
    /// </summary>
    public double PaperScale { get; init; } = 1;

    /// <summary>Top edge (mm).</summary>
    public double Top => Bottom + Height;

    /// <summary>Right edge (mm).</summary>
    public double Right => Left + Width;
}
