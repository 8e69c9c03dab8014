namespace Cogwright.Paper;

/// <summary>Paper is laid out in PDF points; people and drawings think in millimetres.</summary>
internal static class Points
{
    /// <summary>Points in one millimetre: 72 to the inch of 25.4 mm.</summary>
    internal const double PerMm = 72 / 25.4;

    /// <summary>That many millimetres, in points.</summary>
    internal static double FromMm(double mm) => mm * PerMm;

    /// <summary>Width and height of a sheet (pt).</summary>
    internal static (double Width, double Height) Of(PaperSize size) =>
        size switch
        {
            PaperSize.A4 => (FromMm(210), FromMm(297)),
            PaperSize.Letter => (FromMm(215.9), FromMm(279.4)),
            _ => throw new ArgumentOutOfRangeException(nameof(size)),
        };
}
