using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>What a step shows below its words.</summary>
/// <param name="Below">What is drawn below the words, or null.</param>
/// <param name="SeenAtStep">The step at which the same drawing stands already, or null.</param>
/// <param name="HasChainBox">Whether the chain's box stands here, which shows all of it in one place.</param>
internal sealed record StepPicture(
    Block? Below = null,
    int? SeenAtStep = null,
    bool HasChainBox = false
);

/// <summary>
/// The drawings of a booklet: for what a drawing can dimension, in the gear that the step asks for. Each stands once; a later
/// step that asks for the same points back to it.
/// </summary>
internal sealed class StepDrawings(GearTable table)
{
    // Two drawings side by side, or one that is long and low: what leaves a page room for the steps around it.
    private const double HalfMm = 88;
    private const double HalfHighMm = 70;
    private const double WholeMm = 180;
    private const double WholeHighMm = 62;
    private const double CloseUpScale = 0.8;
    private const double SideScale = 0.4;
    private const double TopScale = 0.5;

    // A scene's texts keep their size, so its width does not follow its scale exactly.
    private const int Tries = 4;
    private const double Nearer = 0.97;

    private static readonly HashSet<string> OnLargestCog = ["inboard-stop", "inboard-stop-proven"];

    private readonly Dictionary<(string, Gear), int> _seen = [];
    private ClearanceReport? _report;
    private bool _chainBoxStands;

    /// <summary>What a step shows, or null.</summary>
    /// <param name="check">What it asks for.</param>
    /// <param name="step">Its number.</param>
    internal StepPicture? Of(BookletCheck check, int step)
    {
        if (check.Quantity == TargetNames.ChainPitches && !_chainBoxStands)
        {
            _chainBoxStands = check.Target?.Value is not null;
            return new(HasChainBox: _chainBoxStands);
        }
        return check.Quantity switch
        {
            TargetNames.Gap => Once("gap", GearOf(check, inboard: true), step, Gap),
            "outboard-stop" => Once("top", GearOf(check, inboard: false), step, Top),
            _ when OnLargestCog.Contains(check.Quantity) => Once(
                "top",
                GearOf(check, inboard: true),
                step,
                Top
            ),
            _ => null,
        };
    }

    private StepPicture? Once(string what, Gear gear, int step, Func<Gear, StepPicture?> draw)
    {
        if (table.Spec.RearDerailleur is null || table.Find(gear) is null)
        {
            return null;
        }
        if (_seen.TryGetValue((what, gear), out var at))
        {
            return new(SeenAtStep: at);
        }
        if (draw(gear) is not { } picture)
        {
            return null;
        }
        _seen.Add((what, gear), step);
        return picture;
    }

    /// <summary>The gear that a check names; else the end of the cassette with the ring that goes with it.</summary>
    private Gear GearOf(BookletCheck check, bool inboard)
    {
        var spec = table.Spec;
        return new(
            check.RingTeeth
                ?? (inboard ? spec.Rings.Min(r => r.Teeth) : spec.Rings.Max(r => r.Teeth)),
            check.CogTeeth ?? (inboard ? spec.Cogs.Teeth.Max() : spec.Cogs.Teeth.Min())
        );
    }

    /// <summary>The gap from near, and where it is on the bike.</summary>
    private StepPicture? Gap(Gear gear) =>
        table.Find(gear) is { HasPose: true } result && double.IsFinite(result.GapMm)
            ? new(
                new BesideBlock(
                    Fitted(
                        "booklet.view.gap",
                        gear,
                        scale =>
                            GapView.Draw(
                                table,
                                gear,
                                new() { PaperScale = scale, ShowWords = false }
                            ),
                        CloseUpScale,
                        HalfMm,
                        HalfHighMm
                    ),
                    Fitted(
                        "booklet.view.side",
                        gear,
                        scale =>
                            SideView.Draw(
                                table,
                                gear,
                                new()
                                {
                                    PaperScale = scale,
                                    ShowWords = false,
                                    RearOnly = true,
                                }
                            ),
                        SideScale,
                        HalfMm,
                        HalfHighMm
                    ),
                    Points.FromMm(HalfMm)
                )
            )
            : null;

    private StepPicture Top(Gear gear)
    {
        _report ??= SpokeClearance.Of(table);
        return new(
            Fitted(
                "booklet.view.top",
                gear,
                scale =>
                    TopView.Draw(
                        table,
                        gear,
                        new()
                        {
                            PaperScale = scale,
                            ShowWords = false,
                            RearOnly = true,
                            Report = _report,
                        }
                    ),
                TopScale,
                WholeMm,
                WholeHighMm
            )
        );
    }

    /// <summary>A drawing made for the greatest scale at which it fits, so that its texts are as large as on any other.</summary>
    private static SceneBlock Fitted(
        string captionKey,
        Gear gear,
        Func<double, Scene> draw,
        double scale,
        double widthMm,
        double heightMm
    )
    {
        var scene = draw(scale);
        for (var i = 0; i < Tries; i++)
        {
            var over = Math.Max(scene.Width * scale / widthMm, scene.Height * scale / heightMm);
            if (over <= 1)
            {
                break;
            }
            scale *= Nearer / over;
            scene = draw(scale);
        }
        var used = PdfSceneWriter.ScaleToFit(
            scene,
            Points.FromMm(widthMm),
            Points.FromMm(heightMm)
        );
        return new(
            new(
                scene,
                new PaperBox(
                    0,
                    0,
                    Points.FromMm(scene.Width * used),
                    Points.FromMm(scene.Height * used) + DrawingShelves.CaptionPt
                ),
                used
            ),
            Texts.Get(captionKey, gear.RingTeeth, gear.CogTeeth, SceneBlock.Percent(used))
        );
    }
}
