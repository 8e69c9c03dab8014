using Cogwright.Setup.Procedures;

namespace Cogwright.Paper.Blocks;

/// <summary>A hazard before its action: the signal word on black, what the danger is and does, and how to avoid it.</summary>
/// <param name="name">What it is, for the record of the layout.</param>
/// <param name="signal">The signal word.</param>
/// <param name="danger">What the danger is and what it does.</param>
/// <param name="avoidance">How to avoid it.</param>
internal sealed class HazardBlock(string name, SignalWord signal, string danger, string avoidance)
    : Block
{
    private const double TextPt = 10.5;
    private const double TabPt = 88;
    private const double Pad = 4;
    private const double BelowPt = 2;
    private const double FramePt = 1.4;

    /// <inheritdoc/>
    internal override string Name => name;

    // The sign stands where a person can be hurt; a notice is of property alone (ANSI Z535.6 practice).
    private string Word =>
        signal == SignalWord.Notice
            ? StepWords.Signal(signal)
            : Texts.Get("sheet.caution", StepWords.Signal(signal));

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (
            Math.Max(1, Danger(setting, widthPt).Count + Avoidance(setting, widthPt).Count)
            * Setting.Line(TextPt)
        )
        + Pad
        + BelowPt;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var frame = box with { Height = box.Height - BelowPt };
        sheet.Frame(frame, FramePt);
        var tab = frame with { Width = TabPt };
        sheet.Blacken(tab);
        sheet.Print(Word, tab, TextPt, bold: true, align: Align.Middle, white: true);
        var (left, width) = (tab.Right + Pad, TextWidth(box.Width));
        var next = sheet.PrintLines(
            Danger(setting, box.Width),
            left,
            frame.Top + (Pad / 2),
            width,
            TextPt
        );
        sheet.PrintLines(Avoidance(setting, box.Width), left, next, width, TextPt, bold: true);
    }

    /// <summary>Width of the text in a box of that width (pt).</summary>
    private static double TextWidth(double widthPt) => widthPt - TabPt - (2 * Pad);

    /// <summary>A text of it in pieces that a page holds, in a box of that width (pt).</summary>
    internal static List<string> Cut(Setting setting, string text, double widthPt, bool bold) =>
        [.. LongText.Pieces(setting, text, TextPt, bold, TextWidth(widthPt))];

    private List<string> Danger(Setting setting, double widthPt) =>
        setting.Fit.Wrap(danger, TextPt, false, TextWidth(widthPt));

    private List<string> Avoidance(Setting setting, double widthPt) =>
        setting.Fit.Wrap(avoidance, TextPt, true, TextWidth(widthPt));
}
