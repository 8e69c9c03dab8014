using Cogwright.Drivetrain;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>
/// The booklet of a procedure for one bike: cautions first, what to have ready, the steps in their order with a drawing where
/// one can show what is measured, and every torque once more at the end. Reads no clock and no file: the same content gives
/// the same booklet.
/// </summary>
public static class Booklet
{
    /// <summary>The PDF file.</summary>
    /// <param name="content">What it says.</param>
    /// <param name="table">The gear table of the same bike, from which the drawings are made.</param>
    /// <param name="size">The printer's paper.</param>
    /// <param name="date">The date of the job, or null to leave the box to be written in.</param>
    public static byte[] Write(
        BookletContent content,
        GearTable table,
        PaperSize size,
        DateOnly? date = null
    ) => Set(content, table, size, date).Pdf;

    /// <summary>The PDF file, and what lies where on it.</summary>
    /// <inheritdoc cref="Write"/>
    public static (byte[] Pdf, WorksheetLayout Layout) Set(
        BookletContent content,
        GearTable table,
        PaperSize size,
        DateOnly? date = null
    )
    {
        ArgumentNullException.ThrowIfNull(content);
        ArgumentNullException.ThrowIfNull(table);
        WorksheetFontResolver.Install();
        using var fit = new TextFit();
        using var printing = new BookletPrinting(content, table, size, date, fit);
        printing.Front();
        printing.Steps();
        printing.Back();
        return printing.Close();
    }
}
