using System.Text.Json;

namespace Cogwright.Cli.Tests;

/// <summary>Commands on a bike whose rear axle moves.</summary>
public class TravelTests
{
    private static readonly string Bike = CommandLine.Spec("full-suspension-1x12");

    [Fact]
    public void Solve_NoTravelNamed_StandsAtSag()
    {
        var (exit, json) = CommandLine.RunJson("solve", Bike);
        Assert.NotEqual(2, exit);
        Assert.Equal(42, json.GetProperty("travelMm").GetDouble(), 1e-9);
        Assert.Equal("verticalAtWheel", json.GetProperty("travelMeans").GetString());
        Assert.True(json.GetProperty("growthMm").GetDouble() > 0);
    }

    [Fact]
    public void Solve_Travel_StandsThere()
    {
        var (_, json) = CommandLine.RunJson("solve", Bike, "--travel", "40.5");
        Assert.Equal(40.5, json.GetProperty("travelMm").GetDouble());
    }

    [Fact]
    public void Solve_Sweep_FollowsEveryGearOverTheWholeTravel()
    {
        var (_, json) = CommandLine.RunJson("solve", Bike, "--travel", "sweep");
        var sweep = json.GetProperty("sweep").EnumerateArray().ToList();
        Assert.Equal(101, sweep.Count);
        Assert.Equal(0, sweep[0].GetProperty("travelMm").GetDouble());
        Assert.Equal(0, sweep[0].GetProperty("growthMm").GetDouble());
        Assert.Equal(140, sweep[^1].GetProperty("travelMm").GetDouble());
        Assert.All(sweep, at => Assert.Equal(12, at.GetProperty("gears").GetArrayLength()));
        // The sweep passes through what solve says of one position.
        var (_, there) = CommandLine.RunJson("solve", Bike, "--travel", "70");
        Assert.Equal(Gap(there), Gap(sweep[50]), 1e-9);
        var (_, screen) = CommandLine.Run("solve", Bike, "--travel", "sweep");
        Assert.Contains("140.0", screen, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("full-suspension-1x12", "solve", "150")]
    [InlineData("full-suspension-1x12", "solve", "-1")]
    [InlineData("full-suspension-1x12", "solve", "half")]
    [InlineData("full-suspension-1x12", "draw", "sweep")]
    [InlineData("trail-1x12", "solve", "10")]
    [InlineData("trail-1x12", "solve", "sweep")]
    public void Travel_ThatTheBikeHasNot_IsRefusedWithTheReason(
        string spec,
        string command,
        string travel
    )
    {
        var (exit, output) = CommandLine.Run(command, CommandLine.Spec(spec), "--travel", travel);
        Assert.Equal(2, exit);
        Assert.Contains("--travel", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Chain_Json_NamesTheLongestPositionAndWhatSetsTheEnds()
    {
        var (_, json) = CommandLine.RunJson("chain", Bike);
        Assert.InRange(json.GetProperty("growthMm").GetDouble(), 8, 20);
        Assert.InRange(json.GetProperty("longestPositionTravelMm").GetDouble(), 0, 140);
        Assert.InRange(json.GetProperty("shortestSetAtTravelMm").GetDouble(), 0, 140);
        var (_, rigid) = CommandLine.RunJson("chain", CommandLine.Spec("trail-1x12"));
        Assert.False(rigid.TryGetProperty("growthMm", out _));
    }

    [Fact]
    public void Json_EveryNameOfASweep_IsDocumented()
    {
        var documentation = File.ReadAllText(
            CommandLine.InRepository("docs/how-to/command-line.md")
        );
        var (_, solve) = CommandLine.RunJson("solve", Bike, "--travel", "sweep");
        var (_, chain) = CommandLine.RunJson("chain", Bike);
        string[] names =
        [
            .. solve.EnumerateObject().Select(p => p.Name),
            .. solve.GetProperty("sweep")[0].EnumerateObject().Select(p => p.Name),
            .. chain.EnumerateObject().Select(p => p.Name),
        ];
        foreach (var name in names.Except(["name", "assumed"]))
        {
            Assert.True(
                documentation.Contains($"`{name}`", StringComparison.Ordinal)
                    || documentation.Contains($"`{name}[]`", StringComparison.Ordinal),
                name
            );
        }
    }

    [Fact]
    public void Draw_Travel_DrawsThatPosition()
    {
        using var scratch = new Scratch();
        var (exit, json) = CommandLine.RunJson(
            "draw",
            Bike,
            "--travel",
            "100",
            "--out",
            scratch.Folder
        );
        Assert.NotEqual(2, exit);
        var svg = json.GetProperty("files")
            .EnumerateArray()
            .Select(file => file.GetString()!)
            .First(file =>
                file.EndsWith(".svg", StringComparison.Ordinal)
                && file.Contains("side", StringComparison.Ordinal)
            );
        Assert.Contains(
            "rear wheel risen 100 of 140 mm",
            File.ReadAllText(svg),
            StringComparison.Ordinal
        );
    }

    private static double Gap(JsonElement at) =>
        at.GetProperty("gears").EnumerateArray().Last().GetProperty("gapMm").GetDouble();
}
