using Cogwright.Paper.Blocks;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>What stands behind the last step of a booklet.</summary>
internal static class BookletBack
{
    private const double HeadingPt = 14;
    private const double ApartPt = 10;

    /// <summary>Every torque in the order of the steps, and every value that nobody measured.</summary>
    internal static IEnumerable<Block> Of(BookletContent content, double widthPt)
    {
        var heading = new Paragraph(
            "torques",
            Texts.Get("booklet.torques"),
            heading: true,
            HeadingPt
        );
        var rows = content
            .Steps.Where(step => step.Torque is not null)
            .Select(step => Row(step.Number, step.Torque!))
            .ToList();
        if (rows.Count > 0)
        {
            yield return new SpaceBlock(ApartPt);
            yield return new StackBlock([heading, rows[0]]);
        }
        foreach (var row in rows.Skip(1))
        {
            yield return row;
        }
        var assumed = new List<Block>();
        DeskText.Assumed(assumed, content.Assumed);
        if (assumed is [var title, .. var values])
        {
            yield return new SpaceBlock(ApartPt);
            yield return new StackBlock([title, InTwoColumns(values, widthPt)]);
        }
    }

    private static Block InTwoColumns(List<Block> blocks, double widthPt)
    {
        var half = (blocks.Count + 1) / 2;
        return blocks.Count < 2
            ? blocks[0]
            : new BesideBlock(
                new StackBlock(blocks[..half]),
                new StackBlock(blocks[half..]),
                (widthPt - ApartPt) / 2
            );
    }

    private static TorqueRow Row(int step, BookletTorque torque) =>
        new(
            torque.Target with
            {
                Id = "again-" + torque.Target.Id,
                Title = Texts.Get("booklet.torqueOfStep", step, torque.Target.Title),
            },
            torque.Faults.IsEmpty
                ? torque.Treatment
                : Texts.Get("booklet.torqueNoFigure", torque.Treatment, step)
        );
}
