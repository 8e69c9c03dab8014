namespace Cogwright.Paper;

/// <summary>How tightly side one is set. What is read at the stand is never smaller than <see cref="StandPt"/>.</summary>
/// <param name="TitlePt">Size of what is done or measured, in words (pt).</param>
/// <param name="BoxMm">Height of a write-in box (mm).</param>
/// <param name="Notes">Whether notes stand on side one too.</param>
internal sealed record Density(double TitlePt, double BoxMm, bool Notes)
{
    /// <summary>From roomy to tight; the first that fits is taken.</summary>
    internal static IReadOnlyList<Density> FromRoomyToTight { get; } =
    [
        new(14, 9, true),
        new(13, 9, true),
        new(12, 8.5, true),
        new(12, 8.5, false),
        new(11, 8, false),
        new(10, 7.5, false),
        new(9, 7, false),
    ];
}

/// <summary>What every block needs to set its type.</summary>
internal sealed record Setting(TextFit Fit, Density Density)
{
    /// <summary>Targets and values, read from 1 m away (pt).</summary>
    internal const double StandPt = 14;

    /// <summary>Small print: conventions, tools, cautions (pt); nothing on the sheet is smaller.</summary>
    internal const double SmallPt = 8;

    /// <summary>Height of a line of that size (pt).</summary>
    internal static double Line(double sizePt) => sizePt * Typeface.LineFactor;

    /// <summary>Height of a text that wraps (pt).</summary>
    internal double HeightOf(string text, double sizePt, bool bold, double widthPt) =>
        Fit.Wrap(text, sizePt, bold, widthPt).Count * Line(sizePt);
}
