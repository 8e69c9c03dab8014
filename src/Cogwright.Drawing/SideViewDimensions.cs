using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>The dimensions of a side view, each where a gauge or a rule would lie.</summary>
internal static class SideViewDimensions
{
    internal static void Add(Sheet sheet, Mechanism mechanism)
    {
        CageAngle(sheet, mechanism);
        Gap(sheet, mechanism);
        Chainstay(sheet, mechanism);
    }

    /// <summary>The tips between which the gap is measured, on the line from the axle to the guide pulley.</summary>
    internal static (Point OnCog, Point OnGuide)? GapEnds(Mechanism mechanism)
    {
        if (mechanism.Guide is not { } guide || !double.IsFinite(mechanism.Result.GapMm))
        {
            return null;
        }
        var cog = mechanism.Cog;
        var between = guide.Centre - cog.Centre;
        var angle = Math.Atan2(between.Y, between.X);
        return (
            Outline.At(cog.Centre, cog.TipRadiusMm, angle),
            Outline.At(guide.Centre, guide.TipRadiusMm, angle + Math.PI)
        );
    }

    private static void Gap(Sheet sheet, Mechanism mechanism)
    {
        if (Gap(mechanism, sheet.TextMm) is { } dimension)
        {
            sheet.Add(dimension);
        }
    }

    /// <summary>The gap's dimension, or null without a gap.</summary>
    /// <param name="mechanism">The mechanism.</param>
    /// <param name="textMm">Height of its text (mm).</param>
    /// <param name="offsetMm">Where it stands, as it was found before (mm); a free place is looked for when null.</param>
    internal static Dimension? Gap(Mechanism mechanism, double textMm, double? offsetMm = null)
    {
        if (GapEnds(mechanism) is not { } ends)
        {
            return null;
        }
        var gap = mechanism.Result.GapMm;
        var text =
            gap > 0
                ? Texts.Get("side.gap", GearWords.Signed(gap, "0.0"))
                : Texts.Get("side.overlap", GearWords.Signed(-gap, "0.0"));
        return offsetMm is { } offset
            ? new(ends.OnCog.X, ends.OnCog.Y, ends.OnGuide.X, ends.OnGuide.Y, offset, text, textMm)
            : FreePlace(textMm, mechanism, ends, text);
    }

    /// <summary>
    /// The dimension at the first offset at which its figure is clear of chain, teeth and the frame line: forward
    /// first, where the two rims part and the loop of the chain is empty.
    /// </summary>
    private static Dimension FreePlace(
        double h,
        Mechanism mechanism,
        (Point OnCog, Point OnGuide) ends,
        string text
    )
    {
        var forward = ends.OnGuide.Y > ends.OnCog.Y ? -1 : 1;
        var usual = mechanism.Guide!.Value.TipRadiusMm + (2 * h);
        var obstacles = Obstacles(mechanism);
        Dimension? first = null;
        foreach (var side in (ReadOnlySpan<int>)[forward, -forward])
        {
            for (var step = 0; step < 20; step++)
            {
                // Outward and inward from the usual place in turn.
                var away = (step + 1) / 2 * h * (step % 2 == 0 ? 1 : -1);
                if (usual + away < h)
                {
                    continue;
                }
                var dimension = new Dimension(
                    ends.OnCog.X,
                    ends.OnCog.Y,
                    ends.OnGuide.X,
                    ends.OnGuide.Y,
                    side * (usual + away),
                    text,
                    h
                );
                first ??= dimension;
                var figure = Extent
                    .Of(DimensionLayout.Shapes(dimension).OfType<Label>())
                    .Grown(0.4 * h);
                if (!obstacles.Any(at => figure.Holds(at.X, at.Y)))
                {
                    return dimension;
                }
            }
        }
        return first!;
    }

    private static List<Point> Obstacles(Mechanism mechanism)
    {
        var points = new List<Point>();
        foreach (
            var disc in (ReadOnlySpan<Mechanism.Disc?>)
                [mechanism.Cog, mechanism.Ring, mechanism.Guide, mechanism.Tension]
        )
        {
            if (disc is { } there)
            {
                for (var angle = 0; angle < 90; angle++)
                {
                    points.Add(Outline.At(there.Centre, there.TipRadiusMm, Math.Tau * angle / 90));
                }
            }
        }
        AddLine(points, mechanism.Cog.Centre, mechanism.Ring.Centre);
        if (mechanism is { CagePivot: { } pivot, Tension: { } tension })
        {
            AddLine(points, pivot, tension.Centre);
        }
        foreach (var run in mechanism.Path?.Runs ?? [])
        {
            AddLine(points, run.Start, run.End);
        }
        return points;
    }

    private static void AddLine(List<Point> points, Point from, Point to)
    {
        const double stepMm = 3;
        var steps = (int)Math.Ceiling((to - from).Length / stepMm);
        for (var i = 0; i <= steps; i++)
        {
            var part = steps == 0 ? 0 : (double)i / steps;
            points.Add(new(from.X + (part * (to.X - from.X)), from.Y + (part * (to.Y - from.Y))));
        }
    }

    internal static void CageAngle(Sheet sheet, Mechanism mechanism)
    {
        if (
            mechanism is not { CagePivot: { } pivot, Tension: { } tension }
            || mechanism.Spec.RearDerailleur is not { } derailleur
        )
        {
            return;
        }
        var offset = derailleur.Cage.Tension.OffsetMm;
        var zero = Math.Atan2(offset.Y, offset.X);
        var turn = mechanism.CageAngleRad;
        var radius = offset.Length + tension.TipRadiusMm + (1.2 * sheet.TextMm);
        var beyond = radius + (0.8 * sheet.TextMm);
        sheet.Line(pivot, Outline.At(pivot, beyond, zero), Stroke.Centre);
        sheet.Line(pivot, Outline.At(pivot, beyond, zero + turn), Stroke.Centre);
        sheet.Add(new Arc(pivot.X, pivot.Y, radius, zero, turn, Stroke.Dimension));
        var tip = Outline.At(pivot, radius, zero + turn);
        var (sin, cos) = Math.SinCos(zero + turn);
        var sense = Math.Sign(turn);
        if (Math.Abs(turn) * radius > 3 * sheet.TextMm)
        {
            sheet.Add(DimensionLayout.Arrow(tip.X, tip.Y, sin * sense, -cos * sense, sheet.TextMm));
        }
        var at = Outline.At(pivot, radius + (1.3 * sheet.TextMm), zero + (turn / 2));
        var across = Math.Cos(zero + (turn / 2));
        var anchor =
            across > 0.3 ? Anchor.Start
            : across < -0.3 ? Anchor.End
            : Anchor.Middle;
        sheet.Add(
            new Label(
                at.X,
                at.Y - (anchor == Anchor.Middle ? sheet.TextMm : sheet.TextMm / 2),
                mechanism.Result.HasPose
                    ? Texts.Get("side.cage", GearWords.Degrees(turn))
                    : Texts.Get(
                        mechanism.Result.State == GearState.Short
                            ? "side.cageAtFrontStop"
                            : "side.cageAtRearStop"
                    ),
                sheet.TextMm,
                anchor,
                Stroke: Stroke.Dimension
            )
        );
    }

    internal static void Chainstay(Sheet sheet, Mechanism mechanism)
    {
        var axle = mechanism.Cog.Centre;
        var bracket = mechanism.Ring.Centre;
        var spec = mechanism.Spec;
        var highest = spec.Rings.Max(ring => Sprocket.TipRadiusMm(ring.Teeth, ring.TipDiameterMm));
        var largest = spec.Cogs.Teeth.Length - 1;
        highest = Math.Max(
            highest,
            Sprocket.TipRadiusMm(spec.Cogs.Teeth[largest], spec.Cogs.TipDiameterMm(largest))
        );
        if (mechanism.Idler is { } idler)
        {
            // How far the idler stands above the line from axle to bracket.
            var (along, to) = (bracket - axle, idler.Centre - axle);
            highest = Math.Max(
                highest,
                (((along.X * to.Y) - (along.Y * to.X)) / along.Length) + idler.TipRadiusMm
            );
        }
        sheet.Add(
            new Dimension(
                axle.X,
                axle.Y,
                bracket.X,
                bracket.Y,
                highest + (2 * sheet.TextMm),
                Texts.Get(
                    mechanism.Table.TravelMm == 0 ? "side.chainstay" : "side.axleToBracket",
                    GearWords.Signed((bracket - axle).Length, "0.#")
                ),
                sheet.TextMm
            )
        );
    }

    /// <summary>Rear axle to hanger bolt: what places the derailleur on the frame.</summary>
    internal static void Hanger(Sheet sheet, Mechanism mechanism)
    {
        if (
            mechanism.HangerBolt is not { } bolt
            || mechanism.Spec.RearDerailleur is { Coaxial: not null }
        )
        {
            return;
        }
        var axle = mechanism.Cog.Centre;
        // Behind the bike, clear of the loop of the chain.
        sheet.Add(
            new Dimension(
                axle.X,
                axle.Y,
                bolt.X,
                bolt.Y,
                -(Drawn.BoltRadiusMm + (5 * sheet.TextMm)),
                Texts.Get("side.hanger", GearWords.Signed((bolt - axle).Length, "0.0")),
                sheet.TextMm
            )
        );
    }
}
