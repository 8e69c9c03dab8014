using PdfSharp.Fonts;

namespace Cogwright.Paper;

/// <summary>
/// Gives PDFsharp the one typeface that ships with this room, whatever the machine has installed: the same sheet
/// comes out everywhere, and Polish, Greek and Cyrillic names are right.
/// </summary>
internal sealed class WorksheetFontResolver : IFontResolver
{
    /// <summary>The family's name, as fonts are asked for.</summary>
    internal const string Family = "DejaVu Sans Condensed";

    private const string RegularFace = "DejaVuSansCondensed";
    private const string BoldFace = "DejaVuSansCondensed-Bold";

    private static readonly Lazy<bool> Installed = new(
        () =>
        {
            // The setting is global to the process and may be made only before the first font is used.
            GlobalFontSettings.FontResolver ??= new WorksheetFontResolver();
            return true;
        },
        LazyThreadSafetyMode.ExecutionAndPublication
    );

    /// <summary>Sets the resolver, once for the process; any thread may call it any number of times.</summary>
    internal static void Install() => _ = Installed.Value;

    /// <inheritdoc/>
    public FontResolverInfo ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        new(isBold ? BoldFace : RegularFace);

    /// <inheritdoc/>
    public byte[] GetFont(string faceName)
    {
        var resource = faceName + ".ttf";
        using var stream =
            typeof(WorksheetFontResolver).Assembly.GetManifestResourceStream(resource)
            ?? throw new FileNotFoundException(Texts.Get("sheet.fontMissing", resource));
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
