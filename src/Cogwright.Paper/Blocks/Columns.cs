namespace Cogwright.Paper.Blocks;

/// <summary>What all lines of the work have in common: the boxes to write in, at the right.</summary>
internal static class Columns
{
    /// <summary>Width of the box for a value (pt).</summary>
    internal static double ValuePt { get; } = Points.FromMm(12.8);

    /// <summary>Width of the box for initials (pt).</summary>
    internal static double InitialsPt { get; } = Points.FromMm(8.5);

    /// <summary>Width of found, left at and initials together (pt).</summary>
    internal static double WriteInPt => (2 * ValuePt) + InitialsPt;

    /// <summary>Draws the three boxes, ending at a right edge.</summary>
    internal static void WriteIn(Sheet sheet, double right, double top, double height)
    {
        var left = right - WriteInPt;
        sheet.Frame(new PaperBox(left, top, ValuePt, height));
        sheet.Frame(new PaperBox(left + ValuePt, top, ValuePt, height), 1.2);
        sheet.Frame(new PaperBox(right - InitialsPt, top, InitialsPt, height));
    }

    /// <summary>Prints what the three boxes are for, above them.</summary>
    internal static void Headings(Sheet sheet, double right, double top, double height)
    {
        var left = right - WriteInPt;
        sheet.Print(
            Texts.Get("sheet.found"),
            new PaperBox(left, top, ValuePt, height),
            Setting.SmallPt,
            align: Align.Middle
        );
        sheet.Print(
            Texts.Get("sheet.leftAt"),
            new PaperBox(left + ValuePt, top, ValuePt, height),
            Setting.SmallPt,
            bold: true,
            align: Align.Middle
        );
        sheet.Print(
            Texts.Get("sheet.initials"),
            new PaperBox(right - InitialsPt, top, InitialsPt, height),
            Setting.SmallPt,
            align: Align.Middle
        );
    }
}
