using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What a close-up of the gap shows.</summary>
public sealed record GapViewOptions
{
    /// <summary>Millimetres of paper per millimetre of the bike; 1 prints true, so that a gauge can be laid on the paper.</summary>
    public double PaperScale { get; init; } = 1;

    /// <summary>Wanted gap (mm), or null.</summary>
    public double? WantedMm { get; init; }

    /// <summary>By how much the wanted gap may be missed, either way (mm), or null.</summary>
    public double? ToleranceMm { get; init; }

    /// <summary>Whether the drawing names every assumed value, or points to a list on the same paper.</summary>
    public bool NamesAssumed { get; init; } = true;

    /// <summary>Whether the head with the figures and the foot with what was assumed stand on the drawing, or elsewhere on the page.</summary>
    public bool ShowWords { get; init; } = true;
}

/// <summary>
/// A close-up of guide pulley and cog with the gap dimensioned where the gauge goes: to be printed beside the step.
/// </summary>
public static class GapView
{
    private const double TextMm = 2.6;

    // How much of the cog is shown either side of the line to the pulley (mm).
    private const double HalfWidthMm = 44;

    /// <summary>The scene; of a gear without a gap a drawing that says so.</summary>
    /// <exception cref="ArgumentException">The table has no such gear.</exception>
    public static Scene Draw(GearTable table, Gear gear, GapViewOptions? options = null)
    {
        options ??= new GapViewOptions();
        var mechanism = Mechanism.Of(table, gear);
        var sheet = new Sheet(TextMm / options.PaperScale);
        var result = mechanism.Result;
        var title = Texts.Get("gap.title", table.Spec.Name, gear.CogTeeth, gear.RingTeeth);
        if (
            SideViewDimensions.GapEnds(mechanism) is not { } ends
            || mechanism is not { Guide: { } guide, Path: { } path }
        )
        {
            sheet.Add(
                new Label(
                    0,
                    0,
                    Texts.Get(
                        "gap.none",
                        GearWords.Warning(result) ?? GearWords.State(result.State)
                    ),
                    sheet.TextMm,
                    Bold: true,
                    Stroke: Stroke.Warning
                )
            );
            return Finished(sheet, mechanism, title, options);
        }

        var trace = new ChainTrace(mechanism.Sprockets, path, mechanism.PitchMm);
        var window = Window(mechanism.Cog, guide, ends);
        Rim(sheet, mechanism.Cog, trace.GapAngleRad(0), window);
        sheet.Closed(
            Outline.Toothed(
                guide.Centre,
                guide.Teeth,
                guide.PitchRadiusMm,
                guide.TipRadiusMm,
                trace.GapAngleRad(3)
            ),
            Stroke.Part,
            filled: true
        );
        sheet.Circle(guide.Centre, guide.TipRadiusMm, Stroke.Faint);
        TipArc(sheet, mechanism.Cog, guide.Centre, window);
        sheet.Circle(guide.Centre, 4, Stroke.Part);
        Links(sheet, mechanism, trace, window);
        sheet.Line(
            Outline.At(
                mechanism.Cog.Centre,
                Math.Max(0, mechanism.Cog.TipRadiusMm - 12),
                Towards(mechanism.Cog.Centre, guide.Centre)
            ),
            guide.Centre,
            Stroke.Centre
        );

        var text =
            result.GapMm > 0
                ? Texts.Get("side.gap", GearWords.Signed(result.GapMm, "0.0"))
                : Texts.Get("side.overlap", GearWords.Signed(-result.GapMm, "0.0"));
        var forward = ends.OnGuide.Y > ends.OnCog.Y ? -1 : 1;
        sheet.Add(
            new Dimension(
                ends.OnCog.X,
                ends.OnCog.Y,
                ends.OnGuide.X,
                ends.OnGuide.Y,
                forward * (guide.TipRadiusMm + (1.5 * sheet.TextMm)),
                text,
                1.3 * sheet.TextMm
            )
        );
        Names(sheet, mechanism.Cog, guide, window);
        return Finished(sheet, mechanism, title, options);
    }

    private static Scene Finished(
        Sheet sheet,
        Mechanism mechanism,
        string title,
        GapViewOptions options
    )
    {
        if (!options.ShowWords)
        {
            return sheet.Scene(title, options.PaperScale);
        }
        var result = mechanism.Result;
        var lines = new List<(string, bool, Stroke)>
        {
            (
                Texts.Get("gap.where", result.Gear.RingTeeth, result.Gear.CogTeeth),
                true,
                Stroke.Part
            ),
        };
        if (result.GapMm > 0)
        {
            lines.Add(
                (Texts.Get("gap.head", GearWords.Signed(result.GapMm, "0.0")), false, Stroke.Part)
            );
        }
        if (double.IsFinite(result.GapMm) && GearWords.Warning(result) is { } warning)
        {
            lines.Add((warning, true, Stroke.Warning));
        }
        if (options.WantedMm is { } wanted)
        {
            lines.Add(
                (
                    options.ToleranceMm is { } tolerance
                        ? Texts.Get(
                            "gap.wantedWithin",
                            GearWords.Signed(wanted, "0.0"),
                            GearWords.Signed(tolerance, "0.0#")
                        )
                        : Texts.Get("gap.wanted", GearWords.Signed(wanted, "0.0")),
                    false,
                    Stroke.Part
                )
            );
        }
        if (double.IsFinite(result.GapMm) && result.GapTipUncertaintyMm > 0)
        {
            lines.Add(
                (
                    Texts.Get("gap.uncertain", GearWords.Signed(result.GapTipUncertaintyMm, "0.0")),
                    false,
                    Stroke.Part
                )
            );
        }
        sheet.LinesAbove(lines);
        if (GearWords.Assumed(mechanism.Spec, options.NamesAssumed) is { } assumed)
        {
            sheet.LinesBelow([assumed]);
        }
        return sheet.Scene(title, options.PaperScale);
    }

    private static double Towards(Point from, Point to) => Math.Atan2(to.Y - from.Y, to.X - from.X);

    /// <summary>The tip circle of the cog as far as it lies in the window: the gap is measured from it.</summary>
    private static void TipArc(Sheet sheet, Mechanism.Disc cog, Point towards, Extent window)
    {
        const double stepRad = 0.01;
        var middle = Towards(cog.Centre, towards);
        var half = 0.0;
        while (
            half + stepRad < Math.PI
            && Inside(middle + half + stepRad)
            && Inside(middle - half - stepRad)
        )
        {
            half += stepRad;
        }
        sheet.Add(
            new Arc(
                cog.Centre.X,
                cog.Centre.Y,
                cog.TipRadiusMm,
                middle - half,
                2 * half,
                Stroke.Faint
            )
        );

        bool Inside(double angle)
        {
            var at = Outline.At(cog.Centre, cog.TipRadiusMm, angle);
            return window.Holds(at.X, at.Y);
        }
    }

    private static Extent Window(
        Mechanism.Disc cog,
        Mechanism.Disc guide,
        (Point OnCog, Point OnGuide) ends
    )
    {
        var x = guide.Centre.X;
        return new Extent(
            Math.Min(x - HalfWidthMm, ends.OnCog.X - HalfWidthMm),
            guide.Centre.Y - guide.TipRadiusMm - 4,
            Math.Max(x + HalfWidthMm, ends.OnCog.X + HalfWidthMm),
            Math.Max(ends.OnCog.Y + 26, Math.Min(cog.Centre.Y, guide.Centre.Y + guide.TipRadiusMm))
        );
    }

    /// <summary>The part of a toothed rim that lies in the window, as one or more open lines.</summary>
    private static void Rim(Sheet sheet, Mechanism.Disc disc, double gapAngleRad, Extent window)
    {
        var outline = Outline.Toothed(
            disc.Centre,
            disc.Teeth,
            disc.PitchRadiusMm,
            disc.TipRadiusMm,
            gapAngleRad
        );
        var outside = 0;
        while (outside < outline.Length && window.Holds(outline[outside].X, outline[outside].Y))
        {
            outside++;
        }
        if (outside == outline.Length)
        {
            sheet.Closed(outline, Stroke.Part, filled: true);
            return;
        }
        var run = ImmutableArray.CreateBuilder<(double X, double Y)>();
        for (var i = 1; i <= outline.Length; i++)
        {
            var at = outline[(outside + i) % outline.Length];
            if (window.Holds(at.X, at.Y))
            {
                run.Add(at);
                continue;
            }
            if (run.Count > 1)
            {
                sheet.Add(new Polyline(run.ToImmutable(), Stroke.Part));
            }
            run.Clear();
        }
    }

    /// <summary>The links whose two pins lie in the window.</summary>
    private static void Links(Sheet sheet, Mechanism mechanism, ChainTrace trace, Extent window)
    {
        if (!mechanism.TakesTheChain)
        {
            return;
        }
        var pins = trace.Rollers(mechanism.Table.Pitches);
        for (var pass = 0; pass < 2; pass++)
        {
            // Inner links first, the outer ones lie on them.
            for (var i = 0; i < pins.Length; i++)
            {
                var (from, to) = (pins[i], pins[(i + 1) % pins.Length]);
                var isOuter = i % 2 == 0;
                if (
                    isOuter == (pass == 1)
                    && window.Holds(from.X, from.Y)
                    && window.Holds(to.X, to.Y)
                )
                {
                    Drawn.Link(sheet, from, to, isOuter);
                }
            }
        }
    }

    private static void Names(Sheet sheet, Mechanism.Disc cog, Mechanism.Disc guide, Extent window)
    {
        sheet.Add(
            new Label(
                Math.Clamp(cog.Centre.X, window.Left, window.Right),
                window.Top - (1.2 * sheet.TextMm),
                Texts.Get("gap.cog", cog.Teeth),
                sheet.TextMm,
                Anchor.Middle
            )
        );
        sheet.Add(
            new Label(
                guide.Centre.X,
                guide.Centre.Y - 4 - (2 * sheet.TextMm),
                Texts.Get("gap.pulley", guide.Teeth),
                0.8 * sheet.TextMm,
                Anchor.Middle
            )
            {
                HasHalo = false,
            }
        );
    }
}
