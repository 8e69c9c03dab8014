namespace Cogwright.Cli.Tests;

/// <summary>What stands first on every output: rejected bench readings, and the room to the spokes.</summary>
public class HeadTests
{
    private const string NoMechanism = "The readings lead to no mechanism that can be";

    private static string Rejected(Scratch scratch) =>
        scratch.File(
            "rejected.yaml",
            File.ReadAllText(CommandLine.Spec("measured-2x12"))
                .Replace("acrossLinkPins: 59", "acrossLinkPins: 590", StringComparison.Ordinal)
        );

    [Theory]
    [InlineData("solve")]
    [InlineData("chain")]
    [InlineData("targets")]
    [InlineData("correct")]
    [InlineData("index")]
    [InlineData("draw")]
    [InlineData("worksheet")]
    [InlineData("measure")]
    public void AnyCommand_RejectedReadings_SaysSoFirstAndEndsWith1(string command)
    {
        using var scratch = new Scratch();
        var readings = scratch.File(
            "readings.yaml",
            "readings:\n  - {quantity: index-up, ring: 34, cog: 19, value: 0.1}\n"
                + "  - {quantity: index-down, ring: 34, cog: 19, value: -0.1}\n"
        );
        string[] args = [command, Rejected(scratch)];
        args = command switch
        {
            "correct" or "index" => [.. args, readings],
            "draw" => [.. args, "--out", scratch.PathOf("out")],
            "worksheet" => [.. args, "--out", scratch.PathOf("sheet.pdf")],
            _ => args,
        };
        var (exit, output) = CommandLine.Run(args);
        Assert.Equal(1, exit);
        var lines = output.Split('\n');
        Assert.Contains(
            lines.Take(2),
            line => line.Contains(NoMechanism, StringComparison.Ordinal)
        );
        var (jsonExit, json) = CommandLine.RunJson(args);
        Assert.Equal(1, jsonExit);
        Assert.Equal(
            "implausible",
            json.GetProperty(command == "measure" ? "status" : "fit").GetString()
        );
    }

    [Fact]
    public void AnyCommand_ReadingsThatFit_SaysNothingOfThem()
    {
        var (_, output) = CommandLine.Run("chain", CommandLine.Spec("measured-2x12"));
        Assert.DoesNotContain(NoMechanism, output, StringComparison.Ordinal);
        var (_, json) = CommandLine.RunJson("chain", CommandLine.Spec("measured-2x12"));
        Assert.Equal("fitted", json.GetProperty("fit").GetString());
    }

    [Theory]
    [InlineData("chain", "road-2x12-wireless", "clear")]
    [InlineData("chain", "trail-1x12", "cannotSay")]
    [InlineData("chain", "model-example", "cannotSay")]
    [InlineData("index", "touring-3x9-cable", "cannotSay")]
    public void Command_AnyBike_TellsTheRoomToTheSpokesRightAfterTheName(
        string command,
        string spec,
        string verdict
    )
    {
        var (_, json) = CommandLine.RunJson(command, CommandLine.Spec(spec));
        Assert.Equal(
            ["name", "spokes"],
            json.EnumerateObject().Take(2).Select(property => property.Name)
        );
        Assert.Equal(verdict, json.GetProperty("spokes").GetProperty("verdict").GetString());
        var what = json.GetProperty("spokes").GetProperty("what").GetString()!;
        var (_, output) = CommandLine.Run(command, CommandLine.Spec(spec));
        Assert.Contains(what[..20], output.Split('\n')[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Sweep_Knock_IsToldAtTheHead()
    {
        var bike = CommandLine.Spec("full-suspension-1x12");
        var (_, output) = CommandLine.Run("solve", bike, "--travel", "sweep", "--knock", "7.5");
        Assert.Contains(
            "after a knock of 7.5 mm",
            string.Join('\n', output.Split('\n').Take(6)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Sweep_ChainTooShortSomewhere_SaysWhichGearAndWhere()
    {
        var bike = CommandLine.Spec("full-suspension-1x12");
        const string tooShort = "• 32/51: ! short at ";
        Assert.DoesNotContain(
            tooShort,
            CommandLine.Run("solve", bike, "--travel", "sweep").Output,
            StringComparison.Ordinal
        );
        var (_, chain) = CommandLine.RunJson("chain", bike);
        var few = chain.GetProperty("shortestSafe").GetInt32() - 2;
        string[] args =
        [
            "solve",
            bike,
            "--travel",
            "sweep",
            "--pitches",
            few.ToString(System.Globalization.CultureInfo.InvariantCulture),
        ];
        var (exit, output) = CommandLine.Run(args);
        Assert.Equal(1, exit);
        Assert.Contains(tooShort, output, StringComparison.Ordinal);
        var findings = CommandLine.RunJson(args).Json.GetProperty("sweepFindings");
        Assert.All(
            findings.EnumerateArray().Select(finding => finding.GetProperty("what").GetString()!),
            what => Assert.Contains(what[..30], output, StringComparison.Ordinal)
        );
    }

    /// <summary>With an idler the chain does not grow by what axle and bottom bracket part by.</summary>
    [Fact]
    public void Solve_Idler_CallsTheDistanceWhatItIs()
    {
        var (_, output) = CommandLine.Run("solve", CommandLine.Spec("high-pivot-idler-1x12"));
        Assert.DoesNotContain("chain growth", output, StringComparison.Ordinal);
        Assert.Matches(@"axle to bottom bracket [+-]\d", output);
        Assert.Contains(
            "chain growth",
            CommandLine.Run("solve", CommandLine.Spec("full-suspension-1x12")).Output,
            StringComparison.Ordinal
        );
    }

    /// <summary>Every gear ok is not all well while the room to the spokes is not known.</summary>
    [Fact]
    public void Solve_SpokesNotKnown_DoesNotSayThatAllIsWell()
    {
        var (exit, output) = CommandLine.Run("solve", CommandLine.Spec("single-speed"));
        Assert.Equal(0, exit);
        Assert.Contains(
            "Every gear is as it should be; the room to the spokes is not known.",
            output,
            StringComparison.Ordinal
        );
        using var scratch = new Scratch();
        var known = scratch.File(
            "known.yaml",
            File.ReadAllText(CommandLine.Spec("single-speed")) + "\nwheel:\n  cogToSpokes: 6\n"
        );
        Assert.Contains(
            "Every gear is as it should be.",
            CommandLine.Run("solve", known).Output,
            StringComparison.Ordinal
        );
    }
}
