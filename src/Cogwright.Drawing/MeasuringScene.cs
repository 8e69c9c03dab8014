using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Drawing;

/// <summary>
/// The small drawing beside one distance of the measuring form: the parts as the model has them, faint, and the two
/// points that the caliper goes to with the distance between them.
/// </summary>
public static class MeasuringScene
{
    private const double RoomMm = 12;
    private const double ClearMm = 4;

    /// <summary>The crank's boss, for the eye only.</summary>
    private const double CrankRadiusMm = 24;

    private const double EndRadiusOnPaperMm = 0.9;
    private const double TextOnPaperMm = 2.6;

    /// <summary>The drawing, or null where the bike has no such place.</summary>
    /// <param name="spec">The bike.</param>
    /// <param name="place">What is measured.</param>
    /// <param name="number">Its number on the form.</param>
    /// <param name="widthMm">Width that the drawing may take on paper (mm).</param>
    /// <param name="heightMm">Height that it may take (mm).</param>
    public static Scene? Of(
        DrivetrainSpec spec,
        in BenchPlace place,
        string number,
        double widthMm,
        double heightMm
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(number);
        if (BenchPose.Of(spec, place) is not { } pose)
        {
            return null;
        }
        return pose.Ends is { } ends
            ? Side(spec, pose, ends, place, number, widthMm, heightMm)
            : Above(spec, place, number, widthMm, heightMm);
    }

    private static Scene Side(
        DrivetrainSpec spec,
        BenchPose pose,
        (Point From, Point To) ends,
        in BenchPlace place,
        string number,
        double widthMm,
        double heightMm
    )
    {
        var far = ends.From == pose.BottomBracket || ends.To == pose.BottomBracket;
        var scene = SideParts(spec, pose, far, BenchWords.Of(place), widthMm, heightMm);
        var shapes = scene.Shapes.ToBuilder();
        Measured(shapes, ends, number, scene.PaperScale);
        return scene with { Shapes = shapes.ToImmutable() };
    }

    /// <summary>The parts alone, seen from the drive side.</summary>
    /// <param name="spec">The bike.</param>
    /// <param name="pose">Where its parts stand.</param>
    /// <param name="far">Whether the bottom bracket is in the picture.</param>
    /// <param name="title">What the picture shows.</param>
    /// <param name="widthMm">Width that it may take on paper (mm).</param>
    /// <param name="heightMm">Height that it may take (mm).</param>
    internal static Scene SideParts(
        DrivetrainSpec spec,
        BenchPose pose,
        bool far,
        string title,
        double widthMm,
        double heightMm
    )
    {
        var cogs = spec.Cogs;
        var largest = CogTip(cogs, cogs.Teeth.Length - 1);
        var cage = spec.RearDerailleur!.Cage;
        var pulley =
            Math.Max(
                Sprocket.TipRadiusMm(cage.Guide.Teeth, cage.Guide.TipDiameterMm),
                Sprocket.TipRadiusMm(cage.Tension.Teeth, cage.Tension.TipDiameterMm)
            ) + ClearMm;
        var left = Math.Min(
            pose.Axle.X - largest - ClearMm,
            Math.Min(pose.Tension.X, pose.Guide.X) - pulley
        );
        var right = Math.Max(
            Math.Max(pose.Axle.X + largest + ClearMm, far ? CrankRadiusMm + ClearMm : left),
            Math.Max(pose.CagePivot.X + RoomMm, Math.Max(pose.Tension.X, pose.Guide.X) + pulley)
        );
        var bottom = Math.Min(
            Math.Min(pose.Tension.Y, pose.Guide.Y) - pulley,
            Math.Min(pose.CagePivot.Y - RoomMm, far ? -CrankRadiusMm - ClearMm : pose.Axle.Y)
        );
        var top = pose.Axle.Y + largest + RoomMm;
        var scale = Math.Min(widthMm / (right - left), heightMm / (top - bottom));
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        shapes.Add(new Circle(pose.Axle.X, pose.Axle.Y, largest, Stroke.Faint));
        shapes.Add(new Circle(pose.Axle.X, pose.Axle.Y, CogTip(cogs, pose.CogIndex), Stroke.Part));
        shapes.Add(new Circle(pose.Axle.X, pose.Axle.Y, 5, Stroke.Part));
        if (far)
        {
            shapes.Add(new Circle(0, 0, CrankRadiusMm, Stroke.Part));
            shapes.Add(new Circle(0, 0, 6, Stroke.Part));
            Line(shapes, pose.Axle, pose.BottomBracket, Stroke.Centre);
        }
        Line(shapes, pose.Axle, pose.HangerBolt, Stroke.Part);
        Line(shapes, pose.HangerBolt, pose.UpperPivot, Stroke.Part);
        Line(shapes, pose.UpperPivot, pose.CagePivot, Stroke.Part);
        Line(shapes, pose.CagePivot, pose.Guide, Stroke.Part);
        Line(shapes, pose.Guide, pose.Tension, Stroke.Part);
        Line(shapes, pose.Tension, pose.CagePivot, Stroke.Part);
        foreach (
            var (at, wheel) in new[] { (pose.Guide, cage.Guide), (pose.Tension, cage.Tension) }
        )
        {
            var tip = Sprocket.TipRadiusMm(wheel.Teeth, wheel.TipDiameterMm);
            shapes.Add(new Circle(at.X, at.Y, tip, Stroke.Part));
        }
        foreach (var pin in (Point[])[pose.HangerBolt, pose.UpperPivot, pose.CagePivot])
        {
            shapes.Add(new Circle(pin.X, pin.Y, 3, Stroke.Part, Filled: true));
        }
        return new(title, left, bottom, right - left, top - bottom, shapes.ToImmutable())
        {
            PaperScale = scale,
        };
    }

    /// <summary>Cogs or rings from behind and above, for distances along the axle: outboard is at the right.</summary>
    private static Scene Above(
        DrivetrainSpec spec,
        in BenchPlace place,
        string number,
        double widthMm,
        double heightMm
    )
    {
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        double from;
        double to;
        double tall;
        if (place.Distance == BenchDistance.Chainline)
        {
            from = 0;
            to = spec.Rings.Average(ring => ring.LateralMm);
            tall = 60;
            shapes.Add(new Line(0, -tall, 0, tall, Stroke.Centre));
            foreach (var ring in spec.Rings)
            {
                shapes.Add(new Line(ring.LateralMm, -40, ring.LateralMm, 40, Stroke.Part));
            }
        }
        else
        {
            var last = spec.Cogs.Teeth.Length - 1;
            from = spec.Cogs.LateralMm(last);
            to = spec.Cogs.LateralMm(0);
            tall = CogTip(spec.Cogs, last) + RoomMm;
            for (var i = 0; i <= last; i++)
            {
                var z = spec.Cogs.LateralMm(i);
                var tip = CogTip(spec.Cogs, i);
                shapes.Add(new Line(z, -tip, z, tip, Stroke.Part));
            }
        }
        var (left, right) = (Math.Min(from, to) - (3 * RoomMm), Math.Max(from, to) + (3 * RoomMm));
        var scale = Math.Min(widthMm / (right - left), heightMm / (2 * tall));
        Measured(shapes, (new(from, 0), new(to, 0)), number, scale);
        return new(BenchWords.Of(place), left, -tall, right - left, 2 * tall, shapes.ToImmutable())
        {
            PaperScale = scale,
        };
    }

    /// <summary>The two ends, filled, and the dimension between them; sizes are those on paper.</summary>
    internal static void Measured(
        ImmutableArray<Shape>.Builder shapes,
        (Point From, Point To) ends,
        string number,
        double scale
    )
    {
        var (a, b) = ends;
        shapes.Add(new Line(a.X, a.Y, b.X, b.Y, Stroke.Warning));
        foreach (var end in (Point[])[a, b])
        {
            shapes.Add(new Circle(end.X, end.Y, EndRadiusOnPaperMm / scale, Stroke.Warning));
            shapes.Add(
                new Circle(end.X, end.Y, EndRadiusOnPaperMm / 2 / scale, Stroke.Dimension, true)
            );
        }
        var middle = new Point((a.X + b.X) / 2, (a.Y + b.Y) / 2);
        var across = (b - a).Turned(Math.PI / 2);
        var clear = 2.5 / scale / Math.Max(across.Length, 1e-9);
        if (number.Length == 0)
        {
            return;
        }
        shapes.Add(
            new Label(
                middle.X + (clear * across.X),
                middle.Y + (clear * across.Y) - (TextOnPaperMm / 2 / scale),
                number,
                TextOnPaperMm / scale,
                Anchor.Middle,
                Bold: true,
                Stroke: Stroke.Dimension
            )
        );
    }

    internal static void Line(
        ImmutableArray<Shape>.Builder shapes,
        Point from,
        Point to,
        Stroke stroke
    ) => shapes.Add(new Line(from.X, from.Y, to.X, to.Y, stroke));

    internal static double CogTip(CogSet cogs, int cog) =>
        Sprocket.TipRadiusMm(cogs.Teeth[cog], cogs.TipDiameterMm(cog));
}
