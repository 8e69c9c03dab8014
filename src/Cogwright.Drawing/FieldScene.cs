using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Drawing;

/// <summary>
/// The small drawing beside a field of a spec: the parts as the model has them, and the distance or the angle that the field
/// holds.
/// </summary>
public static class FieldScene
{
    private const double ArcOnPaperMm = 9;
    private const double AboveHalfMm = 60;
    private const double BesideMm = 30;

    /// <summary>Half the height of a ring seen from behind, for the eye only.</summary>
    private const double RingOnPictureMm = 40;

    /// <summary>Which distance of the bench a field holds as it is.</summary>
    private static readonly ImmutableDictionary<string, BenchDistance> Distances = new Dictionary<
        string,
        BenchDistance
    >
    {
        ["frame.chainstay"] = BenchDistance.AxleToBottomBracket,
        ["rearDerailleur.linkLength"] = BenchDistance.AcrossLinkPins,
        ["rearDerailleur.cage.guide.tipDiameter"] = BenchDistance.GuideTip,
        ["rearDerailleur.cage.tension.tipDiameter"] = BenchDistance.TensionTip,
        ["rearDerailleur.gap.value"] = BenchDistance.Gap,
        ["rearDerailleur.leastGap"] = BenchDistance.Gap,
        ["cogs.tipDiameters"] = BenchDistance.LargestCogTip,
        ["crank.chainline"] = BenchDistance.Chainline,
    }.ToImmutableDictionary(StringComparer.Ordinal);

    /// <summary>The fields that have a drawing, by their path in the table of fields.</summary>
    public static IReadOnlySet<string> Paths { get; } =
        (
            (string[])
                [
                    .. Distances.Keys,
                    "frame.bbDrop",
                    "hanger.offset",
                    "rearDerailleur.upperPivot",
                    "rearDerailleur.cage.guide.offset",
                    "rearDerailleur.cage.tension.offset",
                    "rearDerailleur.bodyAngle",
                    "rearDerailleur.linkAngle",
                    "rearDerailleur.slant",
                    "rearDerailleur.guideLateralAtZero",
                    "rearDerailleur.cage.rearStop",
                    "rearDerailleur.cage.frontStop",
                    "cogs.smallestLateral",
                    "cogs.chainline",
                    "cogs.spacing",
                    "cogs.stackWidth",
                    "rings[].lateral",
                ]
        ).ToImmutableHashSet(StringComparer.Ordinal);

    /// <summary>The drawing, or null where the field has none or the bike lacks the part.</summary>
    /// <param name="spec">The bike.</param>
    /// <param name="tablePath">The field, as in the table of fields: <c>rings[].lateral</c>.</param>
    /// <param name="title">What the field is called.</param>
    /// <param name="widthMm">Width that the drawing may take on paper (mm).</param>
    /// <param name="heightMm">Height that it may take (mm).</param>
    /// <param name="entry">Which entry of its list the field belongs to, counted from 0; 0 in no list.</param>
    public static Scene? Of(
        DrivetrainSpec spec,
        string tablePath,
        string title,
        double widthMm,
        double heightMm,
        int entry = 0
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(tablePath);
        ArgumentNullException.ThrowIfNull(title);
        if (Distances.TryGetValue(tablePath, out var distance))
        {
            var largest = distance == BenchDistance.Gap ? spec.Cogs.Teeth[^1] : 0;
            return MeasuringScene.Of(spec, new(distance, largest), "", widthMm, heightMm) is { } one
                ? one with
                {
                    Title = title,
                }
                : null;
        }
        if (tablePath == "rings[].lateral")
        {
            return entry < spec.Rings.Length
                ? Above(
                    [.. spec.Rings.Select(ring => (ring.LateralMm, RingOnPictureMm))],
                    (0, spec.Rings[entry].LateralMm),
                    title,
                    widthMm,
                    heightMm
                )
                : null;
        }
        if (Lateral(spec, tablePath) is { } lateral)
        {
            return Above(CogsOf(spec), lateral, title, widthMm, heightMm);
        }
        if (spec.RearDerailleur is not { } derailleur || !Paths.Contains(tablePath))
        {
            return null;
        }
        if (tablePath == "rearDerailleur.slant")
        {
            return Slant(spec, derailleur, title, widthMm, heightMm);
        }
        var place = new BenchPlace(
            tablePath == "rearDerailleur.cage.frontStop"
                ? BenchDistance.TensionToAxleAtFrontStop
                : BenchDistance.AcrossLinkPins
        );
        if (BenchPose.Of(spec, place) is not { } pose)
        {
            return null;
        }
        var far = tablePath == "frame.bbDrop";
        var scene = MeasuringScene.SideParts(spec, pose, far, title, widthMm, heightMm);
        var shapes = scene.Shapes.ToBuilder();
        Mark(shapes, tablePath, pose, derailleur, scene.PaperScale);
        return scene with { Shapes = shapes.ToImmutable() };
    }

    private static void Mark(
        ImmutableArray<Shape>.Builder shapes,
        string tablePath,
        BenchPose pose,
        RearDerailleur derailleur,
        double scale
    )
    {
        var level = new Point(1, 0);
        var link = pose.CagePivot - pose.UpperPivot;
        switch (tablePath)
        {
            case "frame.bbDrop":
                var above = new Point(0, pose.Axle.Y);
                MeasuringScene.Line(shapes, pose.Axle, above, Stroke.Centre);
                MeasuringScene.Measured(shapes, (pose.BottomBracket, above), "", scale);
                break;
            case "hanger.offset":
                Legs(shapes, pose.Axle, pose.HangerBolt, pose.HangerBolt - pose.Axle, scale);
                break;
            case "rearDerailleur.upperPivot":
                Legs(shapes, pose.HangerBolt, pose.UpperPivot, derailleur.UpperPivotMm, scale);
                break;
            case "rearDerailleur.cage.guide.offset":
                var guide = derailleur.Cage.Guide.OffsetMm;
                Legs(shapes, pose.CagePivot, pose.Guide, guide, scale);
                break;
            case "rearDerailleur.cage.tension.offset":
                var tension = derailleur.Cage.Tension.OffsetMm;
                Legs(shapes, pose.CagePivot, pose.Tension, tension, scale);
                break;
            case "rearDerailleur.bodyAngle":
                Angle(
                    shapes,
                    pose.HangerBolt,
                    derailleur.UpperPivotMm,
                    pose.UpperPivot - pose.HangerBolt,
                    scale
                );
                break;
            case "rearDerailleur.linkAngle":
                Angle(shapes, pose.UpperPivot, level, link, scale);
                break;
            default:
                Angle(
                    shapes,
                    pose.CagePivot,
                    derailleur.Cage.Tension.OffsetMm,
                    pose.Tension - pose.CagePivot,
                    scale
                );
                break;
        }
    }

    /// <summary>
    /// The two lengths of an offset, forward and up, from one point to another. The part that carries them may be turned in the
    /// picture: they are turned with it.
    /// </summary>
    private static void Legs(
        ImmutableArray<Shape>.Builder shapes,
        Point from,
        Point to,
        Point offset,
        double scale
    )
    {
        var along = to - from;
        var turn = Math.Atan2(along.Y, along.X) - Math.Atan2(offset.Y, offset.X);
        var corner = from + new Point(offset.X, 0).Turned(turn);
        MeasuringScene.Measured(shapes, (from, corner), "", scale);
        MeasuringScene.Measured(shapes, (corner, to), "", scale);
    }

    /// <summary>The angle from one direction to another about a point, the shorter way round.</summary>
    private static void Angle(
        ImmutableArray<Shape>.Builder shapes,
        Point about,
        Point from,
        Point to,
        double scale
    )
    {
        var radius = ArcOnPaperMm / scale;
        var start = Math.Atan2(from.Y, from.X);
        var sweep = Math.IEEERemainder(Math.Atan2(to.Y, to.X) - start, 2 * Math.PI);
        foreach (
            var (angle, stroke) in new[] { (start, Stroke.Centre), (start + sweep, Stroke.Warning) }
        )
        {
            var end =
                about + new Point(1.4 * radius * Math.Cos(angle), 1.4 * radius * Math.Sin(angle));
            MeasuringScene.Line(shapes, about, end, stroke);
        }
        shapes.Add(new Arc(about.X, about.Y, radius, start, sweep, Stroke.Warning));
        shapes.Add(new Circle(about.X, about.Y, 0.6 / scale, Stroke.Dimension, Filled: true));
    }

    private static (double From, double To)? Lateral(DrivetrainSpec spec, string tablePath)
    {
        var cogs = spec.Cogs;
        var last = cogs.Teeth.Length - 1;
        return tablePath switch
        {
            "cogs.smallestLateral" => (0, cogs.LateralMm(0)),
            "cogs.chainline" => (0, (cogs.LateralMm(0) + cogs.LateralMm(last)) / 2),
            "cogs.stackWidth" => (
                cogs.LateralMm(0) + (ChainSides.CogThicknessMm(spec) / 2),
                cogs.LateralMm(last) - (ChainSides.CogThicknessMm(spec) / 2)
            ),
            "cogs.spacing" when last > 0 => (cogs.LateralMm(1), cogs.LateralMm(0)),
            "rearDerailleur.guideLateralAtZero" when spec.RearDerailleur is { } derailleur => (
                0,
                derailleur.GuideLateralAtZeroMm
            ),
            _ => null,
        };
    }

    private static ImmutableArray<(double LateralMm, double TipMm)> CogsOf(DrivetrainSpec spec) =>
        [
            .. Enumerable
                .Range(0, spec.Cogs.Teeth.Length)
                .Select(i => (spec.Cogs.LateralMm(i), MeasuringScene.CogTip(spec.Cogs, i))),
        ];

    /// <summary>Cogs or rings and the bike's centre plane from behind: outboard is at the right.</summary>
    private static Scene Above(
        ImmutableArray<(double LateralMm, double TipMm)> discs,
        (double From, double To) ends,
        string title,
        double widthMm,
        double heightMm
    )
    {
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        var right = discs.Max(disc => disc.LateralMm) + BesideMm;
        var tall = Math.Max(AboveHalfMm, discs.Max(disc => disc.TipMm) + (BesideMm / 3));
        foreach (var (z, tip) in discs)
        {
            shapes.Add(new Line(z, -tip, z, tip, Stroke.Part));
        }
        shapes.Add(new Line(0, -tall, 0, tall, Stroke.Centre));
        var left = Math.Min(-BesideMm, ends.To - BesideMm);
        var scale = Math.Min(widthMm / (right - left), heightMm / (2 * tall));
        MeasuringScene.Measured(shapes, (new(ends.From, 0), new(ends.To, 0)), "", scale);
        return new(title, left, -tall, right - left, 2 * tall, shapes.ToImmutable())
        {
            PaperScale = scale,
        };
    }

    /// <summary>The cogs from behind with the way of the guide pulley under them, and how steep it is.</summary>
    private static Scene Slant(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        string title,
        double widthMm,
        double heightMm
    )
    {
        var scene = Above(CogsOf(spec), (0, 0), title, widthMm, heightMm);
        var cogs = spec.Cogs;
        var last = cogs.Teeth.Length - 1;
        var (outer, inner) = (cogs.LateralMm(0), cogs.LateralMm(last));
        var high = -MeasuringScene.CogTip(cogs, 0) - (BesideMm / 2);
        var low = high - ((outer - inner) * Math.Tan(derailleur.SlantRad));
        var shapes = ImmutableArray.CreateBuilder<Shape>();
        // The two filled ends that Above put at the centre plane have no meaning here.
        shapes.AddRange(scene.Shapes.Where(shape => shape is Line { Stroke: not Stroke.Warning }));
        shapes.Add(new Line(outer, high, inner, low, Stroke.Warning));
        Angle(
            shapes,
            new(outer, high),
            new(-1, 0),
            new(inner - outer, low - high),
            scene.PaperScale
        );
        var bottom = Math.Min(scene.Bottom, low - (BesideMm / 3));
        return scene with
        {
            Bottom = bottom,
            Height = scene.Top - bottom,
            Shapes = shapes.ToImmutable(),
        };
    }
}
