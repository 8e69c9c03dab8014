using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Cogwright.Paper;

/// <summary>A document being printed side by side, with the record of what lies where on it.</summary>
internal sealed class PrintedSides : IDisposable
{
    private readonly PdfDocument _document = new();
    private readonly List<Sheet> _sheets = [];
    private readonly LayoutRecord _record = new();
    private readonly (double Width, double Height) _side;
    private readonly double _marginPt;
    private readonly TextFit _fit;

    /// <summary>A document without sides.</summary>
    /// <param name="title">What the file calls itself.</param>
    /// <param name="date">The date of the job, or null.</param>
    /// <param name="size">The printer's paper.</param>
    /// <param name="marginMm">Margin kept free all round (mm).</param>
    /// <param name="fit">Breaks its texts.</param>
    internal PrintedSides(
        string title,
        DateOnly? date,
        PaperSize size,
        double marginMm,
        TextFit fit
    )
    {
        _side = Points.Of(size);
        _marginPt = Points.FromMm(marginMm);
        _fit = fit;
        Page = new PaperBox(
            _marginPt,
            _marginPt,
            _side.Width - (2 * _marginPt),
            _side.Height - (2 * _marginPt)
        );
        DocumentFacts.Write(_document, title, date);
    }

    /// <summary>What a side holds inside its margins.</summary>
    internal PaperBox Page { get; }

    /// <summary>The sides so far.</summary>
    internal IReadOnlyList<Sheet> Sheets => _sheets;

    /// <summary>Begins a side.</summary>
    internal Sheet New()
    {
        var page = _document.AddPage();
        page.Width = XUnit.FromPoint(_side.Width);
        page.Height = XUnit.FromPoint(_side.Height);
        var sheet = new Sheet(XGraphics.FromPdfPage(page), _sheets.Count, _record, _fit);
        _sheets.Add(sheet);
        return sheet;
    }

    /// <summary>Puts a file into the document.</summary>
    internal void Attach(string name, byte[] data)
    {
        using var stream = new MemoryStream(data);
        _document.AddEmbeddedFile(name, stream);
    }

    /// <summary>Gives the file; no side can be drawn on any more.</summary>
    internal (byte[] Pdf, WorksheetLayout Layout) Close()
    {
        foreach (var sheet in _sheets)
        {
            sheet.Graphics.Dispose();
        }
        using var stream = new MemoryStream();
        _document.Save(stream, closeStream: false);
        return (
            ChanceMarks.Settle(stream.ToArray()),
            _record.Close(_side, _marginPt, _sheets.Count)
        );
    }

    /// <inheritdoc/>
    public void Dispose() => _document.Dispose();
}
