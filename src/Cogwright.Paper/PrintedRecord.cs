using Cogwright.Setup.Records;

namespace Cogwright.Paper;

/// <summary>
/// The record of a job on paper: one page or more for the customer, then those for whoever works on the bike next. Reads no
/// clock and no file: the same content gives the same file, byte for byte.
/// </summary>
public static class PrintedRecord
{
    /// <summary>The PDF file.</summary>
    /// <param name="content">What it says.</param>
    /// <param name="code">What stands in the square code; empty: none is printed.</param>
    /// <param name="size">The printer's paper.</param>
    /// <param name="attachment">A file that lies in the PDF, with its name; null: none.</param>
    public static byte[] Write(
        RecordContent content,
        string code,
        PaperSize size,
        (string Name, byte[] Data)? attachment = null
    ) => Set(content, code, size, attachment).Pdf;

    /// <summary>The PDF file, and what lies where on it.</summary>
    /// <inheritdoc cref="Write"/>
    public static (byte[] Pdf, WorksheetLayout Layout) Set(
        RecordContent content,
        string code,
        PaperSize size,
        (string Name, byte[] Data)? attachment = null
    )
    {
        ArgumentNullException.ThrowIfNull(content);
        ArgumentNullException.ThrowIfNull(code);
        WorksheetFontResolver.Install();
        using var fit = new TextFit();
        using var printing = new PagePrinting(
            Texts.Get("record.documentTitle", content.Title, content.BikeName),
            Texts.Get("record.foot", content.BikeName, content.Title),
            size,
            fit
        );
        printing.Print([.. RecordBlocks.ForCustomer(content, code, printing.WidthPt)]);
        printing.Print([.. RecordBlocks.ForMechanic(content)]);
        if (attachment is { } file)
        {
            printing.Attach(file.Name, file.Data);
        }
        return printing.Close();
    }
}
