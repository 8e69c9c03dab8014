using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

public class RingRubTests
{
    private static double Clearance(DrivetrainSpec spec, int ring, int cog) =>
        RingRub.ClearanceMm(spec, GearTableSolver.Solve(spec, 110).Find(new(ring, cog))!.Value);

    private static DrivetrainSpec Sized { get; } =
        Spec with
        {
            Lateral = new() { ChainWidthMm = 5.3, RingThicknessMm = 2 },
        };

    /// <summary>With the cog in line with its ring the chain stays in the ring's plane: 47 − 1 − 40 − 2.65.</summary>
    [Fact]
    public void RingRub_CogInLine_IsTheRoomBetweenTheRings()
    {
        var spec = Sized with { Cogs = Sized.Cogs with { SmallestLateralMm = 40 } };
        Assert.Equal(47 - 1 - 40 - 2.65, Clearance(spec, 34, 11), 1e-9);
    }

    /// <summary>A cog inboard of the ring leads the chain away: least where it leaves the ring.</summary>
    [Fact]
    public void RingRub_CogInboard_IsLeastAtTheRing() =>
        Assert.Equal(47 - 1 - 40 - 2.65, Clearance(Sized, 34, 34), 1e-9);

    [Fact]
    public void RingRub_LargestRing_HasNoNextRing() =>
        Assert.True(double.IsNaN(Clearance(Sized, 50, 11)));

    /// <summary>A naive twin: walk the top run in small steps and look at every point inside the tip circle.</summary>
    [Theory]
    [InlineData(11)]
    [InlineData(13)]
    [InlineData(15)]
    [InlineData(19)]
    public void RingRub_WorkedExample_AgreesWithAWalkAlongTheRun(int cogTeeth)
    {
        var axle = Spec.Frame.Axle;
        var path = ChainPath.Round([new(axle, cogTeeth, 1), new(default, 34, 1)]);
        var (from, to) = (path.Runs[0].Start, path.Runs[0].End);
        var cog = Spec.Cogs.LateralMm(Spec.Cogs.Teeth.IndexOf(cogTeeth));
        var tip = Sprocket.TipRadiusMm(50);
        var least = double.PositiveInfinity;
        const int steps = 400_000;
        for (var i = 0; i <= steps; i++)
        {
            var part = (double)i / steps;
            var p = new Point(to.X + (part * (from.X - to.X)), to.Y + (part * (from.Y - to.Y)));
            if (p.Length <= tip)
            {
                least = Math.Min(least, 47 - 1 - (40 + (part * (cog - 40)) + 2.65));
            }
        }
        Assert.Equal(least, Clearance(Sized, 34, cogTeeth), 2e-4);
    }

    [Fact]
    public void Findings_SmallestCogsOnTheSmallRing_RubAndAreExplained()
    {
        var rubs = Findings
            .Of(GearTableSolver.Solve(Sized, 110))
            .Where(f => f.Kind == FindingKind.RubsNextRing)
            .ToList();
        Assert.Equal([new Gear(34, 11), new Gear(34, 12)], rubs.Select(f => f.Gear));
        Assert.All(rubs, f => Assert.True(f.ValueMm < 0));
        var words = Explanation.Of(rubs[0]);
        Assert.Contains("34/11", words.What, StringComparison.Ordinal);
        Assert.Contains("by design", words.WhatToDo, StringComparison.Ordinal);
        Assert.DoesNotContain("-", words.What, StringComparison.Ordinal);
    }

    [Fact]
    public void RingRub_MoreCogsThanAnybodyMakes_IsNotKnown() =>
        Assert.True(
            double.IsNaN(
                Clearance(
                    Spec with
                    {
                        Cogs = Spec.Cogs with
                        {
                            Teeth = [10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23],
                            SpacingMm = 2.8,
                        },
                    },
                    34,
                    10
                )
            )
        );
}
