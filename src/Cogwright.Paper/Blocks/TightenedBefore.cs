using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// The walk-round over fasteners whose torque already has its line in an earlier stage: a tick, the name and the figure
/// each, in a grid, one box of initials for all.
/// </summary>
internal sealed class TightenedBefore(ImmutableArray<Target> targets) : Block
{
    private const double Gap = 2;
    private const double TickPt = 9;
    private const double TickWidth = 11.5;
    private const double Apart = 7;
    private const int MostColumns = 3;

    /// <inheritdoc/>
    internal override string Name => "tightened-before";

    /// <summary>Whether a target of the walk-round was tightened to its torque in an earlier stage.</summary>
    internal static bool Holds(Target target, WorksheetContent content) =>
        target is { IsTorque: true, Stage: WorkStage.Torque }
        && Fasteners.All.Any(fastener =>
            target.Id == TargetNames.Torque(fastener)
            && content
                .Stages.SelectMany(stage => stage.Targets)
                .Any(first => first.Id == TargetNames.FirstTorque(fastener))
        );

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (Rows(setting, widthPt) * Line) + Gap;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var widths = ColumnWidths(setting, box.Width);
        var rows = (targets.Length + widths.Count - 1) / widths.Count;
        // What the columns leave free keeps name and figure together and the columns apart.
        var free = (Room(box.Width) - widths.Sum()) / widths.Count;
        for (var i = 0; i < targets.Length; i++)
        {
            // Down, then across: the order of the walk-round reads as a column.
            var column = i / rows;
            var place = new PaperBox(
                box.Left + 1 + widths.Take(column).Sum() + (column * free),
                box.Top + (Gap / 2) + (i % rows * Line),
                widths[column] - Apart,
                Line
            );
            var value = Value(targets[i]);
            var valueWidth = setting.Fit.Width(value, TickPt, true) + 0.5;
            sheet.Tick(
                ShortWords.Title(targets[i]),
                place with
                {
                    Width = place.Width - valueWidth - 2,
                },
                TickPt
            );
            sheet.Print(
                value,
                place with
                {
                    Left = place.Right - valueWidth,
                    Width = valueWidth,
                },
                TickPt,
                bold: true
            );
        }
        sheet.Frame(
            new PaperBox(
                box.Right - Columns.InitialsPt,
                box.Top + 0.5,
                Columns.InitialsPt,
                box.Height - 1
            )
        );
    }

    private static double Line => Setting.Line(TickPt) + 1;

    private static double Room(double widthPt) => widthPt - Columns.InitialsPt - 2;

    private static string Value(Target target) =>
        Amount.Of(target) is { Length: > 0 } amount
            ? amount
            : Texts.Get("sheet.figureOfPart", target.Unit);

    private int Rows(Setting setting, double widthPt)
    {
        var columns = ColumnWidths(setting, widthPt).Count;
        return (targets.Length + columns - 1) / columns;
    }

    /// <summary>The widths of as many columns as fit beside one another, each as wide as its widest line (pt).</summary>
    private List<double> ColumnWidths(Setting setting, double widthPt)
    {
        for (var columns = Math.Min(MostColumns, targets.Length); columns > 1; columns--)
        {
            var rows = (targets.Length + columns - 1) / columns;
            var widths = targets
                .Chunk(rows)
                .Select(column => column.Max(target => Width(setting, target)))
                .ToList();
            if (widths.Sum() <= Room(widthPt))
            {
                return widths;
            }
        }
        return [Room(widthPt)];
    }

    private static double Width(Setting setting, Target target) =>
        TickWidth
        + setting.Fit.Width(ShortWords.Title(target), TickPt, false)
        + 4
        + setting.Fit.Width(Value(target), TickPt, true)
        + Apart;
}
