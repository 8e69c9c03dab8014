using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What a side view shows.</summary>
public sealed record SideViewOptions
{
    /// <summary>Millimetres of paper per millimetre of the bike; texts are sized to be read at that scale.</summary>
    public double PaperScale { get; init; } = 0.35;

    /// <summary>A second gear table drawn dashed behind the first, such as the one before a correction; or null.</summary>
    public GearTable? Before { get; init; }

    /// <summary>Whether the chain's rollers and link plates are drawn, or its pitch line alone.</summary>
    public bool ShowRollers { get; init; } = true;

    /// <summary>Whether the drawing names every assumed value, or points to a list on the same paper.</summary>
    public bool NamesAssumed { get; init; } = true;

    /// <summary>Whether the head with the figures and the foot with scale and what was assumed stand on the drawing, or elsewhere on the page.</summary>
    public bool ShowWords { get; init; } = true;

    /// <summary>Whether only the rear is shown: cassette, derailleur, the gap with its dimension, and the chain behind that.</summary>
    public bool RearOnly { get; init; }
}

/// <summary>
/// The mechanism in one gear, to scale, seen from the drive side with the bike facing right.
/// Everything comes from the model's result; what has no place in the gear's state is not drawn.
/// </summary>
public static class SideView
{
    /// <summary>Height of a plain text (mm on paper).</summary>
    private const double TextMm = 2.4;

    /// <summary>The scene.</summary>
    /// <param name="table">The gear table it is drawn from.</param>
    /// <param name="gear">The gear in use.</param>
    /// <param name="options">What to show.</param>
    /// <exception cref="ArgumentException">The table has no such gear.</exception>
    public static Scene Draw(GearTable table, Gear gear, SideViewOptions? options = null)
    {
        options ??= new SideViewOptions();
        var mechanism = Mechanism.Of(table, gear);
        var textMm = TextMm / options.PaperScale;
        var sheet = new Sheet(textMm);

        var before = options.Before?.Find(gear) is null ? null : Mechanism.Of(options.Before, gear);
        if (!options.RearOnly)
        {
            RearEndDrawn.Links(sheet, mechanism);
        }
        Drawn.OthersBehind(sheet, mechanism);
        if (before is not null)
        {
            Drawn.GhostChain(sheet, before);
        }
        var trace = mechanism.Path is { } path
            ? new ChainTrace(mechanism.Sprockets, path, mechanism.PitchMm)
            : null;
        Drawn.InUse(sheet, mechanism, trace);
        if (!options.RearOnly)
        {
            RearEndDrawn.Path(sheet, mechanism);
        }
        RearEndDrawn.Idler(sheet, mechanism, trace);
        Drawn.Derailleur(sheet, mechanism);
        Drawn.Pulleys(sheet, mechanism, trace);
        if (trace is not null)
        {
            Drawn.ChainOf(sheet, mechanism, trace, options.ShowRollers);
        }
        Drawn.Cage(sheet, mechanism, Stroke.Part);
        FrontCageDrawn.Add(sheet, mechanism);
        if (before is not null)
        {
            Drawn.GhostDerailleur(sheet, before);
        }
        SideViewDimensions.Add(sheet, mechanism);

        if (options.ShowWords)
        {
            Head(sheet, mechanism, options);
            Foot(sheet, mechanism, options);
        }
        var result = mechanism.Result;
        var title = Texts.Get(
            "side.title",
            table.Spec.Name,
            gear.RingTeeth,
            gear.CogTeeth,
            GearWords.State(result.State)
        );
        return options.RearOnly
            ? sheet.SceneBehind(title, options.PaperScale, RearEndsMm(sheet, mechanism))
            : sheet.Scene(title, options.PaperScale);
    }

    /// <summary>Where the rear ends: before everything of cassette and derailleur, and before the gap's dimension (mm).</summary>
    private static double RearEndsMm(Sheet sheet, Mechanism mechanism)
    {
        var cogs = mechanism.Spec.Cogs;
        var last = cogs.Teeth.Length - 1;
        var end =
            mechanism.Cog.Centre.X
            + Sprocket.TipRadiusMm(cogs.Teeth[last], cogs.TipDiameterMm(last));
        foreach (var disc in (ReadOnlySpan<Mechanism.Disc?>)[mechanism.Guide, mechanism.Tension])
        {
            if (disc is { } pulley)
            {
                end = Math.Max(end, pulley.Centre.X + pulley.TipRadiusMm);
            }
        }
        if (SideViewDimensions.Gap(mechanism, sheet.TextMm) is { } gap)
        {
            end = Math.Max(end, Extent.Of(gap).Right);
        }
        return end + (2 * sheet.TextMm);
    }

    private static void Head(Sheet sheet, Mechanism mechanism, SideViewOptions options)
    {
        var result = mechanism.Result;
        var lines = new List<(string, bool, Stroke)>
        {
            (mechanism.Spec.Name, true, Stroke.Part),
            (
                Texts.Get(
                    "side.gear",
                    result.Gear.RingTeeth,
                    result.Gear.CogTeeth,
                    GearWords.State(result.State)
                ),
                true,
                Stroke.Part
            ),
        };
        var pitches = GearWords.Pitches(mechanism.Table.Pitches);
        lines.Add(
            (
                mechanism.HangerBolt is null
                    ? Texts.Get("side.chainOnly", pitches)
                    : Texts.Get(
                        mechanism.Table.SetUp switch
                        {
                            null => $"side.chain{result.BodyRest}",
                            { IsSet: true } => "side.chainSetUp",
                            _ => "side.chainNotSet",
                        },
                        pitches,
                        GearWords.Degrees(result.BodyAngleRad)
                    ),
                false,
                Stroke.Part
            )
        );
        if (result.HasPose && mechanism.Guide is not null)
        {
            lines.Add(
                (
                    Texts.Get(
                        "side.pose",
                        GearWords.Signed(result.GapMm, "0.0"),
                        GearWords.Degrees(result.CageAngleRad),
                        GearWords.Signed(
                            result.TightMarginMm,
                            GearWords.ReserveFormat(result.TightMarginMm)
                        ),
                        GearWords.Signed(
                            result.LooseMarginMm,
                            GearWords.ReserveFormat(result.LooseMarginMm)
                        )
                    ),
                    false,
                    Stroke.Part
                )
            );
        }
        if (result.AxleMovedMm > 0)
        {
            lines.Add(
                (
                    Texts.Get("side.axleMoved", GearWords.Signed(result.AxleMovedMm, "0.0")),
                    false,
                    Stroke.Part
                )
            );
        }
        if (GearWords.Travel(mechanism.Table) is { } travel)
        {
            lines.Add((travel, false, Stroke.Part));
        }
        if (GearWords.Warning(result) is { } warning)
        {
            lines.Add((warning, true, Stroke.Warning));
        }
        if (options.Before?.Find(result.Gear) is { } before)
        {
            var angle = GearWords.Degrees(before.BodyAngleRad);
            lines.Add(
                (
                    before.HasPose
                        ? Texts.Get("side.beforeGap", angle, GearWords.Signed(before.GapMm, "0.0"))
                        : Texts.Get("side.before", angle),
                    false,
                    Stroke.Part
                )
            );
        }
        sheet.LinesAbove(lines);
    }

    private static void Foot(Sheet sheet, Mechanism mechanism, SideViewOptions options)
    {
        sheet.ScaleBarBelow(Texts.Get("drawing.hundredMm"));
        if (GearWords.Assumed(mechanism.Spec, options.NamesAssumed) is { } assumed)
        {
            sheet.LinesBelow([assumed]);
        }
    }
}
