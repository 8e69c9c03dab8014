using System.Collections.Immutable;
using Cogwright.Drawing;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>
/// The printed worksheet: side one for the stand, in the order of work; side two with drawings, complete lists and
/// the gauge to cut out. Reads no clock and no file: the same content gives the same sheet.
/// </summary>
public static class Worksheet
{
    /// <summary>The PDF file.</summary>
    /// <param name="content">What the sheet says.</param>
    /// <param name="drawings">Drawings for side two, in order; may be empty.</param>
    /// <param name="size">The printer's paper.</param>
    /// <param name="date">The date of the job, or null to leave the box to be written in.</param>
    public static byte[] Write(
        WorksheetContent content,
        ImmutableArray<Scene> drawings,
        PaperSize size,
        DateOnly? date = null
    ) => Set(content, drawings, size, date).Pdf;

    /// <summary>The PDF file, and what lies where on it.</summary>
    /// <inheritdoc cref="Write"/>
    public static (byte[] Pdf, WorksheetLayout Layout) Set(
        WorksheetContent content,
        ImmutableArray<Scene> drawings,
        PaperSize size,
        DateOnly? date = null
    )
    {
        ArgumentNullException.ThrowIfNull(content);
        WorksheetFontResolver.Install();
        using var fit = new TextFit();
        using var printing = new WorksheetPrinting(content, size, date, fit);
        printing.StandSide();
        printing.DeskSides(drawings.IsDefault ? [] : drawings);
        return printing.Close();
    }
}
