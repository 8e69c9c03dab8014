using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace Cogwright.Paper;

/// <summary>Finds a file that lies in a PDF.</summary>
public static class PdfAttachment
{
    /// <summary>The bytes of a file in a PDF.</summary>
    /// <param name="pdf">The PDF.</param>
    /// <param name="name">What the file is called.</param>
    /// <returns>The bytes; null when there is no such file in it, or the PDF cannot be read.</returns>
    public static byte[]? Find(byte[] pdf, string name)
    {
        ArgumentNullException.ThrowIfNull(pdf);
        try
        {
            using var document = PdfReader.Open(new MemoryStream(pdf), PdfDocumentOpenMode.Import);
            return document
                .Internals.GetAllObjects()
                .OfType<PdfDictionary>()
                .Where(each =>
                    each.Elements.GetName("/Type") == "/Filespec" && IsCalled(each, name)
                )
                .Select(each => each.Elements.GetDictionary("/EF")?.Elements.GetDictionary("/F"))
                .OfType<PdfDictionary>()
                .Select(each => each.Stream?.UnfilteredValue)
                .FirstOrDefault(bytes => bytes is not null);
        }
        catch (Exception e) when (IsDamage(e))
        {
            return null;
        }
    }

    // A damaged PDF fails in as many ways as there are bytes.
    internal static bool IsDamage(Exception e) =>
        e
            is PdfReaderException
                or InvalidOperationException
                or NullReferenceException
                or IOException
                or ArgumentException
                or IndexOutOfRangeException
                or FormatException
                or OverflowException
                or InvalidCastException
                or NotImplementedException;

    private static bool IsCalled(PdfDictionary file, string name) =>
        file.Elements.GetString("/F") == name || file.Elements.GetString("/UF") == name;
}
