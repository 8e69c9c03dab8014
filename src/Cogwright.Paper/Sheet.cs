using PdfSharp.Drawing;

namespace Cogwright.Paper;

/// <summary>Where a line of text stands in its cell.</summary>
internal enum Align
{
    /// <summary>At the left.</summary>
    Start,

    /// <summary>In the middle.</summary>
    Middle,

    /// <summary>At the right.</summary>
    End,
}

/// <summary>One side of paper: prints text, frames and write-in boxes, and records where they lie.</summary>
internal sealed class Sheet(XGraphics graphics, int side, LayoutRecord record, TextFit fit)
{
    private string _block = "";

    internal XGraphics Graphics => graphics;

    internal int Side => side;

    /// <summary>Says that what follows belongs to a block with that name and box.</summary>
    internal void Begin(string name, PaperBox box)
    {
        _block = name;
        record.Blocks.Add(new PlacedBlock(side, name, box));
    }

    /// <summary>Says that what follows belongs to a block that was begun before.</summary>
    internal void Resume(string name) => _block = name;

    /// <summary>Records a length that must come out true.</summary>
    internal void Length(string name, double nominalMm, double lengthPt) =>
        record.Lengths.Add(new PlacedLength(side, name, nominalMm, lengthPt));

    /// <summary>Prints one line, shortened to its cell, in the middle of the cell's height.</summary>
    internal void Print(
        string text,
        PaperBox cell,
        double sizePt,
        bool bold = false,
        Align align = Align.Start,
        bool white = false
    )
    {
        var shown = fit.Shorten(text, sizePt, bold, cell.Width);
        if (shown.Length == 0)
        {
            return;
        }
        var width = fit.Width(shown, sizePt, bold);
        var line = sizePt * Typeface.LineFactor;
        var left = align switch
        {
            Align.Middle => cell.Left + ((cell.Width - width) / 2),
            Align.End => cell.Right - width,
            _ => cell.Left,
        };
        var top = cell.Top + ((cell.Height - line) / 2);
        graphics.DrawString(
            shown,
            Typeface.Of(sizePt, bold),
            white ? XBrushes.White : XBrushes.Black,
            left,
            top + (sizePt * Typeface.BaselineFactor),
            XStringFormats.BaseLineLeft
        );
        record.Printed.Add(
            new PlacedText(side, _block, shown, sizePt, new PaperBox(left, top, width, line), cell)
        );
    }

    /// <summary>Prints lines below one another from the top of the cell; returns where the next one would begin (pt).</summary>
    internal double PrintLines(
        IReadOnlyList<string> lines,
        double left,
        double top,
        double width,
        double sizePt,
        bool bold = false
    )
    {
        var height = sizePt * Typeface.LineFactor;
        foreach (var line in lines)
        {
            Print(line, new PaperBox(left, top, width, height), sizePt, bold);
            top += height;
        }
        return top;
    }

    /// <summary>A frame just inside a box.</summary>
    internal void Frame(PaperBox box, double widthPt = 0.7) =>
        graphics.DrawRectangle(
            new XPen(XColors.Black, widthPt),
            box.Left + (widthPt / 2),
            box.Top + (widthPt / 2),
            box.Width - widthPt,
            box.Height - widthPt
        );

    /// <summary>A black box, for white text.</summary>
    internal void Blacken(PaperBox box) =>
        graphics.DrawRectangle(XBrushes.Black, box.Left, box.Top, box.Width, box.Height);

    /// <summary>A straight rule.</summary>
    internal void Rule(double x1, double y1, double x2, double y2, double widthPt = 0.5) =>
        graphics.DrawLine(new XPen(XColors.Black, widthPt), x1, y1, x2, y2);

    /// <summary>A square to tick, and its words at the right of it.</summary>
    internal void Tick(string words, PaperBox cell, double sizePt, bool bold = false)
    {
        var square = Math.Min(cell.Height - 1, sizePt * 0.95);
        var top = cell.Top + ((cell.Height - square) / 2);
        Frame(new PaperBox(cell.Left, top, square, square), 0.9);
        Print(
            words,
            cell with
            {
                Left = cell.Left + square + 2.5,
                Width = cell.Width - square - 2.5,
            },
            sizePt,
            bold
        );
    }
}
