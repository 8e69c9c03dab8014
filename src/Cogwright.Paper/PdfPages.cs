using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace Cogwright.Paper;

/// <summary>
/// Reads the text of pages out of a PDF that this program has written: what each drawn line says by the character maps of its
/// fonts. Of a PDF by another program it may find nothing.
/// </summary>
public static partial class PdfPages
{
    [GeneratedRegex(@"/(?<font>\S+)\s+[\d.]+\s+Tf|<(?<hex>[0-9A-Fa-f]+)>\s*Tj")]
    private static partial Regex Shown { get; }

    [GeneratedRegex("<([0-9A-Fa-f]{4})><([0-9A-Fa-f]{4})><([0-9A-Fa-f]{4})>")]
    private static partial Regex Mapped { get; }

    /// <summary>The lines of each page, in the order in which they are drawn.</summary>
    /// <param name="pdf">The PDF.</param>
    /// <returns>The lines page by page; null when the PDF cannot be read.</returns>
    public static ImmutableArray<ImmutableArray<string>>? Lines(byte[] pdf)
    {
        ArgumentNullException.ThrowIfNull(pdf);
        try
        {
            using var document = PdfReader.Open(new MemoryStream(pdf), PdfDocumentOpenMode.Import);
            return [.. document.Pages.Cast<PdfPage>().Select(LinesOf)];
        }
        catch (Exception e) when (PdfAttachment.IsDamage(e))
        {
            return null;
        }
    }

    private static ImmutableArray<string> LinesOf(PdfPage page)
    {
        var fonts = MapsOf(page);
        var content = Encoding.Latin1.GetString(
            page.Contents.CreateSingleContent().Stream.UnfilteredValue
        );
        var lines = ImmutableArray.CreateBuilder<string>();
        var map = new Dictionary<int, char>();
        foreach (Match match in Shown.Matches(content))
        {
            if (match.Groups["font"] is { Success: true } font)
            {
                map = fonts.GetValueOrDefault("/" + font.Value, []);
                continue;
            }
            var hex = match.Groups["hex"].Value;
            var line = new StringBuilder();
            for (var i = 0; i + 4 <= hex.Length; i += 4)
            {
                line.Append(map.GetValueOrDefault(Hex(hex.AsSpan(i, 4)), '\uFFFD'));
            }
            lines.Add(line.ToString());
        }
        return lines.ToImmutable();
    }

    private static Dictionary<string, Dictionary<int, char>> MapsOf(PdfPage page)
    {
        var maps = new Dictionary<string, Dictionary<int, char>>(StringComparer.Ordinal);
        if (
            page.Elements.GetDictionary("/Resources")?.Elements.GetDictionary("/Font")
            is not { } fonts
        )
        {
            return maps;
        }
        foreach (var name in fonts.Elements.Keys)
        {
            var text = fonts.Elements.GetDictionary(name)?.Elements.GetDictionary("/ToUnicode")
                is { Stream: not null } unicode
                ? Encoding.Latin1.GetString(unicode.Stream.UnfilteredValue)
                : "";
            var map = maps[name] = [];
            foreach (Match match in Mapped.Matches(text))
            {
                var (first, last, sign) = (
                    Hex(match.Groups[1].ValueSpan),
                    Hex(match.Groups[2].ValueSpan),
                    Hex(match.Groups[3].ValueSpan)
                );
                for (var glyph = first; glyph <= last; glyph++)
                {
                    map[glyph] = (char)(sign + glyph - first);
                }
            }
        }
        return maps;
    }

    private static int Hex(ReadOnlySpan<char> text) =>
        int.Parse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);
}
