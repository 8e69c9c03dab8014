using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>
/// The drivetrain in one gear, to scale, seen from above with the bike facing right: forward to the right, the drive
/// side below. Sideways distances are those of the model; what is not known is not drawn, and said.
/// </summary>
public static class TopView
{
    private const double TextMm = 2.4;

    /// <summary>Millimetres of paper per millimetre of the bike; texts are sized to be read at that scale.</summary>
    private const double PaperScale = 0.45;

    /// <summary>The scene.</summary>
    /// <param name="table">The gear table it is drawn from.</param>
    /// <param name="gear">The gear in use.</param>
    /// <exception cref="ArgumentException">The table has no such gear.</exception>
    public static Scene Draw(GearTable table, Gear gear)
    {
        var mechanism = Mechanism.Of(table, gear);
        var report = SpokeClearance.Of(table);
        var sheet = new Sheet(TextMm / PaperScale);
        var plan = new PlanView(sheet, mechanism);

        plan.CentrePlane();
        plan.Spokes();
        plan.Frame();
        plan.Sprockets();
        plan.Chain();
        plan.Cage();
        plan.Dimensions(report);

        Head(sheet, mechanism, report);
        sheet.ScaleBarBelow(Texts.Get("drawing.hundredMm"));
        if (GearWords.Assumed(mechanism.Spec, byName: true) is { } assumed)
        {
            sheet.LinesBelow([assumed]);
        }
        return sheet.Scene(
            Texts.Get("top.title", table.Spec.Name, gear.RingTeeth, gear.CogTeeth),
            PaperScale
        );
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
