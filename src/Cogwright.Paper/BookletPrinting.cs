using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>One booklet being printed, page by page, into one document.</summary>
internal sealed class BookletPrinting : IDisposable
{
    private const double MarginMm = 12;
    private const double FootGapPt = 4;
    private const double NotesApartPt = 8;
    private const double LeastNotesMm = 18;

    private readonly BookletContent _content;
    private readonly PrintedSides _sides;
    private readonly Setting _setting;
    private readonly StepBlocks _steps;
    private readonly string _date;
    private double _top;

    internal BookletPrinting(
        BookletContent content,
        GearTable table,
        PaperSize size,
        DateOnly? date,
        TextFit fit
    )
    {
        _content = content;
        _sides = new(
            Texts.Get("booklet.documentTitle", content.Title, content.BikeName),
            date,
            size,
            MarginMm,
            fit
        );
        // The roomiest that the worksheet knows: a booklet has as many pages as it takes.
        _setting = new(fit, Density.FromRoomyToTight[0]);
        _steps = new(content, new StepDrawings(table), _setting, Page.Width);
        _date = date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
    }

    private PaperBox Page => _sides.Page;

    private static double Foot => Setting.Line(Setting.SmallPt);

    private double Bottom => Page.Bottom - Foot - FootGapPt;

    /// <summary>Prints what stands before the first step.</summary>
    internal void Front()
    {
        NewPage();
        Flow([
            new HeaderBlock(_content.BikeName, _content.Gearing, _date),
            .. BookletFront.Of(_content, _setting, Page.Width),
        ]);
    }

    /// <summary>Prints the steps.</summary>
    internal void Steps() => Flow([.. _content.Steps.Select(_steps.Of)]);

    /// <summary>Prints what stands behind the last step: every torque once more, and what was assumed.</summary>
    internal void Back() => Flow([.. BookletBack.Of(_content, Page.Width)]);

    /// <summary>Puts the feet on and gives the file.</summary>
    internal (byte[] Pdf, WorksheetLayout Layout) Close()
    {
        Notes();
        var text = Texts.Get("booklet.foot", _content.BikeName, _content.Title);
        for (var i = 0; i < _sides.Sheets.Count; i++)
        {
            new FootBlock(text, Texts.Get("booklet.pageOf", i + 1, _sides.Sheets.Count)).Draw(
                _setting,
                _sides.Sheets[i],
                Page with
                {
                    Top = Page.Bottom - Foot,
                    Height = Foot,
                }
            );
        }
        return _sides.Close();
    }

    /// <inheritdoc/>
    public void Dispose() => _sides.Dispose();

    /// <summary>Sets blocks below one another; one that the page has no room for begins the next page.</summary>
    private void Flow(IReadOnlyList<Block> blocks)
    {
        var height = Bottom - Page.Top;
        List<Block> left =
        [
            .. blocks.SelectMany(block =>
                StackBlock.NoHigherThan(block, _setting, Page.Width, height)
            ),
        ];
        while (left.Count > 0)
        {
            var flow = new ColumnFlow([Page with { Top = _top, Height = Bottom - _top }]);
            var isFresh = _top <= Page.Top;
            var rest = flow.Fill(_setting, left);
            foreach (var (block, box) in flow.Placed)
            {
                block.Draw(_setting, _sides.Sheets[^1], box);
                _top = box.Bottom;
            }
            if (isFresh && rest.Count == left.Count)
            {
                // Nothing fits an empty page, so no other page will do: every text was cut to size before.
                throw new InvalidOperationException(left[0].Name);
            }
            left = rest;
            if (left.Count > 0)
            {
                Notes();
                NewPage();
            }
        }
    }

    /// <summary>Frames what is left of a page for notes, where it is worth it.</summary>
    private void Notes()
    {
        var notes = Page with { Top = _top + NotesApartPt, Height = Bottom - _top - NotesApartPt };
        if (notes.Height >= Points.FromMm(LeastNotesMm))
        {
            new NotesBlock().Draw(_setting, _sides.Sheets[^1], notes);
        }
    }

    private void NewPage()
    {
        _sides.New();
        _top = Page.Top;
    }
}
