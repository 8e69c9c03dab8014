using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>The parts of a mechanism, each drawn as what it is.</summary>
internal static class Drawn
{
    // Sizes of things that the model does not know (mm): for the eye only, never dimensioned.
    internal const double AxleRadiusMm = 5;
    internal const double SpindleRadiusMm = 12;
    internal const double BoltRadiusMm = 5;
    internal const double PulleyBoltRadiusMm = 4;
    internal const double CagePlateRadiusMm = 9;
    internal const double KnuckleRadiusMm = 11;
    internal const double LinkRadiusMm = 5.5;

    // Height of a link plate of a cycle chain, about 8.5 mm (common practice).
    private const double OuterPlateHalfHeightMm = 4.3;
    private const double InnerPlateHalfHeightMm = 3.5;
    private const double PinRadiusMm = 1.85;

    /// <summary>The cogs and rings not in use that lie behind the ones in use.</summary>
    internal static void OthersBehind(Sheet sheet, Mechanism mechanism)
    {
        foreach (var (centre, tipRadius, inFront) in Others(mechanism))
        {
            if (!inFront)
            {
                sheet.Circle(centre, tipRadius, Stroke.Faint);
            }
        }
    }

    /// <summary>
    /// The smaller cogs, which lie in front of the one in use, and the smaller rings, which lie behind but are shown.
    /// </summary>
    internal static void OthersInFront(Sheet sheet, Mechanism mechanism)
    {
        foreach (var (centre, tipRadius, inFront) in Others(mechanism))
        {
            if (inFront)
            {
                sheet.Circle(centre, tipRadius, Stroke.Faint);
            }
        }
    }

    internal static IEnumerable<(Point Centre, double TipRadiusMm, bool InFront)> Others(
        Mechanism mechanism
    )
    {
        var spec = mechanism.Spec;
        for (var i = 0; i < spec.Rings.Length; i++)
        {
            var ring = spec.Rings[i];
            if (i != mechanism.Result.RingIndex)
            {
                yield return (
                    mechanism.Ring.Centre,
                    Sprocket.TipRadiusMm(ring.Teeth, ring.TipDiameterMm),
                    ring.Teeth < mechanism.Ring.Teeth
                );
            }
        }
        for (var i = 0; i < spec.Cogs.Teeth.Length; i++)
        {
            if (i != mechanism.Result.CogIndex)
            {
                yield return (
                    mechanism.Cog.Centre,
                    Sprocket.TipRadiusMm(spec.Cogs.Teeth[i], spec.Cogs.TipDiameterMm(i)),
                    i < mechanism.Result.CogIndex
                );
            }
        }
    }

    /// <summary>The cog and the ring in use, with their centres and the line between them.</summary>
    internal static void InUse(Sheet sheet, Mechanism mechanism, ChainTrace? trace)
    {
        ToothedDisc(
            sheet,
            mechanism.Ring,
            trace?.GapAngleRad(mechanism.RingIndex),
            SpindleRadiusMm
        );
        ToothedDisc(sheet, mechanism.Cog, trace?.GapAngleRad(0), AxleRadiusMm);
        OthersInFront(sheet, mechanism);
        sheet.Line(mechanism.Cog.Centre, mechanism.Ring.Centre, Stroke.Centre);
    }

    /// <summary>The pulleys of the cage.</summary>
    internal static void Pulleys(Sheet sheet, Mechanism mechanism, ChainTrace? trace)
    {
        if (mechanism.Tension is { } tension)
        {
            ToothedDisc(
                sheet,
                tension,
                trace?.GapAngleRad(mechanism.RingIndex + 1),
                PulleyBoltRadiusMm
            );
        }
        if (mechanism.Guide is { } guide)
        {
            ToothedDisc(
                sheet,
                guide,
                trace?.GapAngleRad(mechanism.RingIndex + 2),
                PulleyBoltRadiusMm
            );
        }
    }

    /// <summary>Hanger, hanger bolt, body and parallelogram link.</summary>
    internal static void Derailleur(Sheet sheet, Mechanism mechanism)
    {
        if (mechanism.HangerBolt is not { } bolt || mechanism.UpperPivot is not { } upper)
        {
            return;
        }
        var isOnAxle = mechanism.Spec.RearDerailleur is { Coaxial: not null };
        if (!isOnAxle)
        {
            sheet.Closed(
                Outline.Round((mechanism.Cog.Centre, AxleRadiusMm + 4), (bolt, BoltRadiusMm + 4)),
                Stroke.Part,
                filled: true
            );
        }
        if (mechanism.CagePivot is { } pivot)
        {
            sheet.Closed(
                Outline.Round((upper, LinkRadiusMm), (pivot, LinkRadiusMm)),
                Stroke.Part,
                filled: true
            );
            sheet.Circle(pivot, KnuckleRadiusMm, Stroke.Part, filled: true);
        }
        // On the axle the clamp is the body's own end.
        var clampMm = isOnAxle ? AxleRadiusMm + 6 : BoltRadiusMm + 4;
        sheet.Closed(
            Outline.Round((bolt, clampMm), (upper, LinkRadiusMm + 2)),
            Stroke.Part,
            filled: true
        );
        sheet.Circle(mechanism.Cog.Centre, AxleRadiusMm, Stroke.Part);
        if (!isOnAxle)
        {
            sheet.Circle(bolt, BoltRadiusMm, Stroke.Part);
        }
        sheet.Circle(upper, LinkRadiusMm / 2, Stroke.Part);
    }

    /// <summary>The cage plate: the outline round both pulleys' bolts and the pivot.</summary>
    internal static void Cage(Sheet sheet, Mechanism mechanism, Stroke stroke)
    {
        if (mechanism is not { Guide: { } guide, Tension: { } tension, CagePivot: { } pivot })
        {
            return;
        }
        sheet.Closed(
            Outline.Round(
                (guide.Centre, CagePlateRadiusMm),
                (tension.Centre, CagePlateRadiusMm),
                (pivot, KnuckleRadiusMm)
            ),
            stroke
        );
        sheet.Circle(pivot, PulleyBoltRadiusMm / 2, stroke);
    }

    /// <summary>The chain: its pitch line along runs and arcs, and its links as they lie when the path takes the chain.</summary>
    internal static void ChainOf(
        Sheet sheet,
        Mechanism mechanism,
        ChainTrace trace,
        bool showRollers
    )
    {
        PitchLine(sheet, mechanism, mechanism.TakesTheChain ? Stroke.Chain : Stroke.Warning);
        if (!showRollers || !mechanism.TakesTheChain)
        {
            return;
        }
        var rollers = trace.Rollers(mechanism.Table.Pitches);
        // Seen from the drive side the outer plates lie on the inner ones.
        for (var i = 2; i < rollers.Length; i += 2)
        {
            Plate(sheet, rollers[i - 1], rollers[i], InnerPlateHalfHeightMm);
        }
        if (rollers.Length % 2 == 0)
        {
            Plate(sheet, rollers[^1], rollers[0], InnerPlateHalfHeightMm);
        }
        for (var i = 1; i < rollers.Length; i += 2)
        {
            Plate(sheet, rollers[i - 1], rollers[i], OuterPlateHalfHeightMm);
        }
        if (rollers.Length % 2 == 1)
        {
            Plate(sheet, rollers[^1], rollers[0], OuterPlateHalfHeightMm);
        }
        foreach (var roller in rollers)
        {
            sheet.Circle(roller, PinRadiusMm, Stroke.Chain);
        }
    }

    /// <summary>The chain of another pose, dashed.</summary>
    internal static void GhostChain(Sheet sheet, Mechanism mechanism)
    {
        if (mechanism.Path is not null)
        {
            PitchLine(sheet, mechanism, Stroke.Ghost);
        }
    }

    /// <summary>The derailleur of another pose, dashed: cage, pulleys and link.</summary>
    internal static void GhostDerailleur(Sheet sheet, Mechanism mechanism)
    {
        Cage(sheet, mechanism, Stroke.Ghost);
        foreach (var pulley in (ReadOnlySpan<Mechanism.Disc?>)[mechanism.Guide, mechanism.Tension])
        {
            if (pulley is { } disc)
            {
                sheet.Circle(disc.Centre, disc.TipRadiusMm, Stroke.Ghost);
            }
        }
        if (mechanism is { UpperPivot: { } upper, CagePivot: { } pivot, HangerBolt: { } bolt })
        {
            sheet.Line(bolt, upper, Stroke.Ghost);
            sheet.Line(upper, pivot, Stroke.Ghost);
        }
    }

    /// <summary>One link with its two pins.</summary>
    internal static void Link(Sheet sheet, Point from, Point to, bool isOuter)
    {
        Plate(sheet, from, to, isOuter ? OuterPlateHalfHeightMm : InnerPlateHalfHeightMm);
        sheet.Circle(from, PinRadiusMm, Stroke.Chain);
        sheet.Circle(to, PinRadiusMm, Stroke.Chain);
    }

    private static void Plate(Sheet sheet, Point from, Point to, double halfHeightMm) =>
        sheet.Closed(Outline.Plate(from, to, halfHeightMm), Stroke.Chain, filled: true);

    private static void PitchLine(Sheet sheet, Mechanism mechanism, Stroke stroke)
    {
        var path = mechanism.Path!;
        for (var i = 0; i < mechanism.Sprockets.Count; i++)
        {
            var sprocket = mechanism.Sprockets[i];
            var wrap = path.Wraps[i];
            sheet.Add(
                new Arc(
                    sprocket.Centre.X,
                    sprocket.Centre.Y,
                    Sprocket.PitchRadiusMm(sprocket.Teeth, mechanism.PitchMm),
                    wrap.StartRad,
                    -sprocket.Sense * wrap.AngleRad,
                    stroke
                )
            );
            sheet.Line(path.Runs[i].Start, path.Runs[i].End, stroke);
        }
    }

    internal static void ToothedDisc(
        Sheet sheet,
        Mechanism.Disc disc,
        double? gapAngleRad,
        double boreRadiusMm
    )
    {
        sheet.Closed(
            Outline.Toothed(
                disc.Centre,
                disc.Teeth,
                disc.PitchRadiusMm,
                disc.TipRadiusMm,
                gapAngleRad ?? (Math.PI / 2)
            ),
            Stroke.Part,
            filled: true
        );
        sheet.Circle(disc.Centre, disc.PitchRadiusMm, Stroke.Centre);
        sheet.Circle(disc.Centre, disc.TipRadiusMm, Stroke.Faint);
        sheet.Circle(disc.Centre, boreRadiusMm, Stroke.Part);
    }
}
