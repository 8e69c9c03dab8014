using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Drawing;

/// <summary>A colour, 0 to 255 each.</summary>
/// <param name="Red">Red.</param>
/// <param name="Green">Green.</param>
/// <param name="Blue">Blue.</param>
public readonly record struct Colour(byte Red, byte Green, byte Blue)
{
    /// <summary>As <c>#rrggbb</c>.</summary>
    public string Hex =>
        string.Create(CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");

    internal static Colour Of(int rgb) => new((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb);
}

/// <summary>How one <see cref="Stroke"/> looks. Widths and dashes are mm on paper, whatever the scale of the drawing.</summary>
/// <param name="WidthMm">Width of the line (mm on paper).</param>
/// <param name="DashMm">Lengths drawn and left out, in turn (mm on paper); empty for a full line.</param>
/// <param name="Ink">Colour of lines and text on white paper.</param>
/// <param name="Fill">Colour of filled shapes on white paper; a light tint that survives black-and-white print.</param>
/// <param name="InkOnDark">Colour of lines and text on a dark screen.</param>
/// <param name="FillOnDark">Colour of filled shapes on a dark screen.</param>
public sealed record Pen(
    double WidthMm,
    ImmutableArray<double> DashMm,
    Colour Ink,
    Colour Fill,
    Colour InkOnDark,
    Colour FillOnDark
);

/// <summary>
/// The one table of pens for every writer: SVG, PNG and PDF. Strokes differ in width and dash as well as in colour,
/// so that a drawing reads in black and white. Inks of text have a contrast of 7:1 or more on their paper.
/// </summary>
public static class Pens
{
    /// <summary>Height of a capital as a part of the font size: DejaVu Sans Condensed; other sans-serifs lie within 2 %.</summary>
    public const double CapHeightOfFontSize = 0.729;

    /// <summary>Width of the band of paper left clear round a text, as a part of its height; drawn under the text.</summary>
    public const double HaloOfHeight = 0.3;

    /// <summary>Paper on which everything is drawn.</summary>
    public static Colour Paper { get; } = Colour.Of(0xffffff);

    /// <summary>The ground of a dark screen.</summary>
    public static Colour PaperOnDark { get; } = Colour.Of(0x14181b);

    private static readonly ImmutableArray<Pen> Table =
    [
        Full(0.35, 0x1f262b, 0xe9ecee, 0xe4e9ec, 0x2b3338),
        Full(0.30, 0x10161a, 0xc9cfd3, 0xf4f7f8, 0x59646b),
        Dashed(0.25, [1.6, 0.9], 0x6a747b, 0xffffff, 0x98a3aa, 0x14181b),
        Full(0.18, 0x174a7c, 0x174a7c, 0x93c5f0, 0x93c5f0),
        Dashed(0.18, [4.0, 0.8, 0.6, 0.8], 0x5b666e, 0xffffff, 0x9aa6ae, 0x14181b),
        Dashed(0.60, [2.4, 1.0], 0x98150c, 0xffffff, 0xffa093, 0x14181b),
        Full(0.25, 0x1f262b, 0xf1f3f4, 0xe4e9ec, 0x20272b),
        Full(0.13, 0x8b959c, 0xf6f7f8, 0x77828a, 0x1b2124),
    ];

    /// <summary>The pen of a stroke.</summary>
    public static Pen For(Stroke stroke) => Table[(int)stroke];

    private static Pen Full(double widthMm, int ink, int fill, int inkOnDark, int fillOnDark) =>
        Dashed(widthMm, [], ink, fill, inkOnDark, fillOnDark);

    private static Pen Dashed(
        double widthMm,
        ImmutableArray<double> dashMm,
        int ink,
        int fill,
        int inkOnDark,
        int fillOnDark
    ) =>
        new(
            widthMm,
            dashMm,
            Colour.Of(ink),
            Colour.Of(fill),
            Colour.Of(inkOnDark),
            Colour.Of(fillOnDark)
        );
}
