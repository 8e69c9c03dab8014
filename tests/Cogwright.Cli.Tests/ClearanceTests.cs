using System.Text.Json;

namespace Cogwright.Cli.Tests;

/// <summary>The room to spokes and frame stands before everything else, and is never silently fine.</summary>
public class ClearanceTests
{
    private static JsonElement Find(JsonElement json, string kind) =>
        json.GetProperty("clearances")
            .EnumerateArray()
            .Single(c => c.GetProperty("kind").GetString() == kind);

    [Fact]
    public void Solve_Json_TellsTheRoomRightAfterTheName()
    {
        var (_, json) = CommandLine.RunJson("solve", CommandLine.Spec("road-2x12-wireless"));
        Assert.Equal(
            ["name", "clearances"],
            json.EnumerateObject().Take(2).Select(property => property.Name)
        );
        Assert.Equal(
            "cageOnLargestCog",
            json.GetProperty("clearances")[0].GetProperty("kind").GetString()
        );
        var inboard = json.GetProperty("stops")[0];
        Assert.Equal(0.6, inboard.GetProperty("overshootMm").GetDouble(), 1e-9);
    }

    [Fact]
    public void Solve_NothingKnown_CannotSayAndNamesTheField()
    {
        var (_, json) = CommandLine.RunJson("solve", CommandLine.Spec("model-example"));
        var cage = Find(json, "cageOnLargestCog");
        Assert.Equal("cannotSay", cage.GetProperty("verdict").GetString());
        Assert.Equal(JsonValueKind.Null, cage.GetProperty("valueMm").ValueKind);
        Assert.Equal("wheel.cageToSpokes", cage.GetProperty("missing")[0].GetString());
    }

    [Fact]
    public void Solve_LargerKnockAndLean_LeaveLess()
    {
        var spec = CommandLine.Spec("road-2x12-wireless");
        var small = Find(CommandLine.RunJson("solve", spec, "--knock", "1 mm").Json, "cageKnocked");
        var large = Find(CommandLine.RunJson("solve", spec, "--knock", "2deg").Json, "cageKnocked");
        Assert.True(
            large.GetProperty("valueMm").GetDouble() < small.GetProperty("valueMm").GetDouble()
        );
        var (_, leaning) = CommandLine.RunJson("solve", spec, "--lean", "0.5");
        Assert.True(
            Find(leaning, "cageTilted").GetProperty("valueMm").GetDouble()
                < Find(leaning, "cageOnLargestCog").GetProperty("valueMm").GetDouble()
        );
        Assert.Equal(0.5, leaning.GetProperty("hangerLeanDeg").GetDouble(), 1e-9);
    }

    [Theory]
    [InlineData("--knock", "hard")]
    [InlineData("--knock", "200")]
    [InlineData("--lean", "90")]
    public void Solve_OptionThatCannotBe_IsRefused(string option, string value)
    {
        var (exit, output) = CommandLine.Run(
            "solve",
            CommandLine.Spec("road-2x12-wireless"),
            option,
            value
        );
        Assert.Equal(2, exit);
        Assert.Contains(option, output, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_CageTooNear_IsWorthALook()
    {
        using var scratch = new Scratch();
        var near = scratch.File(
            "near.yaml",
            File.ReadAllText(CommandLine.Spec("trail-1x12"))
                .Replace("cageToSpokes: 4", "cageToSpokes: 0.5", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            "TOO CLOSE",
            CommandLine.Run("solve", CommandLine.Spec("trail-1x12")).Output,
            StringComparison.Ordinal
        );
        var (exit, output) = CommandLine.Run("solve", near);
        Assert.Equal(1, exit);
        Assert.Contains("TOO CLOSE", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_Gear_WritesTheTopViewToo()
    {
        using var scratch = new Scratch();
        CommandLine.Run(
            "draw",
            CommandLine.Spec("road-2x12-wireless"),
            "--gear",
            "34/11",
            "--out",
            scratch.Folder
        );
        Assert.Single(Directory.GetFiles(scratch.Folder, "*top-view-34-11.svg"));
        Assert.Single(Directory.GetFiles(scratch.Folder, "*top-view-34-11.png"));
    }
}
