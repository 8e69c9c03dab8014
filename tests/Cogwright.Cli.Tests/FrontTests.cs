namespace Cogwright.Cli.Tests;

/// <summary>The front derailleur on the command line.</summary>
public sealed class FrontTests
{
    [Fact]
    public void Solve_WithFrontDerailleur_TellsEveryGearInItsCage()
    {
        var (_, json) = CommandLine.RunJson("solve", CommandLine.Spec("road-2x12-wireless"));
        var front = json.GetProperty("front");

        Assert.Equal(24, front.GetProperty("gears").GetArrayLength());
        foreach (var gear in front.GetProperty("gears").EnumerateArray())
        {
            var touches =
                gear.GetProperty("innerPlateMm").GetDouble() <= 0
                || gear.GetProperty("outerPlateMm").GetDouble() <= 0
                || gear.GetProperty("bridgeMm").GetDouble() <= 0;
            Assert.Equal(touches, gear.GetProperty("rubs").GetBoolean());
            Assert.Equal(
                touches,
                gear.GetProperty("trimClears").ValueKind is not System.Text.Json.JsonValueKind.Null
            );
        }
    }

    [Fact]
    public void Solve_InnerGapNotYetSet_SaysWhatToTurn()
    {
        var (_, json) = CommandLine.RunJson("solve", CommandLine.Spec("road-2x12-wireless"));
        var inner = json.GetProperty("front")
            .GetProperty("settings")
            .EnumerateArray()
            .Single(setting => setting.GetProperty("kind").GetString() == "innerGap");
        var correction = inner.GetProperty("correction");

        Assert.False(inner.GetProperty("within").GetBoolean());
        Assert.Equal("clockwise", correction.GetProperty("direction").GetString());
        Assert.InRange(correction.GetProperty("expectedMm").GetDouble(), 0.5, 1);
        Assert.Equal(24, correction.GetProperty("after").GetArrayLength());
        Assert.Contains(
            "front inboard stop screw",
            CommandLine.Run("solve", CommandLine.Spec("road-2x12-wireless")).Output,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Solve_WithoutFrontDerailleur_SaysNothingOfIt()
    {
        var (_, json) = CommandLine.RunJson("solve", CommandLine.Spec("single-speed"));

        Assert.False(json.TryGetProperty("front", out _));
    }
}
