using Cogwright.Drivetrain;

namespace Cogwright.Files.Tests;

/// <summary>The demo bikes read without a word and give gear tables that a mechanic would believe.</summary>
public sealed class DemoSpecTests
{
    public static TheoryData<string> Specs => [.. Repository.DemoSpecs];

    internal static SpecFile Read(string name)
    {
        var reading = SpecReader.Read(
            Repository.Text("demo/specs/" + name),
            name,
            DemoParts.Library
        );
        Assert.Empty(reading.Problems);
        return reading.Spec!;
    }

    [Theory]
    [MemberData(nameof(Specs))]
    public void DemoSpec_Read_HasNoProblem(string name) => Assert.NotNull(Read(name));

    [Theory]
    [InlineData("model-example.yaml")]
    [InlineData("road-2x12-wireless.yaml")]
    [InlineData("touring-3x9-cable.yaml")]
    [InlineData("trail-1x12.yaml")]
    public void DemoSpec_Solved_ServesEveryGearWithAPlausibleGap(string name)
    {
        var spec = Read(name).Drivetrain;

        var choice = ChainChooser.Choose(spec);

        Assert.Equal(ChainChoiceStatus.ServesAll, choice.Status);
        Assert.Empty(choice.LeftOut);
        Assert.InRange(choice.Numbers.Recommended!.Value, 104, 126);
        var smallestRing = spec.Rings.Min(r => r.Teeth);
        var gear = choice.Table!.Find(new(smallestRing, spec.Cogs.Teeth[^1]))!.Value;
        Assert.Equal(GearState.Ok, gear.State);
        // Common practice: 4 to 8 mm on moderate cassettes, up to about 11 mm on the widest.
        Assert.InRange(gear.GapMm, 4, 12);
    }

    [Fact]
    public void GravelDemo_Solved_LargestCogMeetsThePulley()
    {
        var choice = ChainChooser.Choose(Read("gravel-1x13.yaml").Drivetrain);

        Assert.Equal(ChainChoiceStatus.CannotServeAll, choice.Status);
        Assert.Equal(new Gear(40, 50), Assert.Single(choice.LeftOut).Gear);
    }

    [Fact]
    public void SingleSpeedDemo_Solved_ClosesWithinItsSlots()
    {
        var choice = ChainChooser.Choose(Read("single-speed.yaml").Drivetrain);

        Assert.Equal(ChainChoiceStatus.ServesAll, choice.Status);
        Assert.InRange(Assert.Single(choice.Table!.Gears).AxleMovedMm, 0, 18);
    }

    [Fact]
    public void RoadDemo_LeftOutFigures_AreToldAsAssumedWithTheirOrigin()
    {
        var assumptions = Read("road-2x12-wireless.yaml").Drivetrain.Assumptions;

        Assert.Contains(
            new Assumption("rearDerailleur.slant", "52 °", "road-medium derailleur"),
            assumptions
        );
        Assert.Contains(
            new Assumption("rearDerailleur.cage.guide.offset", "(-10.8, 1) mm", "medium cage"),
            assumptions
        );
        Assert.Contains(new Assumption("wheel.rimLateral", "0 mm", "common practice"), assumptions);
        // Measured, or from the sheet of a part.
        Assert.DoesNotContain(
            assumptions,
            a => a.Path is "rearDerailleur.bodyAngle" or "hanger.offset" or "cogs.spacing"
        );
    }
}
