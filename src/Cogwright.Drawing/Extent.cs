using System.Collections.Immutable;

namespace Cogwright.Drawing;

/// <summary>The room that shapes take, as a box in the scene (mm). Immutable.</summary>
/// <param name="Left">Left edge (mm).</param>
/// <param name="Bottom">Bottom edge (mm).</param>
/// <param name="Right">Right edge (mm).</param>
/// <param name="Top">Top edge (mm).</param>
public readonly record struct Extent(double Left, double Bottom, double Right, double Top)
{
    /// <summary>The box that holds nothing.</summary>
    public static Extent Nothing { get; } =
        new(
            double.PositiveInfinity,
            double.PositiveInfinity,
            double.NegativeInfinity,
            double.NegativeInfinity
        );

    /// <summary>Width (mm).</summary>
    public double Width => Right - Left;

    /// <summary>Height (mm).</summary>
    public double Height => Top - Bottom;

    /// <summary>The box of a number of shapes; text by its estimated width.</summary>
    public static Extent Of(IEnumerable<Shape> shapes)
    {
        ArgumentNullException.ThrowIfNull(shapes);
        return shapes.Aggregate(Nothing, (box, shape) => box.With(Of(shape)));
    }

    /// <summary>The box of one shape.</summary>
    public static Extent Of(Shape shape) =>
        shape switch
        {
            Line l => Nothing.With(l.X1, l.Y1).With(l.X2, l.Y2),
            Circle c => new(c.X - c.Radius, c.Y - c.Radius, c.X + c.Radius, c.Y + c.Radius),
            Arc a => OfArc(a),
            Polyline p => p.Points.Aggregate(Nothing, (box, at) => box.With(at.X, at.Y)),
            Label t => OfLabel(t),
            Dimension d => Of((IEnumerable<Shape>)DimensionLayout.Shapes(d)),
            _ => throw new ArgumentOutOfRangeException(nameof(shape)),
        };

    /// <summary>Whether a point lies in the box or on its edge.</summary>
    public bool Holds(double x, double y) => x >= Left && x <= Right && y >= Bottom && y <= Top;

    /// <summary>The box that also holds a point.</summary>
    public Extent With(double x, double y) =>
        new(Math.Min(Left, x), Math.Min(Bottom, y), Math.Max(Right, x), Math.Max(Top, y));

    /// <summary>The box that also holds another.</summary>
    public Extent With(Extent other) =>
        new(
            Math.Min(Left, other.Left),
            Math.Min(Bottom, other.Bottom),
            Math.Max(Right, other.Right),
            Math.Max(Top, other.Top)
        );

    /// <summary>The box grown by a border on every side (mm).</summary>
    public Extent Grown(double borderMm) =>
        new(Left - borderMm, Bottom - borderMm, Right + borderMm, Top + borderMm);

    private static Extent OfArc(Arc arc)
    {
        const int steps = 64;
        var box = Nothing;
        for (var i = 0; i <= steps; i++)
        {
            var (sin, cos) = Math.SinCos(arc.StartRad + (arc.SweepRad * i / steps));
            box = box.With(arc.X + (arc.Radius * cos), arc.Y + (arc.Radius * sin));
        }
        return box;
    }

    private static Extent OfLabel(Label label)
    {
        var width = TextSize.WidthMm(label.Text, label.HeightMm, label.Bold);
        var start = label.Anchor switch
        {
            Anchor.Start => 0,
            Anchor.Middle => -width / 2,
            _ => -width,
        };
        var (low, high) = (
            -TextSize.DescentOfHeight * label.HeightMm,
            (1 + TextSize.AscentOverHeight) * label.HeightMm
        );
        var (sin, cos) = Math.SinCos(label.TurnRad);
        var box = Nothing;
        foreach (
            var (along, up) in ImmutableArray.Create(
                (start, low),
                (start + width, low),
                (start, high),
                (start + width, high)
            )
        )
        {
            box = box.With(
                label.X + (cos * along) - (sin * up),
                label.Y + (sin * along) + (cos * up)
            );
        }
        return box;
    }
}
