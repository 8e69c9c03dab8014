using Cogwright.Drivetrain;
using Snapshooter.Xunit3;

namespace Cogwright.Drawing.Tests;

/// <summary>Non-regression: any change of a drawing makes a person look. The geometry is tested on its own.</summary>
public class SnapshotTests
{
    [Fact]
    public void SideView_WorkedExampleLargestCog_LooksAsApproved() =>
        Snapshot.Match(SvgWriter.Write(SideView.Draw(WorkedExample.Table, new(34, 34))));

    [Fact]
    public void SideView_ChainTooShort_LooksAsApproved() =>
        Snapshot.Match(
            SvgWriter.Write(
                SideView.Draw(
                    GearTableSolver.Solve(WorkedExample.Assumed, 108, WorkedExample.Rad(12)),
                    new(50, 34)
                )
            )
        );

    [Fact]
    public void SideView_BeforeAndAfter_LooksAsApproved() =>
        Snapshot.Match(
            SvgWriter.Write(
                SideView.Draw(
                    GearTableSolver.Solve(WorkedExample.Spec, 110, WorkedExample.Rad(22)),
                    new(34, 34),
                    new() { Before = WorkedExample.Table }
                )
            )
        );

    [Fact]
    public void GapView_WorkedExample_LooksAsApproved() =>
        Snapshot.Match(SvgWriter.Write(GapView.Draw(WorkedExample.Table, new(34, 34))));

    [Fact]
    public void GearTable_WorkedExample_LooksAsApproved() =>
        Snapshot.Match(SvgWriter.Write(GearTableDrawing.Draw(WorkedExample.Table)));

    [Fact]
    public void TopView_LargestCog_LooksAsApproved() =>
        Snapshot.Match(SvgWriter.Write(TopView.Draw(TopViewTests.Table, new(34, 34))));

    [Fact]
    public void TopView_RubbingGear_LooksAsApproved() =>
        Snapshot.Match(SvgWriter.Write(TopView.Draw(TopViewTests.Table, new(34, 11))));
}
