using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The worked example of the model, computed apart from the product: agree to 1e-4 or find out who is wrong.</summary>
public class WorkedExampleTests
{
    /// <summary>The table is printed to four decimals.</summary>
    private const double Printed = 1e-4;

    public static TheoryData<double[]> Rows() => TestData.Rows("published/worked-example.csv");

    [Theory]
    [MemberData(nameof(Rows))]
    public void GearTable_WorkedExample_AgreesWithEveryColumn(double[] row)
    {
        var table = GearTableSolver.Solve(Spec, 110);
        var gear = table.Find(new((int)row[0], (int)row[1]))!.Value;
        Assert.Equal(GearState.Ok, gear.State);
        Assert.Equal(row[2], Deg(gear.CageAngleRad), Printed);
        Assert.Equal(row[3], gear.GapMm, Printed);
        Assert.Equal(row[4], gear.CogTeethInMesh, Printed);
        Assert.Equal(row[5], Deg(gear.SwingRad), Printed);
        Assert.Equal(row[6], gear.TopRunMm, Printed);
        Assert.Equal(row[7], gear.LowerRunMm, Printed);
        Assert.Equal(row[8], gear.TakesAtRearStop, Printed);
        Assert.Equal(row[9], gear.NeedsAtFrontStop, Printed);
    }

    [Theory]
    [InlineData(50, 34, 106.76790)]
    [InlineData(50, 11, 96.26404)]
    [InlineData(34, 34, 98.56693)]
    [InlineData(34, 11, 87.48243)]
    public void ChainPath_DirectRoundRingAndCog_AgreesWithTheExample(
        int ring,
        int cog,
        double pitches
    )
    {
        var path = ChainPath.Round([new(Spec.Frame.Axle, cog, 1), new(new(0, 0), ring, 1)]);
        Assert.Equal(pitches, path.Pitches, 1e-5);
    }

    [Fact]
    public void ChainChoice_WorkedExample_GivesTheFourNumbers()
    {
        var choice = ChainChooser.Choose(Spec);
        Assert.Equal(ChainChoiceStatus.ServesAll, choice.Status);
        Assert.Equal(110, choice.Numbers.BenchRule);
        Assert.Equal(110, choice.Numbers.ShortestSafe);
        Assert.Equal(112, choice.Numbers.LongestSafe);
        Assert.Equal(110, choice.Numbers.Recommended);
    }

    [Fact]
    public void GearTable_BodyAngle22_StopsMoveWithTheBody()
    {
        var gear = GearTableSolver.Solve(Spec, 110, Rad(22)).Find(new(34, 34))!.Value;
        Assert.Equal(4.22, gear.GapMm, 0.005);
        Assert.Equal(6.3, Deg(gear.CageAngleRad), 0.05);
    }

    [Fact]
    public void GearTable_BodyAngle12_LargestGearIsShort()
    {
        var gear = GearTableSolver.Solve(Spec, 110, Rad(12)).Find(new(50, 34))!.Value;
        Assert.Equal(GearState.Short, gear.State);
        Assert.Equal(Blame.ChainTooShort, gear.Blame);
        Assert.True(gear.ShortfallMm > 0);
    }
}
