namespace Cogwright.Cli.Tests;

/// <summary>Compatibility and options from the command line, with the demo workshop's parts.</summary>
public class PartsTests
{
    [Fact]
    public void Compat_SpecWithoutParts_SaysWhatIsNotKnownAndNeverThatItIsFine()
    {
        var (exit, json) = CommandLine.RunJson("compat", CommandLine.Spec("touring-3x9-cable"));

        Assert.Equal(1, exit);
        Assert.Equal("cannotSay", json.GetProperty("overall").GetString());
        var answers = json.GetProperty("answers").EnumerateArray().ToList();
        Assert.Contains(answers, a => a.GetProperty("rule").GetString() == "mechanism-chain");
        Assert.All(answers, a => Assert.NotEqual("", a.GetProperty("source").GetString()));
    }

    [Fact]
    public void Compat_WithAnotherCassette_SaysWhatNoLongerWorksAndWhatMustBeSetAgain()
    {
        var cassette = DemoCassette("12");

        var (exit, json) = CommandLine.RunJson(
            "compat",
            CommandLine.Spec("touring-3x9-cable"),
            "--with",
            cassette
        );

        Assert.Equal(1, exit);
        Assert.Equal("no", json.GetProperty("overall").GetString());
        Assert.Contains(
            json.GetProperty("worse").EnumerateArray(),
            rule => rule.GetString() == "shifter-clicks"
        );
        Assert.Equal(
            "cassette",
            Assert.Single(json.GetProperty("replaced").EnumerateArray()).GetString()
        );
        Assert.Contains(
            json.GetProperty("steps").EnumerateArray(),
            step =>
                step.GetProperty("target").GetString() == "chain-pitches"
                && step.GetProperty("mustRedo").GetBoolean()
        );
    }

    /// <summary>The answers are of the mechanism that every other command shows: the one that was measured.</summary>
    [Fact]
    public void Compat_OfAMeasuredBike_AssumesNoMoreThanItsChainDoes()
    {
        var (_, compat) = CommandLine.RunJson("compat", CommandLine.Spec("measured-2x12"));
        var (_, chain) = CommandLine.RunJson("chain", CommandLine.Spec("measured-2x12"));

        Assert.Equal(
            chain.GetProperty("assumed").GetRawText(),
            compat.GetProperty("assumed").GetRawText()
        );
    }

    [Fact]
    public void Compat_PartThatIsNotInTheLibrary_SaysSo()
    {
        var (exit, output) = CommandLine.Run(
            "compat",
            CommandLine.Spec("touring-3x9-cable"),
            "--with",
            "no-such-part"
        );

        Assert.Equal(2, exit);
        Assert.Contains("no-such-part", output, StringComparison.Ordinal);
        Assert.Contains("--parts", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Options_OfTwoKinds_ListsPartsThatTheRulesDoNotRefuse()
    {
        var (exit, json) = CommandLine.RunJson(
            "options",
            CommandLine.Spec("touring-3x9-cable"),
            "--replace",
            "cassette,chain",
            "--most",
            "3"
        );

        Assert.Equal(0, exit);
        var options = json.GetProperty("options").EnumerateArray().ToList();
        Assert.InRange(options.Count, 1, 3);
        Assert.All(options, o => Assert.NotEqual("no", o.GetProperty("answer").GetString()));
        Assert.True(
            json.GetProperty("leftByRules").GetInt64() < json.GetProperty("combinations").GetInt64()
        );
    }

    [Theory]
    [InlineData("casette", "casette")]
    [InlineData("adapter", "adapter")]
    public void Options_OfNoKind_SaysWhichThereAre(string kinds, string named)
    {
        var (exit, output) = CommandLine.Run(
            "options",
            CommandLine.Spec("touring-3x9-cable"),
            "--replace",
            kinds
        );

        Assert.Equal(2, exit);
        Assert.Contains(named, output, StringComparison.Ordinal);
        Assert.Contains("rearDerailleur", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Parts_FileWithABadEntry_IsRefusedWithItsPlace()
    {
        using var scratch = new Scratch();
        var file = scratch.File("parts.csv", "id,kind,name,speeds\na-chain,chain,Chain,many\n");

        var (exit, output) = CommandLine.Run(
            "compat",
            CommandLine.Spec("touring-3x9-cable"),
            "--parts",
            file
        );

        Assert.Equal(2, exit);
        Assert.Contains("parts.csv:2:", output.Replace("\n", ""), StringComparison.Ordinal);
    }

    private static string DemoCassette(string speeds) =>
        Files
            .DemoParts.Library.Search(speeds, Parts.PartKind.Cassette, 100)
            .First(part => part.Numbers(Parts.PartFields.Teeth).Length == 12)
            .Id;
}
