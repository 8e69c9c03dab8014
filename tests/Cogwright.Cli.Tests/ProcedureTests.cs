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
}
