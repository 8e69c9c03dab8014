using System.Text.Json;

namespace Cogwright.Cli.Tests;

/// <summary>A derailleur on the axle, and one that rests inboard, from files to what a script and a person see.</summary>
public class MountTests
{
    private const string OnAxle = "trail-1x12-coaxial";
    private const string AtRest = "commuter-1x8-rests-inboard";

    [Fact]
    public void Solve_OnTheAxle_SaysThatTheBodyAngleComesOutOfTheSetUp()
    {
        var (exit, json) = CommandLine.RunJson("solve", CommandLine.Spec(OnAxle));
        Assert.Equal(0, exit);
        Assert.Equal("setUp", json.GetProperty("bodyAngleFrom").GetString());
        var setUp = json.GetProperty("setUp");
        Assert.Equal("set", setUp.GetProperty("status").GetString());
        Assert.Equal(21, setUp.GetProperty("cog").GetInt32());
        var gear = json.GetProperty("gears")
            .EnumerateArray()
            .Single(g => g.GetProperty("cog").GetInt32() == 21);
        Assert.Equal(
            setUp.GetProperty("gapMm").GetDouble(),
            gear.GetProperty("gapMm").GetDouble(),
            9
        );
        // Against the body the cage stands at the part's mark.
        Assert.Equal(
            setUp.GetProperty("cageAtSetUpDeg").GetDouble(),
            gear.GetProperty("cageAngleDeg").GetDouble()
                - json.GetProperty("bodyAngleDeg").GetDouble(),
            6
        );
    }

    [Fact]
    public void Solve_OnTheAxleWithAnotherChain_TurnsTheBodyAndKeepsTheGapAtTheMark()
    {
        double Of(string pitches, string what)
        {
            var (_, json) = CommandLine.RunJson(
                "solve",
                CommandLine.Spec(OnAxle),
                "--pitches",
                pitches
            );
            return what == "body"
                ? json.GetProperty("bodyAngleDeg").GetDouble()
                : json.GetProperty("setUp").GetProperty("gapMm").GetDouble();
        }
        Assert.True(Of("118", "body") > Of("120", "body"));
        Assert.Equal(Of("118", "gap"), Of("120", "gap"), 6);
    }

    [Fact]
    public void Solve_ChainThatCannotBeSet_EndsWithAFinding()
    {
        var (exit, output) = CommandLine.Run("solve", CommandLine.Spec(OnAxle), "--pitches", "140");
        Assert.Equal(1, exit);
        Assert.Contains("cannot be set", output, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_HangerTiltOnTheAxle_IsRefused()
    {
        var (exit, output) = CommandLine.Run("solve", CommandLine.Spec(OnAxle), "--lean", "1");
        Assert.Equal(2, exit);
        Assert.Contains("no hanger", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Correct_OnTheAxle_SetsAgainAndRefusesHangerReadings()
    {
        using var scratch = new Scratch();
        var file = scratch.File(
            "r.yaml",
            "readings:\n  - {quantity: gap, ring: 32, cog: 21, value: 16}\n  - {quantity: hanger-12, value: 1}\n"
        );
        var (exit, json) = CommandLine.RunJson("correct", CommandLine.Spec(OnAxle), file);
        Assert.Equal(1, exit);
        var correction = json.GetProperty("readings")[0].GetProperty("correction");
        Assert.Equal("setAgain", correction.GetProperty("kind").GetString());
        Assert.True(correction.GetProperty("setUp").GetProperty("cageOffMarkDeg").GetDouble() < 0);
        Assert.Contains(
            "no hanger to read",
            json.GetProperty("hanger").GetProperty("questions")[0].GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Measure_OnTheAxle_SaysWhatToDoInstead()
    {
        var (exit, output) = CommandLine.Run("measure", CommandLine.Spec(OnAxle));
        Assert.Equal(2, exit);
        Assert.Contains("parameters", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Targets_AtRest_ProveTheInboardStopBeforeTheChain()
    {
        var (_, json) = CommandLine.RunJson("targets", CommandLine.Spec(AtRest));
        var ids = json.GetProperty("targets")
            .EnumerateArray()
            .Select(target => target.GetProperty("id").GetString())
            .ToList();
        Assert.True(ids.IndexOf("inboard-stop-proven") < ids.IndexOf("chain-routed"));
        Assert.True(ids.IndexOf("index-first") < ids.IndexOf("outboard-stop"));
    }

    [Fact]
    public void Index_AtRest_CountsFromTheLargestCog()
    {
        var (exit, json) = CommandLine.RunJson("index", CommandLine.Spec(AtRest));
        Assert.Equal(0, exit);
        var model = json.GetProperty("indexing").GetProperty("model");
        Assert.True(model.GetProperty("clicksGoOutboard").GetBoolean());
        var cogs = model.GetProperty("cogs").EnumerateArray().ToList();
        Assert.Equal(JsonValueKind.Null, cogs[^1].GetProperty("clickMm").ValueKind);
        Assert.Equal(4.76, cogs[0].GetProperty("clickMm").GetDouble(), 9);
    }
}
