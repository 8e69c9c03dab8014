using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drawing;
using Cogwright.Paper.Blocks;
using Cogwright.Setup;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Cogwright.Paper;

/// <summary>One worksheet being printed, side by side, into one document.</summary>
internal sealed class WorksheetPrinting : IDisposable
{
    private const double MarginMm = 7;

    private readonly PdfDocument _document = new();
    private readonly List<Sheet> _sheets = [];
    private readonly LayoutRecord _record = new();
    private readonly WorksheetContent _content;
    private readonly (double Width, double Height) _side;
    private readonly PaperBox _page;
    private readonly string _date;
    private readonly TextFit _fit;
    private Setting _setting;
    private List<Block> _overleaf = [];

    internal WorksheetPrinting(
        WorksheetContent content,
        PaperSize size,
        DateOnly? date,
        TextFit fit
    )
    {
        _content = content;
        _side = Points.Of(size);
        var margin = Points.FromMm(MarginMm);
        _page = new PaperBox(
            margin,
            margin,
            _side.Width - (2 * margin),
            _side.Height - (2 * margin)
        );
        _date = date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
        _fit = fit;
        _setting = new Setting(fit, Density.FromRoomyToTight[^1]);
        DocumentFacts.Write(_document, content.BikeName, date);
    }

    private double Bottom => _page.Bottom - Foot - 2;

    private static double Foot => Setting.Line(Setting.SmallPt);

    /// <summary>Prints side one.</summary>
    internal void StandSide()
    {
        var side = new StandSide(_content, _date, _page, _fit);
        side.Draw(NewSheet());
        _overleaf = [.. side.Overleaf];
        _setting = side.Setting;
    }

    /// <summary>
    /// Prints side two, and more when the text needs it: what was left over from the stand, the drawings, the text, and
    /// at the foot of the last side the gauge, whose back is then free or is text that stands at the stand too.
    /// </summary>
    internal void DeskSides(ImmutableArray<Scene> drawings)
    {
        var sheet = NewSheet();
        var top = _page.Top;
        while (_overleaf.Count > 0)
        {
            var flow = Columns(sheet, _overleaf, top, Bottom);
            (_overleaf, top) = (flow.Left, flow.End + 6);
            if (_overleaf.Count > 0)
            {
                (sheet, top) = (NewSheet(), _page.Top);
            }
        }
        var gauge = GaugeBlock.For(_content);
        var gaugeHeight = gauge is null ? 0 : gauge.Measure(_setting, _page.Width) + 4;
        var text = DeskText.Of(_content, _setting.Density);
        (sheet, top, text) = Drawings(sheet, drawings, top, text);
        while (!Fits(text, top, Bottom - gaugeHeight))
        {
            text = Columns(sheet, text, top, Bottom).Left;
            (sheet, top) = (NewSheet(), _page.Top);
        }
        Columns(sheet, text, top, Bottom - gaugeHeight);
        gauge?.Draw(
            _setting,
            sheet,
            _page with
            {
                Top = Bottom - gaugeHeight + 4,
                Height = gaugeHeight - 4,
            }
        );
    }

    /// <summary>Puts the feet on and gives the file.</summary>
    internal (byte[] Pdf, WorksheetLayout Layout) Close()
    {
        for (var i = 0; i < _sheets.Count; i++)
        {
            new FootBlock(_content.BikeName, i + 1, _sheets.Count).Draw(
                _setting,
                _sheets[i],
                _page with
                {
                    Top = _page.Bottom - Foot,
                    Height = Foot,
                }
            );
            _sheets[i].Graphics.Dispose();
        }
        using var stream = new MemoryStream();
        _document.Save(stream, closeStream: false);
        return (
            ChanceMarks.Settle(stream.ToArray()),
            _record.Close(_side, Points.FromMm(MarginMm), _sheets.Count)
        );
    }

    /// <inheritdoc/>
    public void Dispose() => _document.Dispose();

    private Sheet NewSheet()
    {
        var page = _document.AddPage();
        page.Width = XUnit.FromPoint(_side.Width);
        page.Height = XUnit.FromPoint(_side.Height);
        var sheet = new Sheet(XGraphics.FromPdfPage(page), _sheets.Count, _record, _fit);
        _sheets.Add(sheet);
        return sheet;
    }

    private double TextHeight(List<Block> text) =>
        (
            text.Sum(block =>
                block.Measure(_setting, Paper.StandSide.TwoColumns(_page, 0, 0)[0].Width)
            ) / 2
        ) + 24;

    private bool Fits(List<Block> text, double top, double bottom) =>
        top <= bottom
        && new ColumnFlow(Paper.StandSide.TwoColumns(_page, top, bottom)).Fill(_setting, text).Count
            == 0;

    /// <summary>
    /// Drawings at their own scale, on as many sides as that takes, with text in the room that they leave; returns
    /// where the rest of the text goes on.
    /// </summary>
    private (Sheet Sheet, double Top, List<Block> Text) Drawings(
        Sheet sheet,
        ImmutableArray<Scene> drawings,
        double top,
        List<Block> text
    )
    {
        var left = drawings.ToList();
        while (left.Count > 0)
        {
            var room = _page with { Top = top, Height = Bottom - top };
            var placed = DrawingShelves.Lay(left, room, whole: top <= _page.Top);
            foreach (var scene in placed)
            {
                new SceneBlock(scene).Draw(_setting, sheet, scene.Box);
                left.Remove(scene.Scene);
                top = Math.Max(top, scene.Box.Bottom + DrawingShelves.GapPt);
            }
            if (left.Count > 0)
            {
                text = Columns(sheet, text, top, Bottom).Left;
                (sheet, top) = (NewSheet(), _page.Top);
            }
        }
        return (sheet, top, text);
    }

    /// <summary>Fills two columns between two heights, as evenly as the blocks allow.</summary>
    private (List<Block> Left, double End) Columns(
        Sheet sheet,
        List<Block> blocks,
        double top,
        double bottom
    )
    {
        if (top >= bottom)
        {
            return (blocks, top);
        }
        var flow = new ColumnFlow(Paper.StandSide.TwoColumns(_page, top, bottom));
        var left = flow.Fill(_setting, blocks);
        if (left.Count == 0)
        {
            flow = Even(blocks, top, bottom);
        }
        foreach (var (block, box) in flow.Placed)
        {
            block.Draw(_setting, sheet, box);
        }
        return (left, flow.Placed.Select(placed => placed.Box.Bottom).DefaultIfEmpty(top).Max());
    }

    private ColumnFlow Even(List<Block> blocks, double top, double bottom)
    {
        const double step = 4;
        for (var end = top + (TextHeight(blocks) - 24); end < bottom; end += step)
        {
            var flow = new ColumnFlow(Paper.StandSide.TwoColumns(_page, top, end));
            if (flow.Fill(_setting, blocks).Count == 0)
            {
                return flow;
            }
        }
        var whole = new ColumnFlow(Paper.StandSide.TwoColumns(_page, top, bottom));
        whole.Fill(_setting, blocks);
        return whole;
    }
}
