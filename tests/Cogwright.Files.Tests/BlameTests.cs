namespace Cogwright.Files.Tests;

/// <summary>What cannot be is told at the field that the file has, in the words and units it was written in.</summary>
public class BlameTests
{
    private static string Demo(string name) => Repository.Text($"demo/specs/{name}.yaml");

    private static string After(string text, string line, string added)
    {
        var at = text.IndexOf(line, StringComparison.Ordinal);
        Assert.True(at >= 0, line);
        return text.Insert(at + line.Length, added);
    }

    private static FileProblem Only(string text) =>
        Assert.Single(
            SpecReader.Read(text, "bike.yaml", DemoParts.Library).Problems,
            p => p.IsError
        );

    private static int LineOf(string text, string words) =>
        text[..text.IndexOf(words, StringComparison.Ordinal)].Count(c => c == '\n') + 1;

    /// <summary>There are no stop screws on the axle: a stop field would be ignored, so it is refused where it stands.</summary>
    [Theory]
    [InlineData("inboardStop: 40", "inboardStop")]
    [InlineData("inboardStopOvershoot: 0.6", "inboardStopOvershoot")]
    [InlineData("inboardStopLateral: 24", "inboardStopLateral")]
    [InlineData("outboardStopOvershoot: 0.6", "outboardStopOvershoot")]
    public void Coaxial_StopField_IsRefusedAtItsLine(string field, string name)
    {
        var text = After(Demo("trail-1x12-coaxial"), "\nrearDerailleur:\n", $"  {field}\n");
        var problem = Only(text);
        Assert.Equal($"rearDerailleur.{name}", problem.Field);
        Assert.Equal(LineOf(text, field), problem.Line);
        Assert.Contains("no stop screws", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Measured_UsualUncertaintyOfNothing_IsToldOnceAtItsLine()
    {
        var text = Demo("measured-2x12")
            .Replace("  uncertainty: 0.5\n", "  uncertainty: 0\n", StringComparison.Ordinal);
        var problem = Only(text);
        Assert.Equal("measured.uncertainty", problem.Field);
        Assert.Equal(LineOf(text, "  uncertainty: 0\n"), problem.Line);
    }

    [Fact]
    public void Sag_InPercent_IsAnsweredInPercent()
    {
        var text = Demo("full-suspension-1x12");
        var line = text.Split('\n')
            .First(l => l.TrimStart().StartsWith("sag:", StringComparison.Ordinal));
        var indent = line[..^line.TrimStart().Length];
        var problem = Only(text.Replace(line, indent + "sag: \"130 %\"", StringComparison.Ordinal));
        Assert.Equal("frame.suspension.sag", problem.Field);
        Assert.Contains("130 %", problem.Message, StringComparison.Ordinal);
        Assert.Contains("100 %", problem.Message, StringComparison.Ordinal);
    }

    /// <summary>One cog has no neighbour: nobody is asked to measure a spacing that there is not.</summary>
    [Fact]
    public void Assumptions_OneCog_NameNoSpacing()
    {
        var spec = SpecReader.Read(Demo("single-speed"), "bike.yaml").Spec!.Drivetrain;
        Assert.DoesNotContain(spec.Assumptions, a => a.Path == "cogs.spacing");
        var geared = SpecReader.Read(Demo("gravel-1x13"), "bike.yaml").Spec!.Drivetrain;
        Assert.Contains(geared.Assumptions, a => a.Path == "cogs.spacing");
    }
}
