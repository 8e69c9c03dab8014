using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What a top view shows.</summary>
public sealed record TopViewOptions
{
    /// <summary>Millimetres of paper per millimetre of the bike; texts are sized to be read at that scale.</summary>
    public double PaperScale { get; init; } = 0.45;

    /// <summary>The hanger's tilt: it carries the pulleys and the cage sideways; null for none.</summary>
    public HangerTilt? Tilt { get; init; }

    /// <summary>The room to spokes and frame if it is known already; computed when null.</summary>
    public ClearanceReport? Report { get; init; }

    /// <summary>Whether the room to the spokes is dimensioned; without it nothing is computed of it.</summary>
    public bool ShowRoom { get; init; } = true;

    /// <summary>Whether the head with the figures and the foot with what was assumed stand on the drawing, or elsewhere on the page.</summary>
    public bool ShowWords { get; init; } = true;

    /// <summary>Whether only the rear is shown, as far as the spokes are drawn: cassette, cage, frame and chain behind it.</summary>
    public bool RearOnly { get; init; }
}

/// <summary>
/// The drivetrain in one gear, to scale, seen from above with the bike facing right: forward to the right, the drive
/// side below. Sideways distances are those of the model; what is not known is not drawn, and said.
/// </summary>
public static class TopView
{
    private const double TextMm = 2.4;

    /// <summary>The scene.</summary>
    /// <param name="table">The gear table it is drawn from.</param>
    /// <param name="gear">The gear in use.</param>
    /// <param name="options">What to show.</param>
    /// <exception cref="ArgumentException">The table has no such gear.</exception>
    public static Scene Draw(GearTable table, Gear gear, TopViewOptions? options = null)
    {
        options ??= new TopViewOptions();
        var mechanism = Mechanism.Of(table, gear);
        var report =
            options.ShowRoom || options.ShowWords
                ? options.Report ?? SpokeClearance.Of(table, options.Tilt)
                : null;
        var sheet = new Sheet(TextMm / options.PaperScale);
        var plan = new PlanView(sheet, mechanism, options.Tilt ?? default);

        plan.CentrePlane(options.RearOnly);
        plan.Spokes();
        plan.Frame();
        plan.Sprockets();
        plan.Chain();
        plan.Cage();
        plan.Dimensions(options.ShowRoom ? report : null);

        if (options.ShowWords)
        {
            Head(sheet, mechanism, report!);
            sheet.ScaleBarBelow(Texts.Get("drawing.hundredMm"));
            if (GearWords.Assumed(mechanism.Spec, byName: true) is { } assumed)
            {
                sheet.LinesBelow([assumed]);
            }
        }
        var title = Texts.Get("top.title", table.Spec.Name, gear.RingTeeth, gear.CogTeeth);
        return options.RearOnly
            ? sheet.SceneBehind(title, options.PaperScale, plan.RearEndsMm)
            : sheet.Scene(title, options.PaperScale);
    }

    private static void Head(Sheet sheet, Mechanism mechanism, ClearanceReport report)
    {
        var result = mechanism.Result;
        var lines = new List<(string, bool, Stroke)>
        {
            (mechanism.Spec.Name, true, Stroke.Part),
            (Texts.Get("top.gear", result.Gear.RingTeeth, result.Gear.CogTeeth), true, Stroke.Part),
        };
        lines.AddRange(ClearanceLines.Of(report));
        if (RingRub.Of(mechanism.Spec, result) is { ClearanceMm: < 0 } rub)
        {
            lines.Add(
                (
                    Texts.Get("top.rubs", GearWords.Signed(-rub.ClearanceMm, "0.0"), rub.RingTeeth),
                    true,
                    Stroke.Warning
                )
            );
        }
        sheet.LinesAbove(lines);
    }
}
