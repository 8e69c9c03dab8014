using PdfSharp.Pdf;

namespace Cogwright.Paper;

/// <summary>What the file says of itself: title and program; the job's date, never the clock's.</summary>
internal static class DocumentFacts
{
    internal static void Write(PdfDocument document, string title, DateOnly? date)
    {
        document.Info.Title = title;
        document.Info.Creator = Texts.Get("sheet.program");
        var day = (date ?? new DateOnly(2000, 1, 1)).ToDateTime(
            TimeOnly.MinValue,
            DateTimeKind.Utc
        );
        document.Info.CreationDate = day;
        document.Info.ModificationDate = day;
    }
}
