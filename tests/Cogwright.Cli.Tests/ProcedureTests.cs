namespace Cogwright.Cli.Tests;

/// <summary><c>procedure check</c> as a script and as a person sees it.</summary>
public class ProcedureTests
{
    private static readonly string Good = File.ReadAllText(
        CommandLine.InRepository("testdata/cases/procedures/good.yaml")
    );

    public static IEnumerable<TheoryDataRow<string>> Demos() =>
        Directory
            .GetFiles(CommandLine.InRepository("demo/procedures"), "*.yaml")
            .Order(StringComparer.Ordinal)
            .Select(file => new TheoryDataRow<string>(Path.GetFileName(file)));

    [Theory]
    [MemberData(nameof(Demos))]
    public void DemoProcedure_Checked_EndsWithNothingFound(string name)
    {
        var (exit, json) = CommandLine.RunJson(
            "procedure",
            "check",
            CommandLine.InRepository("demo/procedures/" + name)
        );

        Assert.Equal(0, exit);
        Assert.Empty(json.GetProperty("findings").EnumerateArray());
        Assert.NotEqual(0, json.GetProperty("steps").GetInt32());
    }

    [Fact]
    public void BrokenRule_Checked_IsToldWithPlaceRuleSourceAndWhatToDo()
    {
        using var scratch = new Scratch();
        var file = scratch.File(
            "p.yaml",
            Good.Replace("      least: 8 N·m\n", "", StringComparison.Ordinal)
        );

        var (exit, json) = CommandLine.RunJson("procedure", "check", file);

        Assert.Equal(1, exit);
        var finding = Assert.Single(json.GetProperty("findings").EnumerateArray());
        Assert.Equal("torque-without-value", finding.GetProperty("rule").GetString());
        Assert.Equal(21, finding.GetProperty("line").GetInt32());
        Assert.Equal(5, finding.GetProperty("column").GetInt32());
        Assert.Equal("steps[1].torque", finding.GetProperty("field").GetString());
        Assert.NotEqual("", finding.GetProperty("source").GetString());
        Assert.NotEqual("", finding.GetProperty("whatToDo").GetString());

        var (exitOnScreen, output) = CommandLine.Run("procedure", "check", file);

        Assert.Equal(1, exitOnScreen);
        Assert.Contains(
            "p.yaml:21:5: steps[1].torque",
            output.Replace("\n", "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        Assert.Contains("torque-without-value", output, StringComparison.Ordinal);
    }

    [Fact]
    public void BadField_Checked_IsBadInputWithItsPlace()
    {
        using var scratch = new Scratch();
        var file = scratch.File(
            "p.yaml",
            Good.Replace("target: gapTarget", "target: gapTarget + 3 °", StringComparison.Ordinal)
        );

        var (exit, json) = CommandLine.RunJson("procedure", "check", file);

        Assert.Equal(2, exit);
        var problem = Assert.Single(json.GetProperty("problems").EnumerateArray());
        Assert.Equal(94, problem.GetProperty("line").GetInt32());
        Assert.Equal(25, problem.GetProperty("column").GetInt32());
    }

    [Fact]
    public void NoFile_Checked_IsBadInput() =>
        Assert.Equal(2, CommandLine.Run("procedure", "check", "no-such.yaml").Exit);

    [Theory]
    [InlineData("a4", 595, 842)]
    [InlineData("letter", 612, 792)]
    public void Print_ForABike_WritesFiguresHazardsAndOrder(
        string paper,
        double width,
        double height
    )
    {
        using var scratch = new Scratch();
        var pdf = scratch.PathOf("booklet.pdf");

        var (exit, json) = CommandLine.RunJson(
            "procedure",
            "print",
            CommandLine.InRepository("demo/procedures/cable-3x9-set-up.yaml"),
            "--spec",
            CommandLine.Spec("touring-3x9-cable"),
            "--out",
            pdf,
            "--paper",
            paper
        );

        // The demo bike itself has gears that are worth a look.
        Assert.InRange(exit, 0, 1);
        Assert.Equal(pdf, json.GetProperty("files")[0].GetString());
        Assert.Equal(39, json.GetProperty("steps").GetInt32());
        Assert.Empty(json.GetProperty("withoutFigure").EnumerateArray());
        Assert.Empty(json.GetProperty("rulesBroken").EnumerateArray());
        Assert.Equal(width, Poppler.PageSize(pdf).Width, 1.0);
        Assert.Equal(height, Poppler.PageSize(pdf).Height, 1.0);
        var text = Poppler.Text(pdf);
        var last = -1;
        foreach (
            var part in new[]
            {
                "Set up three rings and nine cogs, by cable",
                "Follow the component maker's instructions",
                "New quick link for this chain",
                "Hanger gauge",
                "Chain and rings cut off fingers.",
                "Take the drive's battery out, if the bike has one",
                "Tighten the cassette lockring",
                "N·m",
                "thread greased",
                "A pin can fly out of the chain tool.",
                "Wear eye protection.",
                "Cut the chain one pitch shorter than the count",
                "Set the pulley-to-cog gap by the body-angle screw",
                "Leaves set for good: body-angle screw.",
                "Ride every gear under load",
                "Every torque once more",
            }
        )
        {
            var at = text.IndexOf(part, last + 1, StringComparison.Ordinal);
            Assert.True(at > last, part);
            last = at;
        }
    }

    [Fact]
    public void Print_ForABikeItIsNotFor_NamesWhatHasNoFigure()
    {
        using var scratch = new Scratch();
        string[] args =
        [
            "procedure",
            "print",
            CommandLine.InRepository("demo/procedures/cable-3x9-set-up.yaml"),
            "--spec",
            CommandLine.Spec("road-2x12-wireless"),
            "--out",
            scratch.PathOf("booklet.pdf"),
        ];

        var (exit, json) = CommandLine.RunJson(args);

        Assert.Equal(1, exit);
        var missing = json.GetProperty("withoutFigure").EnumerateArray().ToArray();
        Assert.Contains(missing, each => each.GetProperty("step").GetInt32() == 18);
        Assert.All(missing, each => Assert.NotEqual("", each.GetProperty("what").GetString()));

        var (exitOnScreen, output) = CommandLine.Run(args);

        Assert.Equal(1, exitOnScreen);
        Assert.Contains("Step 18 has no figure on this bike", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Print_BrokenRule_IsToldAndEndsWithFindings()
    {
        using var scratch = new Scratch();
        var file = scratch.File(
            "p.yaml",
            Good.Replace("      least: 8 N·m\n", "", StringComparison.Ordinal)
        );

        var (exit, output) = CommandLine.Run(
            "procedure",
            "print",
            file,
            "--spec",
            CommandLine.Spec("model-example"),
            "--out",
            scratch.PathOf("booklet.pdf")
        );

        Assert.Equal(1, exit);
        Assert.Contains("breaks rules of writing (1)", output, StringComparison.Ordinal);
        Assert.True(File.Exists(scratch.PathOf("booklet.pdf")));
    }

    [Theory]
    [InlineData("--spec", "no-such.yaml")]
    [InlineData("--paper", "a5")]
    [InlineData("--json", null)]
    public void Print_WithoutUsableBikeOrPaper_IsBadInputAndWritesNothing(
        string option,
        string? value
    )
    {
        using var scratch = new Scratch();
        string[] args =
        [
            "procedure",
            "print",
            CommandLine.InRepository("testdata/cases/procedures/good.yaml"),
            "--out",
            scratch.PathOf("booklet.pdf"),
            option,
            .. value is null ? Array.Empty<string>() : [value],
        ];

        Assert.Equal(2, CommandLine.Run(args).Exit);
        Assert.Empty(Directory.GetFiles(scratch.Folder));
    }
}
