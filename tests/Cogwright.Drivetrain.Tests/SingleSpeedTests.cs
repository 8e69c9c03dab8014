namespace Cogwright.Drivetrain.Tests;

/// <summary>A ring and a cog without derailleur, with an axle that moves or not.</summary>
public class SingleSpeedTests
{
    private static DrivetrainSpec Bike(double stayMm, double travelMm, bool halfLink = false) =>
        new()
        {
            Name = "Single-speed",
            Frame = new()
            {
                ChainstayMm = stayMm,
                BottomBracketDropMm = 60,
                AxleTravelMm = travelMm,
            },
            Rings = [new(44, 42)],
            Cogs = new()
            {
                Teeth = [16],
                SmallestLateralMm = 43,
                SpacingMm = 0,
            },
            Chain = new() { HalfLink = halfLink },
        };

    private static double Direct(double stayMm) =>
        ChainPath.Round([new(new(-stayMm, 0), 16, 1), new(new(0, 0), 44, 1)]).Pitches;

    [Fact]
    public void Choose_AxleThatMoves_TightensTheChainWithinItsTravel()
    {
        var spec = Bike(405, 18);
        Assert.Empty(SpecCheck.Problems(spec));
        var choice = ChainChooser.Choose(spec);
        Assert.Equal(ChainChoiceStatus.ServesAll, choice.Status);
        var pitches = choice.Numbers.Recommended!.Value;
        Assert.Equal(2 * (int)Math.Ceiling(Direct(405) / 2), pitches);
        var gear = choice.Table!.Gears[0];
        Assert.Equal(GearState.Ok, gear.State);
        Assert.InRange(gear.AxleMovedMm, 0, 18);
        Assert.Equal(pitches, Direct(405 + gear.AxleMovedMm), 1e-8);
        Assert.Equal(
            60,
            gear.CogTeethInMesh + gear.RingTeethInMesh + (2 * gear.TopRunMm / 12.7) - pitches + 60,
            1e-8
        );
    }

    [Fact]
    public void Solve_BeyondTheAxlesTravel_IsShortOrSlack()
    {
        var spec = Bike(405, 5);
        var needs = Direct(405);
        var takes = Direct(410);
        var shorter = GearTableSolver.Solve(spec, (int)Math.Floor(needs)).Gears[0];
        Assert.Equal(GearState.Short, shorter.State);
        Assert.Equal((needs - Math.Floor(needs)) * 12.7, shorter.ShortfallMm, 1e-8);
        var longer = GearTableSolver.Solve(spec, (int)Math.Ceiling(takes)).Gears[0];
        Assert.Equal(GearState.Slack, longer.State);
        Assert.Equal((Math.Ceiling(takes) - takes) * 12.7, longer.ShortfallMm, 1e-8);
        Assert.Equal(5, longer.AxleMovedMm, 1e-9);
    }

    [Fact]
    public void Solve_FixedAxle_AllowsALittleSagAndNoMore()
    {
        var even = 2 * (int)Math.Ceiling(Direct(405) / 2);
        double StayFor(double pitches) =>
            MathNet.Numerics.RootFinding.Brent.FindRoot(c => Direct(c) - pitches, 380, 440);
        GearState At(double pathPitches) =>
            GearTableSolver.Solve(Bike(StayFor(pathPitches), 0), even).Gears[0].State;
        Assert.Equal(GearState.Ok, At(even - 0.001));
        Assert.Equal(GearState.Ok, At(even - 0.039));
        Assert.Equal(GearState.Slack, At(even - 0.041));
        Assert.Equal(GearState.Short, At(even + 0.001));
    }

    [Fact]
    public void Choose_HalfLink_MayBeOdd()
    {
        var odd = (2 * (int)Math.Ceiling(Direct(405) / 2)) - 1;
        var stay = MathNet.Numerics.RootFinding.Brent.FindRoot(c => Direct(c) - odd, 380, 440);
        var even = ChainChooser.Choose(Bike(stay - 1, 2));
        Assert.Equal(ChainChoiceStatus.CannotServeAll, even.Status);
        var half = ChainChooser.Choose(Bike(stay - 1, 2, halfLink: true));
        Assert.Equal(ChainChoiceStatus.ServesAll, half.Status);
        Assert.Equal(odd, half.Numbers.Recommended);
    }
}
