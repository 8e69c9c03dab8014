using System.Collections.Concurrent;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Cogwright.Paper;

/// <summary>Fonts by size (pt) and weight, always embedded as a subset in Unicode.</summary>
internal static class Typeface
{
    /// <summary>Height of a line over the font's size: room for ascenders, descenders and accents.</summary>
    internal const double LineFactor = 1.17;

    /// <summary>Where the baseline lies below a line's top, over the font's size.</summary>
    internal const double BaselineFactor = 0.93;

    /// <summary>Height of a capital over the font's size, from the typeface's own tables.</summary>
    internal const double CapitalFactor = 0.729;

    private static readonly ConcurrentDictionary<(double, bool), XFont> Fonts = new();

    /// <summary>The font of a size (pt) and weight.</summary>
    internal static XFont Of(double sizePt, bool bold)
    {
        WorksheetFontResolver.Install();
        return Fonts.GetOrAdd(
            (sizePt, bold),
            static key => new XFont(
                WorksheetFontResolver.Family,
                key.Item1,
                key.Item2 ? XFontStyleEx.Bold : XFontStyleEx.Regular,
                new XPdfFontOptions(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset)
            )
        );
    }
}
