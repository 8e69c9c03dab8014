using System.Text;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>
/// The side view taken apart for a screen: every part that keeps its shape is written once (<see cref="Markup"/>), and a pose of the
/// mechanism (<see cref="Pose"/>) is the handful of numbers that put the parts in their places. It shows the same mechanism as
/// <see cref="SideView"/>, from the same result; only the plates of the chain are drawn as thick lines.
/// </summary>
/// <remarks>
/// Coordinates are those of the side view with y turned down. Places are three numbers (x, y, turn in degrees clockwise), lines four
/// (from, to), points of the chain two. A part that is not there has no element to put in its place.
/// </remarks>
public sealed partial class MovingSideView
{
    /// <summary>How many parts have a place.</summary>
    public const int PartCount = (int)Part.Knuckle + 1;

    /// <summary>How many lines there are at most.</summary>
    public const int LineCount = 8;

    private const int CentreLine = 0;
    private const int ParallelogramLink = 1;
    private const int FirstSuspensionLine = 2;

    // Pens are chosen for the paper's usual scale; on the screen the style sheet gives widths that do not grow with the drawing.
    private const double PenScale = 0.35;

    private readonly Gear gear;
    private double? gapOffsetMm;

    private MovingSideView(Gear gear, string markup, Extent whole, Extent derailleur)
    {
        this.gear = gear;
        Markup = markup;
        Whole = whole;
        Derailleur = derailleur;
    }

    /// <summary>The parts that keep their shape.</summary>
    private enum Part
    {
        OthersBehind,
        OthersInFront,
        Ring,
        Cog,
        Idler,
        Hanger,
        Body,
        Tension,
        Guide,
        Cage,
        Knuckle,
    }

    /// <summary>What stands inside the picture, before anything is in its place.</summary>
    public string Markup { get; }

    /// <summary>The box that holds the whole drivetrain (mm).</summary>
    public Extent Whole { get; }

    /// <summary>The box that holds cogs and derailleur in every gear (mm); the whole drivetrain when there is no derailleur.</summary>
    public Extent Derailleur { get; }

    /// <summary>How many numbers a pose has with a chain of that many pitches.</summary>
    public static int NumberCount(int pitches) => (3 * PartCount) + (4 * LineCount) + (2 * pitches);

    /// <summary>The drawing of a gear.</summary>
    /// <param name="table">All gears: the frames are chosen so that they hold every one.</param>
    /// <param name="gear">The gear in use.</param>
    /// <param name="before">The state to lay over it, dashed, or null.</param>
    /// <param name="beforeGear">That state's gear when its numbers of teeth differ.</param>
    /// <exception cref="ArgumentException">The table has no such gear.</exception>
    public static MovingSideView Of(
        GearTable table,
        Gear gear,
        GearTable? before = null,
        Gear? beforeGear = null
    )
    {
        var mechanism = Mechanism.Of(table, gear);
        var earlier = before?.Find(beforeGear ?? gear) is null
            ? null
            : Mechanism.Of(before!, beforeGear ?? gear);
        return new(
            gear,
            new Writer(mechanism, earlier).Write(),
            WholeOf(mechanism),
            DerailleurOf(mechanism)
        );
    }

    /// <summary>Puts every part in its place.</summary>
    /// <param name="table">The table to draw from; it may hold this gear alone.</param>
    /// <param name="numbers">Filled with the places; as long as <see cref="NumberCount"/> says.</param>
    /// <param name="gauge">What is dimensioned.</param>
    /// <param name="textMm">Height of its figure (mm of the scene).</param>
    /// <param name="atRest">Whether there is time to look for a free place for the figure.</param>
    /// <returns>The dimension as markup, and how the chain lies.</returns>
    public MovingPose Pose(
        GearTable table,
        Span<double> numbers,
        Gauge gauge,
        double textMm,
        bool atRest
    )
    {
        ArgumentNullException.ThrowIfNull(table);
        var mechanism = Mechanism.Of(table, gear);
        var trace = mechanism.Path is { } path
            ? new ChainTrace(mechanism.Sprockets, path, mechanism.PitchMm)
            : null;
        numbers.Clear();
        Places(mechanism, trace, numbers);
        Lines(mechanism, numbers[(3 * PartCount)..]);
        trace?.Fill(numbers[((3 * PartCount) + (4 * LineCount))..]);
        return new(
            Dimensions(mechanism, gauge, textMm, atRest),
            trace is null ? ChainLie.None
                : mechanism.TakesTheChain ? ChainLie.Taut
                : ChainLie.Wrong,
            Texts.Get(
                "side.title",
                table.Spec.Name,
                gear.RingTeeth,
                gear.CogTeeth,
                GearWords.State(mechanism.Result.State)
            )
        );
    }

    private static void Places(Mechanism mechanism, ChainTrace? trace, Span<double> numbers)
    {
        var pose = mechanism.Table.AxlePose;
        var axle = mechanism.Cog.Centre;
        var ring = mechanism.RingIndex;
        Put(numbers, Part.OthersBehind, axle, 0);
        Put(numbers, Part.OthersInFront, axle, 0);
        Put(numbers, Part.Cog, axle, Phase(trace, 0));
        Put(numbers, Part.Ring, mechanism.Ring.Centre, Phase(trace, ring));
        if (mechanism.Idler is { } idler)
        {
            Put(numbers, Part.Idler, idler.Centre, Phase(trace, 1));
        }
        if (mechanism.HangerBolt is { } bolt)
        {
            Put(numbers, Part.Hanger, axle, pose.RotationRad);
            Put(numbers, Part.Body, bolt, mechanism.Result.BodyAngleRad + pose.RotationRad);
        }
        if (mechanism is { CagePivot: { } pivot, Guide: { } guide, Tension: { } tension })
        {
            Put(numbers, Part.Tension, tension.Centre, Phase(trace, ring + 1));
            Put(numbers, Part.Guide, guide.Centre, Phase(trace, ring + 2));
            Put(numbers, Part.Cage, pivot, mechanism.CageAngleRad);
            Put(numbers, Part.Knuckle, pivot, 0);
        }
    }

    private static double Phase(ChainTrace? trace, int sprocket) =>
        trace?.GapAngleRad(sprocket) ?? (Math.PI / 2);

    private static void Put(Span<double> numbers, Part part, Point at, double turnRad)
    {
        var i = 3 * (int)part;
        numbers[i] = at.X;
        numbers[i + 1] = -at.Y;
        numbers[i + 2] = -turnRad * 180 / Math.PI;
    }

    private static void Lines(Mechanism mechanism, Span<double> numbers)
    {
        Put(numbers, CentreLine, mechanism.Cog.Centre, mechanism.Ring.Centre);
        if (mechanism is { UpperPivot: { } upper, CagePivot: { } pivot })
        {
            Put(numbers, ParallelogramLink, upper, pivot);
        }
        var line = FirstSuspensionLine;
        foreach (var (from, to) in RearEndDrawn.LinksOf(mechanism))
        {
            Put(numbers, line++, from, to);
        }
    }

    private static void Put(Span<double> numbers, int line, Point from, Point to)
    {
        var i = 4 * line;
        numbers[i] = from.X;
        numbers[i + 1] = -from.Y;
        numbers[i + 2] = to.X;
        numbers[i + 3] = -to.Y;
    }

    private string Dimensions(Mechanism mechanism, Gauge gauge, double textMm, bool atRest)
    {
        var sheet = new Sheet(textMm);
        switch (gauge)
        {
            case Gauge.Gap:
                if (atRest)
                {
                    gapOffsetMm = null;
                }
                if (SideViewDimensions.Gap(mechanism, textMm, gapOffsetMm) is { } gap)
                {
                    gapOffsetMm = gap.OffsetMm;
                    sheet.Add(gap);
                }
                break;
            case Gauge.CageAngle:
                SideViewDimensions.CageAngle(sheet, mechanism);
                break;
            case Gauge.Chainstay:
                SideViewDimensions.Chainstay(sheet, mechanism);
                break;
            case Gauge.Hanger:
                SideViewDimensions.Hanger(sheet, mechanism);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(gauge));
        }
        var svg = new StringBuilder(1024);
        SvgWriter.Fragment(svg, sheet.Shapes, PenScale);
        return svg.ToString();
    }

    private static Extent WholeOf(Mechanism mechanism)
    {
        var spec = mechanism.Spec;
        var rings = spec.Rings.Max(ring => Sprocket.TipRadiusMm(ring.Teeth, ring.TipDiameterMm));
        var box = Extent
            .Nothing.With(-rings, -rings)
            .With(rings, rings)
            .With(DerailleurOf(mechanism, all: false));
        if (mechanism.Idler is { } idler)
        {
            box = box.With(idler.Centre.X, idler.Centre.Y + 40);
        }
        var rearEnd = RearEnd.Of(spec.Frame);
        if (rearEnd.TravelMm > 0)
        {
            // The wheel may be moved: what goes with the axle stays in the picture at both ends.
            var now = box;
            foreach (var end in (ReadOnlySpan<double>)[0, rearEnd.TravelMm])
            {
                var by = rearEnd.At(end).Axle - mechanism.Cog.Centre;
                box = box.With(now.Left + by.X, now.Bottom + by.Y)
                    .With(now.Left + by.X, now.Top + by.Y);
            }
        }
        return box.Grown(15);
    }

    private static Extent DerailleurOf(Mechanism mechanism) =>
        mechanism.Spec.RearDerailleur is null
            ? WholeOf(mechanism)
            : DerailleurOf(mechanism, all: true).Grown(8);

    private static Extent DerailleurOf(Mechanism mechanism, bool all)
    {
        var spec = mechanism.Spec;
        var last = spec.Cogs.Teeth.Length - 1;
        var cog = Sprocket.TipRadiusMm(spec.Cogs.Teeth[last], spec.Cogs.TipDiameterMm(last));
        var axle = mechanism.Cog.Centre;
        // Close up, the upper half of the cogs says nothing that the lower one does not.
        var box = Extent
            .Nothing.With(axle.X - cog, axle.Y + (all ? cog / 3 : cog))
            .With(axle.X + cog, axle.Y - cog);
        if (spec.RearDerailleur is not { } derailleur)
        {
            return box;
        }
        var guide = Sprocket.TipRadiusMm(derailleur.Cage.Guide.Teeth) + 4;
        var tension = Sprocket.TipRadiusMm(derailleur.Cage.Tension.Teeth) + 4;
        foreach (var result in mechanism.Table.Gears)
        {
            if (result.HasPose)
            {
                box = box.With(Round(result.Guide, guide)).With(Round(result.Tension, tension));
            }
        }
        if (mechanism is { Guide: { } at, Tension: { } below })
        {
            box = box.With(Round(at.Centre, guide)).With(Round(below.Centre, tension));
        }
        return box;
    }

    private static Extent Round(Point at, double radius) =>
        new(at.X - radius, at.Y - radius, at.X + radius, at.Y + radius);
}

/// <summary>How the chain of a pose is to be drawn.</summary>
public enum ChainLie
{
    /// <summary>It has no path.</summary>
    None,

    /// <summary>Taut, link by link.</summary>
    Taut,

    /// <summary>A path that this chain does not fit: the line alone, as something that is wrong.</summary>
    Wrong,
}

/// <summary>What a pose has beside its numbers.</summary>
/// <param name="Dimensions">The dimension, as markup.</param>
/// <param name="Chain">How the chain lies.</param>
/// <param name="Title">What the drawing shows, in words.</param>
public readonly record struct MovingPose(string Dimensions, ChainLie Chain, string Title);
