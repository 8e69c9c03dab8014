using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>
/// Draws the parts of a top view. In the scene x is forward and y is the side away from the drive side: a lateral
/// position z stands at y = −z.
/// </summary>
internal sealed class PlanView
{
    // Sizes that the model does not know (mm): for the eye only, never dimensioned.
    private const double PulleyHalfThicknessMm = 1.2;
    private const double PlateThicknessMm = 1.2;
    private const double FrameThicknessMm = 6;
    private const double FrameAheadMm = 70;
    private const double FrameBehindMm = 30;

    // How far from the axle the spokes are drawn (mm).
    private const double SpokesToMm = 140;

    private readonly Sheet sheet;
    private readonly Mechanism mechanism;
    private readonly DrivetrainSpec spec;
    private readonly double axleX;
    private readonly double chainHalf;
    private readonly double cogLateral;
    private readonly double ringLateral;

    // The run that leaves the cog, where it ends (at the ring or at an idler), and the one from idler to ring.
    private readonly ChainRun? topRun;
    private readonly double towardsLateral;
    private readonly ChainRun? ringRun;
    private readonly HangerTilt tilt;

    internal PlanView(Sheet sheet, Mechanism mechanism, HangerTilt tilt = default)
    {
        this.tilt = tilt;
        this.sheet = sheet;
        this.mechanism = mechanism;
        spec = mechanism.Spec;
        axleX = mechanism.Cog.Centre.X;
        // A chain of unknown width is drawn as a line.
        chainHalf = (ChainSides.WidthMm(spec) ?? 0) / 2;
        cogLateral = spec.Cogs.LateralMm(mechanism.Result.CogIndex);
        ringLateral = spec.Rings[mechanism.Result.RingIndex].LateralMm;
        // The upper part of the chain alone: it is drawn even where the pulleys have no place.
        var path = ChainPath.Round(
            [.. mechanism.Sprockets.Take(mechanism.RingIndex + 1)],
            mechanism.PitchMm
        );
        towardsLateral =
            spec.Idler?.LateralBeside(spec.Rings[mechanism.Result.RingIndex]) ?? ringLateral;
        if (path.IsPossible && mechanism.Result.State != GearState.Unreachable)
        {
            topRun = path.Runs[0];
            ringRun = mechanism.Idler is null ? null : path.Runs[1];
        }
    }

    private double Rearmost => axleX - Math.Max(LargestCogTipMm, mechanism.Cog.TipRadiusMm);

    private double Foremost =>
        spec.Rings.Max(ring => Sprocket.TipRadiusMm(ring.Teeth, ring.TipDiameterMm));

    private double RingThicknessMm =>
        spec.Lateral?.RingThicknessMm ?? LateralPractice.RingThicknessMm;

    private double LargestCogTipMm
    {
        get
        {
            var last = spec.Cogs.Teeth.Length - 1;
            return Sprocket.TipRadiusMm(spec.Cogs.Teeth[last], spec.Cogs.TipDiameterMm(last));
        }
    }

    /// <summary>Where the rear ends: before the spokes with their name (mm).</summary>
    internal double RearEndsMm => axleX + SpokesToMm + (8 * sheet.TextMm);

    internal void CentrePlane(bool rearOnly = false)
    {
        var (left, right) = (
            Math.Min(Rearmost, axleX - SpokesToMm) - (4 * sheet.TextMm),
            rearOnly ? RearEndsMm : Foremost + (10 * sheet.TextMm)
        );
        sheet.Line(new(left, 0), new(right, 0), Stroke.Centre);
        Name(Texts.Get("top.centrePlane"), right, 0.6 * sheet.TextMm, Anchor.End);
    }

    /// <summary>The drive-side spokes that lie level, before and behind the axle.</summary>
    internal void Spokes()
    {
        if (SpokeClearance.Cone(spec) is not { } cone)
        {
            return;
        }
        var hub = spec.Lateral?.Spokes?.FlangeRadiusMm ?? 0;
        foreach (var side in (ReadOnlySpan<int>)[-1, 1])
        {
            sheet.Line(
                new(axleX + (side * hub), -cone.LateralMm(hub)),
                new(axleX + (side * SpokesToMm), -cone.LateralMm(SpokesToMm)),
                Stroke.Part
            );
        }
        Name(
            Texts.Get("top.spokes"),
            axleX + SpokesToMm + sheet.TextMm,
            -cone.LateralMm(SpokesToMm) - (sheet.TextMm / 2),
            Anchor.Start
        );
    }

    internal void Frame()
    {
        if (spec.Lateral?.DropoutFaceMm is not { } face)
        {
            return;
        }
        Box(
            axleX - FrameBehindMm,
            axleX + FrameAheadMm,
            face,
            face + FrameThicknessMm,
            Stroke.Frame
        );
        Name(
            Texts.Get("top.frame"),
            axleX + FrameAheadMm + sheet.TextMm,
            -face - FrameThicknessMm,
            Anchor.Start
        );
    }

    internal void Sprockets()
    {
        var half = ChainSides.CogThicknessMm(spec) / 2;
        for (var i = 0; i < spec.Cogs.Teeth.Length; i++)
        {
            var tip = Sprocket.TipRadiusMm(spec.Cogs.Teeth[i], spec.Cogs.TipDiameterMm(i));
            var at = spec.Cogs.LateralMm(i);
            var inUse = i == mechanism.Result.CogIndex;
            Box(axleX - tip, axleX + tip, at - half, at + half, inUse ? Stroke.Part : Stroke.Faint);
        }
        half = RingThicknessMm / 2;
        for (var i = 0; i < spec.Rings.Length; i++)
        {
            var ring = spec.Rings[i];
            var tip = Sprocket.TipRadiusMm(ring.Teeth, ring.TipDiameterMm);
            var inUse = i == mechanism.Result.RingIndex;
            Box(
                -tip,
                tip,
                ring.LateralMm - half,
                ring.LateralMm + half,
                inUse ? Stroke.Part : Stroke.Faint
            );
        }
    }

    /// <summary>The chain: on the cog, along the top run, on the ring.</summary>
    internal void Chain()
    {
        if (topRun is not { } run)
        {
            return;
        }
        var rear = axleX - mechanism.Cog.PitchRadiusMm - LateralPractice.PlateHalfHeightMm;
        var front = mechanism.Ring.PitchRadiusMm + LateralPractice.PlateHalfHeightMm;
        (double X, double Z)[] middle =
        [
            (rear, cogLateral),
            (run.Start.X, cogLateral),
            (run.End.X, towardsLateral),
            .. ringRun is { } last
                ? [(last.Start.X, towardsLateral), (last.End.X, ringLateral)]
                : Array.Empty<(double, double)>(),
            (front, ringLateral),
        ];
        sheet.Closed(
            [
                .. middle.Select(p => (p.X, -(p.Z + chainHalf))),
                .. middle.Reverse().Select(p => (p.X, -(p.Z - chainHalf))),
            ],
            Stroke.Chain,
            filled: true
        );
        sheet.Line(new(run.Start.X, -cogLateral), new(run.End.X, -towardsLateral), Stroke.Centre);
    }

    /// <summary>The pulleys and the plates of the cage.</summary>
    internal void Cage()
    {
        if (
            mechanism is not { Guide: { } guide, Tension: { } tension }
            || spec.RearDerailleur is not { } derailleur
        )
        {
            return;
        }
        var lateral = StopReach.GuideLateralMmAt(derailleur, mechanism.Result.SwingRad);
        foreach (var pulley in (Mechanism.Disc[])[tension, guide])
        {
            var at = lateral + Tilted(pulley.Centre);
            Box(
                pulley.Centre.X - pulley.TipRadiusMm,
                pulley.Centre.X + pulley.TipRadiusMm,
                at - PulleyHalfThicknessMm,
                at + PulleyHalfThicknessMm,
                Stroke.Part
            );
        }
        // A tilted cage stands askew; seen from above its plates lie where their middle is.
        lateral += (Tilted(guide.Centre) + Tilted(tension.Centre)) / 2;
        if (spec.Lateral?.CageInnerFaceMm is not { } inner)
        {
            return;
        }
        var (guideReach, tensionReach) = (
            spec.Lateral.CageReachMm ?? guide.TipRadiusMm,
            spec.Lateral.CageReachMm ?? tension.TipRadiusMm
        );
        var left = Math.Min(guide.Centre.X - guideReach, tension.Centre.X - tensionReach);
        var right = Math.Max(guide.Centre.X + guideReach, tension.Centre.X + tensionReach);
        Box(left, right, lateral - inner, lateral - inner + PlateThicknessMm, Stroke.Part);
        // The outer plate stands about as far out; nothing is measured from it.
        Box(left, right, lateral + inner - PlateThicknessMm, lateral + inner, Stroke.Faint);
    }

    private double Tilted(Point at) =>
        mechanism.HangerBolt is { } bolt ? tilt.LateralMm(at - bolt) : 0;

    internal void Dimensions(ClearanceReport? report)
    {
        var h = sheet.TextMm;
        var behind = Math.Min(Rearmost, axleX - SpokesToMm) - (2 * h);
        Lateral(behind, cogLateral, "top.cog", mechanism.Cog.Teeth, textBehind: true);
        Lateral(Foremost + (4 * h), ringLateral, "top.ring", mechanism.Ring.Teeth);
        ChainAngle();
        Rub();
        if (report is null)
        {
            return;
        }
        if (mechanism.Result.CogIndex == spec.Cogs.Teeth.Length - 1)
        {
            ToSpokes(report);
        }
        if (
            mechanism.Result.CogIndex == 0
            && spec.Lateral?.DropoutFaceMm is { } face
            && report.Find(ClearanceKind.ChainOnSmallestCog)?.Mm is { } room
        )
        {
            Room(axleX, face - room, face, room, face + FrameThicknessMm + h);
        }
    }

    /// <summary>
    /// Cage to spokes where it is least, with a tilted hanger that of the tilted one, so that the drawing and the figures
    /// beside it say the same: the spokes are drawn there once more, cut at the height of that point.
    /// </summary>
    private void ToSpokes(ClearanceReport report)
    {
        if (
            report.Find(
                report.Tilt is null ? ClearanceKind.CageOnLargestCog : ClearanceKind.CageTilted
            )
                is not { At: { } at, FaceLateralMm: { } face, Mm: { } room }
            || SpokeClearance.Cone(spec) is not { } cone
        )
        {
            return;
        }
        const double halfMm = 30;
        const int steps = 24;
        var axle = mechanism.Table.AxlePose.Axle;
        var cut = ImmutableArray.CreateBuilder<(double X, double Y)>();
        for (var i = 0; i <= steps; i++)
        {
            var x = at.X - halfMm + (2 * halfMm * i / steps);
            cut.Add((x, -cone.LateralMm((new Point(x, at.Y) - axle).Length)));
        }
        sheet.Add(new Polyline(cut.ToImmutable(), Stroke.Ghost));
        var h = sheet.TextMm;
        var top = cut.Max(point => point.Y);
        Name(Texts.Get("top.spokesAtCage"), at.X - h, top + (h / 2), Anchor.End);
        Room(at.X, face - room, face, room, -top - h);
    }

    private void Rub()
    {
        if ((ringRun ?? topRun) is not { } run || RingRub.Of(spec, mechanism.Result) is not { } rub)
        {
            return;
        }
        var part = rub.AlongRunMm / run.LengthMm;
        var x = run.End.X + (part * (run.Start.X - run.End.X));
        var outermost = spec.Rings.Max(ring => ring.LateralMm) + (RingThicknessMm / 2);
        Room(
            x,
            rub.ChainLateralMm,
            rub.RingFaceLateralMm,
            rub.ClearanceMm,
            Math.Max(outermost, rub.ChainLateralMm) + sheet.TextMm
        );
    }

    private void ChainAngle()
    {
        if (topRun is not { } run || double.IsNaN(mechanism.Result.ChainAngleRad))
        {
            return;
        }
        // The plane of ring or idler, from which the angle is read.
        sheet.Line(
            new(run.End.X, -towardsLateral),
            new(run.Start.X, -towardsLateral),
            Stroke.Centre
        );
        var (x, y) = ((run.Start.X + run.End.X) / 2, -(cogLateral + towardsLateral) / 2);
        var side = cogLateral >= towardsLateral ? -1 : 1;
        sheet.Add(
            new Label(
                x,
                y + (side * (chainHalf + (1.6 * sheet.TextMm))) - (sheet.TextMm / 2),
                Texts.Get("top.chainAngle", GearWords.Degrees(mechanism.Result.ChainAngleRad)),
                sheet.TextMm,
                Anchor.Middle,
                TurnRad: Math.Atan2(cogLateral - towardsLateral, run.End.X - run.Start.X),
                Stroke: Stroke.Dimension
            )
        );
    }

    /// <summary>A lateral position, from the centre plane; its figure before or behind the line.</summary>
    private void Lateral(double x, double lateral, string key, int teeth, bool textBehind = false)
    {
        var text = Texts.Get(key, teeth, GearWords.Signed(lateral, "0.0"));
        sheet.Add(
            textBehind
                ? new Dimension(x, -lateral, x, 0, 0, text, sheet.TextMm)
                : new Dimension(x, 0, x, -lateral, 0, text, sheet.TextMm)
        );
    }

    /// <summary>The room between two faces, its figure beside the line, at a lateral position that is clear of the parts.</summary>
    private void Room(
        double x,
        double fromLateral,
        double toLateral,
        double room,
        double textLateral
    )
    {
        // Outward also where they overlap, so that the figure always stands in front of the line.
        var (inner, outer) = (Math.Min(fromLateral, toLateral), Math.Max(fromLateral, toLateral));
        sheet.Add(
            new Dimension(
                x,
                -inner,
                x,
                -outer,
                0,
                room > 0
                    ? Texts.Get("top.room", GearWords.Signed(room, "0.0"))
                    : Texts.Get("side.overlap", GearWords.Signed(-room, "0.0")),
                sheet.TextMm
            )
            {
                TextAlongMm = textLateral - ((inner + outer) / 2),
            }
        );
    }

    private void Name(string text, double x, double y, Anchor anchor) =>
        sheet.Add(new Label(x, y, text, sheet.TextMm, anchor));

    private void Box(double left, double right, double inner, double outer, Stroke stroke) =>
        sheet.Closed(
            [(left, -inner), (right, -inner), (right, -outer), (left, -outer)],
            stroke,
            filled: stroke is not Stroke.Faint
        );
}
