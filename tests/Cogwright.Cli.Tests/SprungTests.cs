namespace Cogwright.Cli.Tests;

/// <summary>A sprung body and a damper on the command line.</summary>
public class SprungTests
{
    [Fact]
    public void Solve_SprungDemo_GivesABodyAngleInEveryGear()
    {
        var (exit, json) = CommandLine.RunJson("solve", CommandLine.Spec("touring-2x9-sprung"));
        Assert.Equal(0, exit);
        Assert.Equal(
            System.Text.Json.JsonValueKind.Null,
            json.GetProperty("bodyAngleDeg").ValueKind
        );
        Assert.Equal(1.1, json.GetProperty("preloadNm").GetDouble(), 1e-9);
        var angles = json.GetProperty("gears")
            .EnumerateArray()
            .Select(gear =>
            {
                Assert.Equal("balanced", gear.GetProperty("bodyRest").GetString());
                Assert.False(gear.TryGetProperty("lowerRunTensionForwardN", out _));
                return gear.GetProperty("bodyAngleDeg").GetDouble();
            })
            .ToList();
        Assert.Equal(angles.Count, angles.Distinct().Count());
    }

    [Fact]
    public void Solve_DampedSprungFile_GivesTheBands()
    {
        var (_, json) = CommandLine.RunJson(
            "solve",
            CommandLine.InRepository("testdata/formats/v1/touring-2x9-sprung.yaml")
        );
        foreach (var gear in json.GetProperty("gears").EnumerateArray())
        {
            var tension = gear.GetProperty("lowerRunTensionN").GetDouble();
            Assert.True(gear.GetProperty("lowerRunTensionForwardN").GetDouble() > tension);
            Assert.True(gear.GetProperty("lowerRunTensionReturningN").GetDouble() < tension);
            Assert.True(gear.GetProperty("cageReturns").GetBoolean());
            Assert.True(
                gear.GetProperty("gapForwardMm").GetDouble()
                    < gear.GetProperty("gapReturningMm").GetDouble()
            );
        }
    }

    [Fact]
    public void Solve_DampedFixedMount_GivesTensionsAndNoBodyAngle()
    {
        var (_, json) = CommandLine.RunJson("solve", CommandLine.Spec("trail-1x12"));
        var gear = json.GetProperty("gears")[0];
        Assert.True(gear.TryGetProperty("lowerRunTensionForwardN", out _));
        Assert.False(gear.TryGetProperty("gapForwardMm", out _));
        Assert.False(gear.TryGetProperty("bodyAngleDeg", out _));
        Assert.False(json.TryGetProperty("preloadNm", out _));
    }

    [Fact]
    public void Solve_SprungDemoForAPerson_ShowsTheBodyAndWhatItMeans()
    {
        var (exit, text) = CommandLine.Run("solve", CommandLine.Spec("touring-2x9-sprung"));
        Assert.Equal(0, exit);
        Assert.Contains("Sprung body: 1.10 N·m on its tab", text, StringComparison.Ordinal);
        Assert.Contains("Body °", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_BodyAngleGivenForASprungBody_IsRefused()
    {
        var (exit, text) = CommandLine.Run(
            "solve",
            CommandLine.Spec("touring-2x9-sprung"),
            "--body-angle",
            "10"
        );
        Assert.Equal(2, exit);
        Assert.Contains("sprung", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Correct_SprungDemo_TurnsTheScrewByItsTorque()
    {
        using var scratch = new Scratch();
        var readings = scratch.File(
            "r.yaml",
            "readings:\n  - {quantity: gap, ring: 30, cog: 34, value: 9.6, uncertainty: 0.1}\n"
        );
        var (exit, json) = CommandLine.RunJson(
            "correct",
            CommandLine.Spec("touring-2x9-sprung"),
            readings
        );
        Assert.Equal(1, exit);
        var correction = json.GetProperty("readings")[0].GetProperty("correction");
        Assert.Equal("turn", correction.GetProperty("kind").GetString());
        Assert.Equal("anticlockwise", correction.GetProperty("direction").GetString());
        Assert.Equal(8, correction.GetProperty("expectedMm").GetDouble(), 0.15);
        Assert.Equal(18, correction.GetProperty("after").GetArrayLength());
    }
}
