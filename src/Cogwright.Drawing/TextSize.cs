namespace Cogwright.Drawing;

/// <summary>
/// How much room a text takes. A pure room holds no font, so this is an upper estimate for a condensed or usual
/// sans-serif; it serves to keep texts apart and inside the box, not to set type.
/// </summary>
public static class TextSize
{
    /// <summary>How far letters such as g reach below the line, as a part of the height of a capital.</summary>
    public const double DescentOfHeight = 0.33;

    /// <summary>How far accents reach above a capital, as a part of its height.</summary>
    public const double AscentOverHeight = 0.1;

    /// <summary>Width of a text (mm) whose capitals have that height (mm).</summary>
    public static double WidthMm(string text, double heightMm, bool bold = false)
    {
        ArgumentNullException.ThrowIfNull(text);
        var ems = 0.0;
        foreach (var character in text)
        {
            ems += character switch
            {
                ' ' or '.' or ',' or ':' or ';' or '·' or '|' or '\'' => 0.33,
                'i' or 'j' or 'l' or 't' or 'f' or 'r' or 'I' or '(' or ')' or '/' => 0.38,
                'm' or 'w' or 'M' or 'W' or '—' or '→' or '±' or '−' or '+' => 0.88,
                >= 'A' and <= 'Z' => 0.68,
                _ => 0.60,
            };
        }
        return ems * heightMm / Pens.CapHeightOfFontSize * (bold ? 1.12 : 1);
    }
}
