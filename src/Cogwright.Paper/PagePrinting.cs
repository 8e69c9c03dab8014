using Cogwright.Paper.Blocks;

namespace Cogwright.Paper;

/// <summary>Blocks below one another on as many pages as they take; every part begins a page.</summary>
internal sealed class PagePrinting : IDisposable
{
    private const double MarginMm = 14;
    private const double FootGapPt = 4;

    private readonly PrintedSides _sides;
    private readonly Setting _setting;
    private readonly string _foot;

    internal PagePrinting(string title, string foot, PaperSize size, TextFit fit)
    {
        _sides = new(title, null, size, MarginMm, fit);
        _setting = new(fit, Density.FromRoomyToTight[0]);
        _foot = foot;
    }

    /// <summary>Width of what a page holds (pt).</summary>
    internal double WidthPt => _sides.Page.Width;

    private static double Foot => Setting.Line(Setting.SmallPt);

    private double Bottom => _sides.Page.Bottom - Foot - FootGapPt;

    /// <summary>Prints blocks from the top of a new page on.</summary>
    /// <exception cref="InvalidOperationException">A block is higher than a page.</exception>
    internal void Print(IReadOnlyList<Block> blocks)
    {
        var page = _sides.Page;
        List<Block> left =
        [
            .. blocks.SelectMany(block =>
                StackBlock.NoHigherThan(block, _setting, page.Width, Bottom - page.Top)
            ),
        ];
        while (left.Count > 0)
        {
            _sides.New();
            var flow = new ColumnFlow([page with { Height = Bottom - page.Top }]);
            var rest = flow.Fill(_setting, left);
            foreach (var (block, box) in flow.Placed)
            {
                block.Draw(_setting, _sides.Sheets[^1], box);
            }
            if (rest.Count == left.Count)
            {
                throw new InvalidOperationException(left[0].Name);
            }
            left = rest;
        }
    }

    /// <summary>Puts a file into the document.</summary>
    internal void Attach(string name, byte[] data) => _sides.Attach(name, data);

    /// <summary>Puts the feet on and gives the file.</summary>
    internal (byte[] Pdf, WorksheetLayout Layout) Close()
    {
        for (var i = 0; i < _sides.Sheets.Count; i++)
        {
            new FootBlock(_foot, Texts.Get("booklet.pageOf", i + 1, _sides.Sheets.Count)).Draw(
                _setting,
                _sides.Sheets[i],
                _sides.Page with
                {
                    Top = _sides.Page.Bottom - Foot,
                    Height = Foot,
                }
            );
        }
        return _sides.Close();
    }

    /// <inheritdoc/>
    public void Dispose() => _sides.Dispose();
}
