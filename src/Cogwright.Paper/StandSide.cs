using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>
/// Side one, which hangs at the stand: everything in the order of work, set as roomy as fits on one side. When even
/// the tightest setting does not fit, the last stages, which are done away from the stand, begin side two: first the
/// test and the handover, then the torque walk-round too, then the front derailleur too.
/// </summary>
internal sealed class StandSide
{
    private const double ColumnGap = 8;
    private const double BlockGap = 2.5;
    private const double MostSpread = 9;
    private const double Step = 4;
    private static readonly double LeastNotes = Points.FromMm(9);
    private static readonly WorkStage[][] Tails =
    [
        [],
        [WorkStage.LoadedTest],
        [WorkStage.Torque, WorkStage.LoadedTest],
        [WorkStage.Front, WorkStage.Torque, WorkStage.LoadedTest],
    ];

    private readonly WorksheetContent _content;
    private readonly string _date;
    private readonly PaperBox _page;

    internal StandSide(WorksheetContent content, string date, PaperBox page, TextFit fit)
    {
        (_content, _date, _page) = (content, date, page);
        foreach (var tail in Tails)
        {
            foreach (var density in Density.FromRoomyToTight)
            {
                Setting = new Setting(fit, density);
                var overleaf = Lay(tail);
                if (overleaf.Count == 0)
                {
                    Overleaf = Blocks(tail, inTail: true);
                    return;
                }
                Overleaf = [.. overleaf, .. Blocks(tail, inTail: true)];
            }
        }
    }

    /// <summary>The setting that was taken.</summary>
    internal Setting Setting { get; private set; } = null!;

    /// <summary>What begins side two.</summary>
    internal IReadOnlyList<Block> Overleaf { get; private set; } = [];

    private List<(Block Block, PaperBox Box)> Top { get; } = [];

    private ColumnFlow Flow { get; set; } = null!;

    /// <summary>Draws it.</summary>
    internal void Draw(Sheet sheet)
    {
        var end = Flow.Placed.Max(placed => placed.Box.Bottom);
        var notes = _page with { Top = end, Height = _page.Bottom - end };
        var across = notes.Height >= LeastNotes;
        var right = Flow.Placed.Max(placed => placed.Box.Left);
        var spread = new List<(Block Block, PaperBox Box)>();
        foreach (var column in Flow.Placed.GroupBy(placed => placed.Box.Left))
        {
            var free = (across ? end : _page.Bottom) - column.Max(placed => placed.Box.Bottom);
            if (!across && column.Key >= right && free > LeastNotes)
            {
                free -= LeastNotes;
            }
            spread.AddRange(Spread([.. column], free));
        }
        foreach (var (block, box) in Top.Concat(spread))
        {
            block.Draw(Setting, sheet, box);
        }
        if (!across)
        {
            var last = spread[^1].Box;
            notes = last with { Top = last.Bottom, Height = _page.Bottom - last.Bottom };
        }
        if (notes.Height >= LeastNotes)
        {
            new NotesBlock().Draw(Setting, sheet, notes);
        }
    }

    /// <summary>Shares out a column's free height (pt) before its stages, so that the stages stand apart.</summary>
    private static IEnumerable<(Block Block, PaperBox Box)> Spread(
        IReadOnlyList<(Block Block, PaperBox Box)> column,
        double freePt
    )
    {
        var stages = column.Skip(1).Count(placed => placed.Block is StageHeading);
        var each = stages == 0 ? 0 : Math.Min(MostSpread, freePt / stages);
        var down = 0.0;
        for (var i = 0; i < column.Count; i++)
        {
            if (i > 0 && column[i].Block is StageHeading)
            {
                down += each;
            }
            yield return (column[i].Block, column[i].Box with { Top = column[i].Box.Top + down });
        }
    }

    /// <summary>The two columns of a page between two heights.</summary>
    internal static PaperBox[] TwoColumns(PaperBox page, double top, double bottom)
    {
        var width = (page.Width - ColumnGap) / 2;
        return
        [
            new PaperBox(page.Left, top, width, bottom - top),
            new PaperBox(page.Left + width + ColumnGap, top, width, bottom - top),
        ];
    }

    private List<Block> Lay(WorkStage[] tail)
    {
        Top.Clear();
        var top = _page.Top;
        Block[] across =
        [
            new HeaderBlock(_content.BikeName, _content.Gearing, _date),
            new TopCautions(_content),
            new AssumedBlock(_content.Assumed),
        ];
        foreach (var block in across)
        {
            var height = block.Measure(Setting, _page.Width);
            if (height > 0)
            {
                Top.Add((block, _page with { Top = top, Height = height }));
                top += height + BlockGap;
            }
        }
        var blocks = Blocks(tail, inTail: false);
        Flow = new ColumnFlow(TwoColumns(_page, top, _page.Bottom));
        var left = Flow.Fill(Setting, blocks);
        // Both columns end at about one height, the least that holds everything.
        for (var bottom = _page.Bottom - Step; left.Count == 0 && bottom > top; bottom -= Step)
        {
            var shorter = new ColumnFlow(TwoColumns(_page, top, bottom));
            if (shorter.Fill(Setting, blocks).Count > 0)
            {
                break;
            }
            Flow = shorter;
        }
        return left;
    }

    private List<Block> Blocks(WorkStage[] tail, bool inTail)
    {
        var blocks = new List<Block>();
        var cautions = StageCautions.Of(_content);
        for (var i = 0; i < _content.Stages.Length; i++)
        {
            var stage = _content.Stages[i];
            if (tail.Contains(stage.Stage) == inTail)
            {
                blocks.AddRange(StageBlocks.Of(i + 1, stage, cautions[i], _content));
            }
        }
        if (tail.Length > 0 == inTail)
        {
            blocks.Add(new GearsNotToUseBlock(_content.GearsNotToUse));
        }
        return blocks;
    }
}
