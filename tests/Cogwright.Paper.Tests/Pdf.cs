using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace Cogwright.Paper.Tests;

/// <summary>Reads a PDF back through PDFsharp's object model.</summary>
internal static class Pdf
{
    internal static PdfDocument Open(byte[] bytes) =>
        PdfReader.Open(new MemoryStream(bytes), PdfDocumentOpenMode.Import);

    /// <summary>The descriptors of all fonts in the file.</summary>
    internal static List<PdfDictionary> FontDescriptors(PdfDocument document) =>
        [
            .. document
                .Internals.GetAllObjects()
                .OfType<PdfDictionary>()
                .Where(dictionary => dictionary.Elements.GetName("/Type") == "/FontDescriptor"),
        ];

    /// <summary>The fonts that pages use.</summary>
    internal static List<PdfDictionary> Fonts(PdfDocument document) =>
        [
            .. document
                .Internals.GetAllObjects()
                .OfType<PdfDictionary>()
                .Where(dictionary =>
                    dictionary.Elements.GetName("/Type") == "/Font"
                    && dictionary.Elements.GetName("/Subtype") == "/Type0"
                ),
        ];

    /// <summary>All character maps of the file as text: what a reader copies out of it.</summary>
    internal static string CharacterMaps(PdfDocument document) =>
        string.Join(
            '\n',
            Fonts(document)
                .Select(font => font.Elements.GetDictionary("/ToUnicode"))
                .OfType<PdfDictionary>()
                .Select(map => System.Text.Encoding.ASCII.GetString(map.Stream.UnfilteredValue))
        );
}
