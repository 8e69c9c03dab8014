using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>The parts of a mechanism, each drawn as what it is.</summary>
internal static class Drawn
{
    // Sizes of things that the model does not know (mm): for the eye only, never dimensioned.
    private const double AxleRadiusMm = 5;
    private const double SpindleRadiusMm = 12;
    private const double BoltRadiusMm = 5;
    private const double PulleyBoltRadiusMm = 4;
    private const double CagePlateRadiusMm = 9;
    private const double KnuckleRadiusMm = 11;
    private const double LinkRadiusMm = 5.5;

    // Height of a link plate of a cycle chain, about 8.5 mm (common practice).
    private const double OuterPlateHalfHeightMm = 4.3;
    private const double PinRadiusMm = 1.85;

    /// <summary>The frame line and the cogs and rings that are not in use.</summary>
    internal static void Others(Sheet sheet, Mechanism mechanism)
    {
        var spec = mechanism.Spec;
        for (var i = spec.Rings.Length - 1; i >= 0; i--)
        {
            var ring = spec.Rings[i];
            if (i != mechanism.Result.RingIndex)
            {
                sheet.Circle(
                    mechanism.Ring.Centre,
                    Sprocket.TipRadiusMm(ring.Teeth, ring.TipDiameterMm),
                    Stroke.Faint
                );
            }
        }
        for (var i = spec.Cogs.Teeth.Length - 1; i >= 0; i--)
        {
            if (i != mechanism.Result.CogIndex)
            {
                sheet.Circle(
                    mechanism.Cog.Centre,
                    Sprocket.TipRadiusMm(spec.Cogs.Teeth[i], spec.Cogs.TipDiameterMm(i)),
                    Stroke.Faint
                );
            }
        }
    }

    /// <summary>The cog and the ring in use, with their centres and the line between them.</summary>
    internal static void InUse(Sheet sheet, Mechanism mechanism, ChainTrace? trace)
    {
        ToothedDisc(sheet, mechanism.Ring, trace?.GapAngleRad(1), SpindleRadiusMm);
        ToothedDisc(sheet, mechanism.Cog, trace?.GapAngleRad(0), AxleRadiusMm);
        sheet.Line(mechanism.Cog.Centre, mechanism.Ring.Centre, Stroke.Centre);
    }

    /// <summary>The pulleys of the cage.</summary>
    internal static void Pulleys(Sheet sheet, Mechanism mechanism, ChainTrace? trace)
    {
        if (mechanism.Tension is { } tension)
        {
            ToothedDisc(sheet, tension, trace?.GapAngleRad(2), PulleyBoltRadiusMm);
        }
        if (mechanism.Guide is { } guide)
        {
            ToothedDisc(sheet, guide, trace?.GapAngleRad(3), PulleyBoltRadiusMm);
        }
    }

    /// <summary>Hanger, hanger bolt, body and parallelogram link.</summary>
    internal static void Derailleur(Sheet sheet, Mechanism mechanism)
    {
        if (mechanism.HangerBolt is not { } bolt || mechanism.UpperPivot is not { } upper)
        {
            return;
        }
        sheet.Closed(
            Outline.Round((mechanism.Cog.Centre, AxleRadiusMm + 4), (bolt, BoltRadiusMm + 4)),
            Stroke.Part,
            filled: true
        );
        if (mechanism.CagePivot is { } pivot)
        {
            sheet.Closed(
                Outline.Round((upper, LinkRadiusMm), (pivot, LinkRadiusMm)),
                Stroke.Part,
                filled: true
            );
            sheet.Circle(pivot, KnuckleRadiusMm, Stroke.Part, filled: true);
        }
        sheet.Closed(
            Outline.Round((bolt, BoltRadiusMm + 4), (upper, LinkRadiusMm + 2)),
            Stroke.Part,
            filled: true
        );
        sheet.Circle(mechanism.Cog.Centre, AxleRadiusMm, Stroke.Part);
        sheet.Circle(bolt, BoltRadiusMm, Stroke.Part);
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
        for (var i = 1; i < rollers.Length; i += 2)
        {
            sheet.Closed(
                Outline.Plate(rollers[i - 1], rollers[i], OuterPlateHalfHeightMm),
                Stroke.Chain,
                filled: true
            );
        }
        foreach (var roller in rollers)
        {
            sheet.Circle(roller, PinRadiusMm, Stroke.Chain);
        }
    }

    /// <summary>The whole mechanism of another pose, dashed: cage, pulleys, link and pitch line.</summary>
    internal static void Ghost(Sheet sheet, Mechanism mechanism)
    {
        if (mechanism.Path is not null)
        {
            PitchLine(sheet, mechanism, Stroke.Ghost);
        }
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

    private static void ToothedDisc(
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
