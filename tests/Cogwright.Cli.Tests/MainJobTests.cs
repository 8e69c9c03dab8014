using System.Text;

namespace Cogwright.Cli.Tests;

/// <summary>The main job from a spec file to answers, targets, drawings and paper.</summary>
public class MainJobTests
{
    [Fact]
    public void Solve_ModelExample_GivesTheWorkedExampleUnderTheDocumentedNames()
    {
        var (exit, json) = CommandLine.RunJson("solve", CommandLine.Spec("model-example"));
        // One gap to the next cog lies below the part's least: a finding, not a failure.
        Assert.Equal(1, exit);
        var gear = json.GetProperty("gears")
            .EnumerateArray()
            .Single(g =>
                g.GetProperty("ring").GetInt32() == 34 && g.GetProperty("cog").GetInt32() == 17
            );
        // Source: the worked example, computed apart from the product.
        Assert.Equal("ok", gear.GetProperty("state").GetString());
        Assert.Equal(-49.3872, gear.GetProperty("cageAngleDeg").GetDouble(), 1e-4);
        Assert.Equal(15.1128, gear.GetProperty("gapMm").GetDouble(), 1e-4);
        Assert.Equal(7.3893, gear.GetProperty("cogTeethInMesh").GetDouble(), 1e-4);
        Assert.Equal(-2.8994, gear.GetProperty("swingDeg").GetDouble(), 1e-4);
        Assert.Equal(408.5658, gear.GetProperty("topRunMm").GetDouble(), 1e-4);
        Assert.Equal(439.4462, gear.GetProperty("lowerRunMm").GetDouble(), 1e-4);
        Assert.Equal(115.1669, gear.GetProperty("takesAtRearStop").GetDouble(), 1e-4);
        Assert.Equal(93.7808, gear.GetProperty("needsAtFrontStop").GetDouble(), 1e-4);
    }

    [Fact]
    public void Chain_ModelExample_GivesTheFourNumbers()
    {
        var (exit, json) = CommandLine.RunJson("chain", CommandLine.Spec("model-example"));
        Assert.Equal(0, exit);
        Assert.Equal(106.76790, json.GetProperty("directLargestPitches").GetDouble(), 1e-5);
        Assert.Equal(110, json.GetProperty("benchRule").GetInt32());
        Assert.Equal(110, json.GetProperty("shortestSafe").GetInt32());
        Assert.Equal(112, json.GetProperty("longestSafe").GetInt32());
        Assert.Equal(110, json.GetProperty("recommended").GetInt32());
        Assert.Equal(0.76790, json.GetProperty("roundingEdgePitches").GetDouble(), 1e-5);
        Assert.Equal(2, json.GetProperty("chainstaySensitivity").GetArrayLength());
        Assert.NotEqual(0, json.GetProperty("reasons").GetArrayLength());
    }

    [Fact]
    public void Correct_GapTooLarge_SaysWhichScrewWhichWayAndWhatFollows()
    {
        using var scratch = new Scratch();
        var readings = CommandLine.InRepository("demo/readings/model-example.yaml");
        var longer = scratch.File(
            "longer.yaml",
            File.ReadAllText(CommandLine.Spec("model-example"))
                .Replace("turnsLeftOut: 3", "turnsLeftOut: 4", StringComparison.Ordinal)
        );
        var (exit, json) = CommandLine.RunJson("correct", longer, readings);
        Assert.Equal(1, exit);
        var gap = json.GetProperty("readings")[0];
        Assert.Equal("outside", gap.GetProperty("verdict").GetString());
        var correction = gap.GetProperty("correction");
        Assert.Equal("turn", correction.GetProperty("kind").GetString());
        Assert.Equal("anticlockwise", correction.GetProperty("direction").GetString());
        Assert.Equal(7.0, correction.GetProperty("expectedMm").GetDouble(), 0.15);
        Assert.Equal(3, correction.GetProperty("turns").GetDouble(), 1e-9);
        Assert.Equal(24, correction.GetProperty("after").GetArrayLength());

        // With three turns to where the screw leaves its thread, the last quarter is not used.
        var (_, ending) = CommandLine.RunJson(
            "correct",
            CommandLine.Spec("model-example"),
            readings
        );
        var atEnd = ending.GetProperty("readings")[0].GetProperty("correction");
        Assert.Equal("outOfTravel", atEnd.GetProperty("kind").GetString());
        Assert.Equal(2.75, atEnd.GetProperty("turns").GetDouble(), 1e-9);
    }

    [Fact]
    public void Correct_SecondReadingAfterATurn_UsesWhatTheTurnDid()
    {
        using var scratch = new Scratch();
        const string first =
            "readings:\n  - {quantity: gap, ring: 34, cog: 34, value: 9.2, uncertainty: 0.1}\n";
        // A quarter turn that did far more than thread and lever say: the next turn is smaller than theirs.
        const string second =
            first
            + "  - {quantity: gap, ring: 34, cog: 34, value: 8.4, uncertainty: 0.1, turned: -0.25}\n";
        var spec = CommandLine.Spec("model-example");
        var plain = Turns(
            spec,
            scratch.File("a.yaml", first.Replace("9.2", "8.4", StringComparison.Ordinal)),
            0
        );
        var learnt = Turns(spec, scratch.File("b.yaml", second), 1);
        Assert.True(learnt < plain, $"{learnt} < {plain}");
        Assert.InRange(learnt, 0.25, 0.75);

        static double Turns(string spec, string readings, int index) =>
            CommandLine
                .RunJson("correct", spec, readings)
                .Json.GetProperty("readings")[index]
                .GetProperty("correction")
                .GetProperty("turns")
                .GetDouble();
    }

    [Theory]
    [MemberData(nameof(CommandLine.DemoSpecs), MemberType = typeof(CommandLine))]
    public void EveryCommand_DemoSpec_AnswersInTextAndJson(string name)
    {
        foreach (var command in new[] { "solve", "chain", "targets" })
        {
            var (exit, output) = CommandLine.Run(command, CommandLine.Spec(name));
            Assert.InRange(exit, 0, 1);
            Assert.DoesNotContain("NaN", output, StringComparison.Ordinal);
            var (jsonExit, json) = CommandLine.RunJson(command, CommandLine.Spec(name));
            Assert.Equal(exit, jsonExit);
            Assert.False(string.IsNullOrEmpty(json.GetProperty("name").GetString()));
        }
    }

    [Fact]
    public void Assumed_SpecFromAClass_IsMarkedOnEveryOutput()
    {
        using var scratch = new Scratch();
        var spec = CommandLine.Spec("road-2x12-wireless");
        const string path = "rearDerailleur.slant";
        foreach (var command in new[] { "solve", "chain", "targets" })
        {
            Assert.Contains(path, CommandLine.Run(command, spec).Output, StringComparison.Ordinal);
            Assert.Contains(
                path,
                CommandLine.Run(command, spec, "--json").Output,
                StringComparison.Ordinal
            );
        }
        Assert.Contains(
            path,
            CommandLine.Run("draw", spec, "--out", scratch.Folder).Output,
            StringComparison.Ordinal
        );
        foreach (var svg in Directory.GetFiles(scratch.Folder, "*.svg"))
        {
            Assert.Contains("assumed", File.ReadAllText(svg), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Draw_AllGears_WritesSvgAndPngForEach()
    {
        using var scratch = new Scratch();
        var (exit, _) = CommandLine.Run(
            "draw",
            CommandLine.Spec("single-speed"),
            "--all",
            "--out",
            scratch.PathOf("new/folder")
        );
        Assert.InRange(exit, 0, 1);
        var files = Directory.GetFiles(scratch.PathOf("new/folder"));
        Assert.Equal(
            files.Count(f => f.EndsWith(".svg", StringComparison.Ordinal)),
            files.Length / 2
        );
        Assert.Contains(files, f => f.Contains("gear-table", StringComparison.Ordinal));
        foreach (var png in files.Where(f => f.EndsWith(".png", StringComparison.Ordinal)))
        {
            Assert.Equal("\u0089PNG", Encoding.Latin1.GetString(File.ReadAllBytes(png), 0, 4));
        }
    }

    [Theory]
    [InlineData("a4", 595, 842)]
    [InlineData("letter", 612, 792)]
    public void Worksheet_EitherPaper_IsThatPaperAndNamesTheBike(
        string paper,
        int widthPt,
        int heightPt
    )
    {
        using var scratch = new Scratch();
        var spec = scratch.File(
            "spec.yaml",
            File.ReadAllText(CommandLine.Spec("touring-3x9-cable"))
                .Replace("name: ", "name: Żółć Ωμέγα Щука - ", StringComparison.Ordinal)
        );
        var pdf = scratch.PathOf("sheet.pdf");
        var (exit, _) = CommandLine.Run("worksheet", spec, "--out", pdf, "--paper", paper);
        Assert.InRange(exit, 0, 1);
        var text = Poppler.Text(pdf);
        Assert.Contains("Żółć Ωμέγα Щука", text, StringComparison.Ordinal);
        Assert.Contains("STOP", text, StringComparison.Ordinal);
        var box = Poppler.PageSize(pdf);
        Assert.Equal(widthPt, box.Width, 1.0);
        Assert.Equal(heightPt, box.Height, 1.0);
    }
}
