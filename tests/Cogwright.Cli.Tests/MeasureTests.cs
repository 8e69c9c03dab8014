namespace Cogwright.Cli.Tests;

/// <summary>The bench from the command line: the form without figures, the geometry with them.</summary>
public sealed class MeasureTests
{
    [Fact]
    public void Measure_WithFigures_TellsGapsWithUncertaintyAndWhatWouldHelp()
    {
        var (exit, json) = CommandLine.RunJson("measure", CommandLine.Spec("measured-2x12"));

        Assert.Equal(0, exit);
        Assert.Equal("fitted", json.GetProperty("status").GetString());
        Assert.Equal(24, json.GetProperty("gears").GetArrayLength());
        foreach (var gear in json.GetProperty("gears").EnumerateArray())
        {
            if (gear.GetProperty("state").GetString() == "ok")
            {
                Assert.InRange(gear.GetProperty("gapUncertaintyMm").GetDouble(), 0.3, 1.5);
            }
        }
        var now = json.GetProperty("gapUncertaintyMm").GetDouble();
        var best = json.GetProperty("further")[0];
        Assert.Equal("gaps.gap", best.GetProperty("place").GetString());
        Assert.True(best.GetProperty("gapUncertaintyMm").GetDouble() < now);
        var fitted = json.GetProperty("measured")
            .EnumerateArray()
            .Select(v => v.GetProperty("path").GetString());
        Assert.Contains("rearDerailleur.slant", fitted);
        Assert.DoesNotContain(
            json.GetProperty("assumed").EnumerateArray(),
            v => v.GetProperty("path").GetString() == "rearDerailleur.slant"
        );
    }

    [Fact]
    public void Solve_Measured_ShowsTheUncertaintyOfEveryGap()
    {
        var spec = CommandLine.Spec("measured-2x12");

        var (_, json) = CommandLine.RunJson("solve", spec);
        var (_, other) = CommandLine.RunJson("solve", spec, "--pitches", "110");

        Assert.Equal("fitted", json.GetProperty("fit").GetString());
        Assert.True(json.GetProperty("gears")[0].TryGetProperty("gapUncertaintyMm", out _));
        // With another chain the uncertainties are others, and none is better than a wrong one.
        Assert.False(other.GetProperty("gears")[0].TryGetProperty("gapUncertaintyMm", out _));
    }

    [Fact]
    public void Measure_WithoutFigures_PrintsTheForm()
    {
        using var scratch = new Scratch();
        var file = scratch.PathOf("form.pdf");

        var (exit, json) = CommandLine.RunJson(
            "measure",
            CommandLine.Spec("road-2x12-wireless"),
            "--out",
            file,
            "--paper",
            "letter"
        );

        Assert.Equal(0, exit);
        Assert.Equal(file, json.GetProperty("files")[0].GetString());
        Assert.Equal("%PDF"u8.ToArray(), File.ReadAllBytes(file)[..4]);
    }

    [Fact]
    public void Measure_FiguresOnScreen_NameResidualsAndParameters()
    {
        var (_, output) = CommandLine.Run("measure", CommandLine.Spec("measured-2x12"));

        Assert.Contains("One mechanism explains the readings.", output, StringComparison.Ordinal);
        Assert.Contains("upper pivot, forward", output, StringComparison.Ordinal);
        Assert.Contains("What else to measure", output, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Measure_SingleSpeed_SaysThatThereIsNothing()
    {
        var (exit, output) = CommandLine.Run("measure", CommandLine.Spec("single-speed"));

        Assert.Equal(2, exit);
        Assert.Contains("no rear derailleur", output, StringComparison.Ordinal);
    }
}
