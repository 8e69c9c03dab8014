using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drawing;
using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>One worksheet being printed, side by side, into one document.</summary>
internal sealed class WorksheetPrinting : IDisposable
{
    private const double MarginMm = 7;

    // Text narrower than that is tiresome to read (pt).
    private const double LeastTextPt = 170;

    private readonly PrintedSides _sides;
    private readonly WorksheetContent _content;
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
        _sides = new(Texts.Get("sheet.documentTitle", content.BikeName), date, size, MarginMm, fit);
        _page = _sides.Page;
        _date = date?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";
        _fit = fit;
        _setting = new Setting(fit, Density.FromRoomyToTight[^1]);
    }

    private double Bottom => _page.Bottom - Foot - 2;

    private static double Foot => Setting.Line(Setting.SmallPt);

    /// <summary>Prints side one.</summary>
    internal void StandSide()
    {
        var side = new StandSide(_content, _date, _page, _fit);
        side.Draw(_sides.New());
        _overleaf = [.. side.Overleaf];
        _setting = side.Setting;
    }

    /// <summary>
    /// Prints side two, and more when the text needs it: what was left over from the stand, the drawings, the text, and
    /// at the foot of the last side the gauge, whose back is then free or is text that stands at the stand too.
    /// </summary>
    internal void DeskSides(ImmutableArray<Scene> drawings)
    {
        var sheet = _sides.New();
        var top = _page.Top;
        while (_overleaf.Count > 0)
        {
            var flow = Columns(sheet, _overleaf, top, Bottom);
            (_overleaf, top) = (flow.Left, flow.End + 6);
            if (_overleaf.Count > 0)
            {
                (sheet, top) = (_sides.New(), _page.Top);
            }
        }
        var gauge = GaugeBlock.For(_content);
        var gaugeHeight = gauge is null ? 0 : gauge.Measure(_setting, _page.Width) + 4;
        var text = DeskText.Of(_content, _setting.Density);
        (sheet, top, text) = Drawings(sheet, drawings, top, text);
        while (!Fits(text, top, Bottom - gaugeHeight))
        {
            text = Columns(sheet, text, top, Bottom).Left;
            (sheet, top) = (_sides.New(), _page.Top);
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
        SideNumber();
        for (var i = 1; i < _sides.Sheets.Count; i++)
        {
            new FootBlock(
                _content.BikeName,
                Texts.Get("sheet.sideOf", i + 1, _sides.Sheets.Count)
            ).Draw(
                _setting,
                _sides.Sheets[i],
                _page with
                {
                    Top = _page.Bottom - Foot,
                    Height = Foot,
                }
            );
        }
        return _sides.Close();
    }

    // Side one has no foot: its room is the work's. The number stands with the bike's name.
    private void SideNumber()
    {
        var first = _sides.Sheets[0];
        first.Resume(HeaderBlock.BlockName);
        first.Print(
            Texts.Get("sheet.sideOf", 1, _sides.Sheets.Count),
            HeaderBlock.SideNumber(_page),
            Setting.SmallPt,
            bold: true,
            align: Align.End
        );
    }

    /// <inheritdoc/>
    public void Dispose() => _sides.Dispose();

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
            text = Beside(sheet, placed, text);
            if (left.Count > 0)
            {
                text = Columns(sheet, text, top, Bottom).Left;
                (sheet, top) = (_sides.New(), _page.Top);
            }
        }
        return (sheet, top, text);
    }

    /// <summary>Sets text at the right of the drawings of a shelf where they leave room; returns the rest of it.</summary>
    private List<Block> Beside(Sheet sheet, IReadOnlyList<PlacedScene> placed, List<Block> text)
    {
        foreach (var shelf in placed.GroupBy(scene => scene.Box.Top))
        {
            var left = shelf.Max(scene => scene.Box.Right) + DrawingShelves.GapPt;
            if (_page.Right - left < LeastTextPt)
            {
                continue;
            }
            var height = shelf.Max(scene => scene.Box.Height);
            var flow = new ColumnFlow([new PaperBox(left, shelf.Key, _page.Right - left, height)]);
            text = flow.Fill(_setting, text);
            foreach (var (block, box) in flow.Placed)
            {
                block.Draw(_setting, sheet, box);
            }
        }
        return text;
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
