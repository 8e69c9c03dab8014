namespace Cogwright.Cli.Tests;

/// <summary>Bad input ends with exit code 2, a place, what to do, no stack trace and no file.</summary>
public class BadInputTests
{
    [Theory]
    [InlineData("chain:\n  pitches: 111\n", "chain.pitches", "odd")]
    [InlineData("chain:\n  pitchs: 110\n", "pitchs", "pitches")]
    [InlineData("chain:\n  pitches: NaN\n", "chain.pitches", "")]
    public void Solve_BadField_NamesFileLineAndField(string chain, string field, string hint)
    {
        using var scratch = new Scratch();
        var text = File.ReadAllText(CommandLine.Spec("model-example"));
        var at = text.IndexOf("chain:", StringComparison.Ordinal);
        var end = text.IndexOf("\nrearDerailleur", at, StringComparison.Ordinal);
        var spec = scratch.File("bad.yaml", text[..at] + chain + text[(end + 1)..]);
        var (exit, output) = CommandLine.Run("solve", spec);
        Assert.Equal(2, exit);
        var line = text[..at].Count(c => c == '\n') + 2;
        Assert.Contains(
            $"bad.yaml:{line}:",
            output.Replace("\n", "", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        Assert.Contains(field, output, StringComparison.Ordinal);
        Assert.Contains(hint, output, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", output, StringComparison.Ordinal);

        var (jsonExit, json) = CommandLine.RunJson("solve", spec);
        Assert.Equal(2, jsonExit);
        Assert.Equal(line, json.GetProperty("problems")[0].GetProperty("line").GetInt32());
    }

    [Theory]
    [InlineData("solve", "no-such-file.yaml")]
    [InlineData("solve", "/")]
    [InlineData("solve")]
    [InlineData("sovle", "x.yaml")]
    public void AnyCommand_UnusableCommandLine_Exits2WithASentence(params string[] args)
    {
        var (exit, output) = CommandLine.Run(args);
        Assert.Equal(2, exit);
        Assert.NotEmpty(output.Trim());
        Assert.DoesNotContain("Exception", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--gear", "34/99", "34")]
    [InlineData("--scale", "NaN", "0.05")]
    public void Draw_OptionOutOfRange_SaysWhatWasExpectedAndWritesNothing(
        string option,
        string value,
        string expected
    )
    {
        using var scratch = new Scratch();
        var (exit, output) = CommandLine.Run(
            "draw",
            CommandLine.Spec("model-example"),
            option,
            value,
            "--out",
            scratch.PathOf("out")
        );
        Assert.Equal(2, exit);
        Assert.Contains(expected, output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(scratch.PathOf("out")));
    }

    /// <summary>A misspelt option would else be swallowed, and the answer be one to another question.</summary>
    [Theory]
    [InlineData("knok", "solve", "--knok", "2")]
    [InlineData("body-angel", "solve", "--body-angel=12")]
    [InlineData("travl", "solve", "--travl", "sweep")]
    [InlineData("pitch", "chain", "--pitch", "110")]
    [InlineData("jsn", "targets", "--jsn")]
    [InlineData("extra", "solve", "extra")]
    [InlineData("extra", "index", "readings.yaml", "extra")]
    [InlineData("--knock", "solve", "--", "--knock")]
    [InlineData("--lean", "solve", "--lean")]
    public void AnyCommand_WhatItDoesNotTake_IsNamedAndRefused(
        string named,
        string command,
        params string[] rest
    )
    {
        string[] args = [command, CommandLine.Spec("road-2x12-wireless"), .. rest];
        var (exit, output) = CommandLine.Run(args);
        Assert.Equal(2, exit);
        Assert.Contains(named, output, StringComparison.Ordinal);
        Assert.DoesNotContain("Hesby", output, StringComparison.Ordinal);
        Assert.DoesNotContain("__", output, StringComparison.Ordinal);
    }

    [Fact]
    public void AnyCommand_MisspeltOptionAndJson_AnswersAsJson()
    {
        string[] args = ["solve", CommandLine.Spec("road-2x12-wireless"), "--knok", "2"];
        var (exit, json) = CommandLine.RunJson(args);
        Assert.Equal(2, exit);
        Assert.Contains(
            "knok",
            json.GetProperty("problems")[0].GetProperty("message").GetString(),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("--lean")]
    [InlineData("--toe")]
    [InlineData("--knock")]
    [InlineData("--body-angle")]
    public void Solve_SingleSpeedAskedAboutADerailleur_IsRefusedWithTheReason(string option)
    {
        var (exit, output) = CommandLine.Run(
            "solve",
            CommandLine.Spec("single-speed"),
            option,
            "1"
        );
        Assert.Equal(2, exit);
        Assert.Contains(
            $"{option}: this bike has no rear derailleur",
            output,
            StringComparison.Ordinal
        );
    }

    /// <summary>No words of the program's insides: the option, the value, what was expected.</summary>
    [Theory]
    [InlineData("solve", "--lean", "abc")]
    [InlineData("solve", "--toe", "1e9")]
    [InlineData("solve", "--body-angle", "x")]
    [InlineData("solve", "--pitches", "1e9")]
    [InlineData("chain", "--pitches", "110.5")]
    [InlineData("draw", "--scale", "big")]
    public void AnyCommand_OptionThatIsNoNumber_NamesOptionValueAndWhatWasExpected(
        string command,
        string option,
        string value
    )
    {
        var (exit, output) = CommandLine.Run(
            command,
            CommandLine.Spec("model-example"),
            $"{option}={value}"
        );
        Assert.Equal(2, exit);
        Assert.Contains(option, output, StringComparison.Ordinal);
        Assert.Contains(value, output, StringComparison.Ordinal);
        Assert.DoesNotContain("Nullable", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_NumberWithAComma_IsTheSameNumber()
    {
        var bike = CommandLine.Spec("road-2x12-wireless");
        Assert.Equal(
            CommandLine.Run("solve", bike, "--lean", "0.5").Output,
            CommandLine.Run("solve", bike, "--lean", "0,5").Output
        );
    }

    [Fact]
    public void Draw_GearAndAll_IsRefused()
    {
        using var scratch = new Scratch();
        var (exit, output) = CommandLine.Run(
            "draw",
            CommandLine.Spec("model-example"),
            "--gear",
            "34/34",
            "--all",
            "--out",
            scratch.PathOf("out")
        );
        Assert.Equal(2, exit);
        Assert.Contains("--all", output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(scratch.PathOf("out")));
    }

    [Fact]
    public void Correct_NoReadings_SaysThatThereIsNothingToJudge()
    {
        using var scratch = new Scratch();
        var (exit, output) = CommandLine.Run(
            "correct",
            CommandLine.Spec("model-example"),
            scratch.File("r.yaml", "readings: []\n")
        );
        Assert.Equal(2, exit);
        Assert.Contains("nothing to judge", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Correct_UnknownQuantity_NamesPlaceNearestAndEveryName()
    {
        using var scratch = new Scratch();
        var (_, output) = CommandLine.Run(
            "correct",
            CommandLine.Spec("touring-3x9-cable"),
            scratch.File("r.yaml", "readings:\n  - {quantity: indx-up, value: 3}\n")
        );
        Assert.Contains(":2:16: readings[0].quantity", output, StringComparison.Ordinal);
        Assert.Contains("Was index-up meant?", output, StringComparison.Ordinal);
        foreach (
            var name in (string[])
                ["hanger-N", "index-down", "outboard-overshoot", "inboard-overshoot", "gap"]
        )
        {
            Assert.Contains(
                name,
                output.Replace("\n", " ", StringComparison.Ordinal),
                StringComparison.Ordinal
            );
        }
        var head = output
            .Split('\n')
            .First(line => line.StartsWith("indx-up", StringComparison.Ordinal));
        Assert.DoesNotContain("  ", head, StringComparison.Ordinal);
    }

    [Fact]
    public void Solve_OddChainAsked_IsRefused()
    {
        var (exit, output) = CommandLine.Run(
            "solve",
            CommandLine.Spec("model-example"),
            "--pitches",
            "111"
        );
        Assert.Equal(2, exit);
        Assert.Contains("--pitches", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Worksheet_TargetIsAFolder_LeavesNoPart()
    {
        using var scratch = new Scratch();
        Directory.CreateDirectory(scratch.PathOf("taken"));
        var (exit, _) = CommandLine.Run(
            "worksheet",
            CommandLine.Spec("model-example"),
            "--out",
            scratch.PathOf("taken")
        );
        Assert.Equal(2, exit);
        Assert.Empty(Directory.GetFiles(scratch.Folder, "*", SearchOption.AllDirectories));
    }

    [Fact]
    public void WholeFile_CannotBePutInPlace_KeepsWhatWasThereAndNoPart()
    {
        using var scratch = new Scratch();
        var kept = scratch.File("kept.pdf", "old");
        // The longest name a file may have (255 bytes) leaves no room for the part beside it.
        var tooLong = scratch.PathOf(new string('n', 255));
        Assert.ThrowsAny<IOException>(() => WholeFile.Write(tooLong, "new"u8));
        Assert.Equal([kept], Directory.GetFiles(scratch.Folder));
    }

    [Fact]
    public void WholeFile_FileExists_ReplacesItAndLeavesNoPart()
    {
        using var scratch = new Scratch();
        var file = scratch.File("old.pdf", "old");
        WholeFile.Write(file, "new"u8);
        Assert.Equal("new", File.ReadAllText(file));
        Assert.Equal([file], Directory.GetFiles(scratch.Folder));
    }

    [Fact]
    public void Correct_UnknownQuantity_IsAskedAboutAndNotLost()
    {
        using var scratch = new Scratch();
        var readings = scratch.File(
            "r.yaml",
            "readings:\n  - {quantity: gpa, value: 3, uncertainty: 0.1}\n"
        );
        var (exit, json) = CommandLine.RunJson(
            "correct",
            CommandLine.Spec("model-example"),
            readings
        );
        Assert.Equal(1, exit);
        Assert.Equal("asked", json.GetProperty("readings")[0].GetProperty("status").GetString());
        Assert.NotEqual(
            0,
            json.GetProperty("readings")[0].GetProperty("questions").GetArrayLength()
        );
    }

    [Fact]
    public void Correct_WrongUnit_SaysWhichUnitAndWhere()
    {
        using var scratch = new Scratch();
        var readings = scratch.File(
            "r.yaml",
            "readings:\n  - {quantity: gap, ring: 34, cog: 34, value: 3 N·m}\n"
        );
        var (exit, output) = CommandLine.Run(
            "correct",
            CommandLine.Spec("model-example"),
            readings
        );
        Assert.Equal(2, exit);
        Assert.Contains("mm", output, StringComparison.Ordinal);
        Assert.Contains(":2:47: readings[0].value", output, StringComparison.Ordinal);
    }
}
