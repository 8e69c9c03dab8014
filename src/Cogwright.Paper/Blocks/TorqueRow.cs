using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>A torque: the range, what the tool was set to, whether it clicked or what was measured, initials.</summary>
/// <param name="target">The torque.</param>
/// <param name="small">Small print below its name; the tool when the spec names it, when null.</param>
internal sealed class TorqueRow(Target target, string? small = null) : Block
{
    private const double Gap = 1;
    private const double TickPt = 8;

    /// <inheritdoc/>
    internal override string Name => "target:" + target.Id;

    /// <summary>The range, or room to write the figure of the part where the trade has none.</summary>
    private string Value =>
        Amount.Of(target) is { Length: > 0 } amount
            ? amount
            : Texts.Get("sheet.figureOfPart", target.Unit);

    private static double SetPt => Points.FromMm(10);

    private static double DonePt => Points.FromMm(23.5);

    private static double BoxPt => Points.FromMm(6.5);

    private string? Tool => small ?? (target.Source == TargetSource.Spec ? target.Tool : null);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt)
    {
        var (title, value) = Widths(setting, widthPt);
        return Math.Max(
                BoxPt,
                Math.Max(
                    (TitleLines(setting, title).Count * Setting.Line(TitlePt(setting)))
                        + (
                            Tool is null
                                ? LowerBy(setting)
                                : SmallLines(setting, title).Count * Setting.Line(Setting.SmallPt)
                        ),
                    ValueLines(setting, value).Count * Setting.Line(Setting.StandPt)
                )
            ) + Gap;
    }

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var (title, value) = Widths(setting, box.Width);
        var top = box.Top + (Gap / 2);
        var next = sheet.PrintLines(
            TitleLines(setting, title),
            box.Left,
            top + (Tool is null ? LowerBy(setting) : 0),
            title,
            TitlePt(setting)
        );
        if (Tool is not null)
        {
            sheet.PrintLines(SmallLines(setting, title), box.Left, next, title, Setting.SmallPt);
        }
        sheet.PrintLines(
            ValueLines(setting, value),
            box.Left + title + 3,
            top,
            value,
            Setting.StandPt,
            bold: true
        );
        DrawBoxes(sheet, box);
    }

    private static void DrawBoxes(Sheet sheet, PaperBox box)
    {
        var top = box.Top + (Gap / 2);
        var x = box.Right - Columns.InitialsPt - DonePt - SetPt;
        var set = new PaperBox(x, top, SetPt, BoxPt);
        sheet.Frame(set);
        sheet.Print(
            Texts.Get("sheet.toolSetTo"),
            new PaperBox(
                set.Left + 1.5,
                set.Top + 0.5,
                set.Width - 2,
                Setting.Line(Setting.SmallPt)
            ),
            Setting.SmallPt
        );
        var done = new PaperBox(x + SetPt, top, DonePt, BoxPt);
        sheet.Frame(done, 1.2);
        var half = BoxPt / 2;
        var ticks = done with { Left = done.Left + 3, Width = done.Width - 5, Height = half };
        sheet.Tick(Texts.Get("sheet.clicked"), ticks, TickPt);
        sheet.Tick(Texts.Get("sheet.measured"), ticks with { Top = ticks.Top + half }, TickPt);
        sheet.Rule(
            done.Right - Points.FromMm(5.2),
            done.Bottom - 2.5,
            done.Right - 2,
            done.Bottom - 2.5
        );
        sheet.Frame(new PaperBox(done.Right, top, Columns.InitialsPt, BoxPt));
    }

    private static double TitlePt(Setting setting) => Math.Min(setting.Density.TitlePt, 10.5);

    // Name and figure stand on one baseline.
    private static double LowerBy(Setting setting) =>
        (Setting.StandPt - TitlePt(setting)) * Typeface.BaselineFactor;

    private (double Title, double Value) Widths(Setting setting, double widthPt)
    {
        var text = widthPt - SetPt - DonePt - Columns.InitialsPt - 6;
        var value = Math.Min(setting.Fit.Width(Value, Setting.StandPt, true) + 1, text * 0.6);
        return (text - value, value);
    }

    private List<string> TitleLines(Setting setting, double width) =>
        setting.Fit.Wrap(
            target.Source == TargetSource.Assumed
                ? Texts.Get("sheet.assumedTitle2", ShortWords.Title(target))
                : ShortWords.Title(target),
            TitlePt(setting),
            false,
            width
        );

    private List<string> SmallLines(Setting setting, double width) =>
        setting.Fit.Wrap(Tool ?? "", Setting.SmallPt, false, width);

    private List<string> ValueLines(Setting setting, double width) =>
        setting.Fit.Wrap(Value, Setting.StandPt, true, width);
}
