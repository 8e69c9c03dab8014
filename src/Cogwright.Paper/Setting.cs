namespace Cogwright.Paper;

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
