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

    /// <summary>A bike without any other finding: it is the cage alone that ends the run with 1, and it is said.</summary>
    [Theory]
    [InlineData("solve")]
    [InlineData("chain")]
    [InlineData("targets")]
    [InlineData("index")]
    [InlineData("draw")]
    [InlineData("worksheet")]
    [InlineData("measure")]
    public void AnyCommand_CageTooNear_IsWorthALookAndToldWhy(string command)
    {
        using var scratch = new Scratch();
        var text = File.ReadAllText(CommandLine.Spec("touring-2x9-sprung"));
        var far = scratch.File("far.yaml", text + "\nwheel:\n  cageToSpokes: 4\n");
        var near = scratch.File("near.yaml", text + "\nwheel:\n  cageToSpokes: 0.5\n");
        string[] rest = command switch
        {
            "draw" => ["--out", scratch.Folder],
            "worksheet" or "measure" => ["--out", scratch.PathOf("sheet.pdf")],
            _ => [],
        };

        var (fine, clear) = CommandLine.Run([command, far, .. rest]);
        Assert.Equal(0, fine);
        Assert.DoesNotContain("TOO CLOSE", clear, StringComparison.Ordinal);

        var (exit, output) = CommandLine.Run([command, near, .. rest]);
        Assert.Equal(1, exit);
        Assert.Contains("TOO CLOSE", output, StringComparison.Ordinal);

        var (jsonExit, json) = CommandLine.RunJson([command, near, .. rest]);
        Assert.Equal(1, jsonExit);
        Assert.Equal(
            "close",
            (command == "solve" ? Find(json, "cageOnLargestCog") : json.GetProperty("spokes"))
                .GetProperty("verdict")
                .GetString()
        );
    }

    [Fact]
    public void Chain_LooseStop_IsWorthALookAndToldWhy()
    {
        using var scratch = new Scratch();
        var bike = scratch.File(
            "loose.yaml",
            File.ReadAllText(CommandLine.Spec("road-2x12-wireless"))
                .Replace(
                    "inboardStopOvershoot: 0.6",
                    "inboardStopOvershoot: 2",
                    StringComparison.Ordinal
                )
        );
        Assert.Equal(0, CommandLine.Run("chain", CommandLine.Spec("road-2x12-wireless")).Exit);
        var (exit, output) = CommandLine.Run("chain", bike);
        Assert.Equal(1, exit);
        Assert.Contains("LOOSE", output, StringComparison.Ordinal);
        var loose = CommandLine.RunJson("chain", bike).Json.GetProperty("looseStops");
        Assert.Equal(
            "inboard",
            Assert.Single(loose.EnumerateArray()).GetProperty("stop").GetString()
        );
    }

    /// <summary>When the worst is what was asked about it stands there once.</summary>
    [Fact]
    public void Sweep_LeanIsTheWorst_IsToldOnce()
    {
        using var scratch = new Scratch();
        var bike = scratch.File(
            "near.yaml",
            File.ReadAllText(CommandLine.Spec("full-suspension-1x12"))
                .Replace("innerFace: 4.8", "innerFace: 5", StringComparison.Ordinal)
                + "\nwheel:\n  flangeLateral: 17\n  flangeRadius: 22\n  rimRadius: 300\n  rimLateral: 0\n"
        );
        var (_, output) = CommandLine.Run("solve", bike, "--travel", "sweep", "--lean", "10");
        var told = Assert.Single(
            output.Split('\n'),
            line => line.Contains("with the hanger as read", StringComparison.Ordinal)
        );
        Assert.StartsWith("• TOUCHES", told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("draw")]
    [InlineData("worksheet")]
    [InlineData("targets")]
    public void Command_GearWorthALook_SaysWhere(string command)
    {
        using var scratch = new Scratch();
        var bike = CommandLine.Spec("model-example");
        string[] rest = command switch
        {
            "draw" => ["--out", scratch.Folder],
            "worksheet" => ["--out", scratch.PathOf("sheet.pdf")],
            _ => [],
        };
        var (exit, output) = CommandLine.Run([command, bike, .. rest]);
        Assert.Equal(1, exit);
        var (_, solved) = CommandLine.RunJson("solve", bike);
        var (_, json) = CommandLine.RunJson([command, bike, .. rest]);
        var findings = solved.GetProperty("findings");
        Assert.NotEqual(0, findings.GetArrayLength());
        Assert.Equal(findings.GetRawText(), json.GetProperty("findings").GetRawText());
        Assert.Contains("see \"cogwright solve\"", output, StringComparison.Ordinal);
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
