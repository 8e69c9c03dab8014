using System.Text.Json;

namespace Cogwright.Cli.Tests;

/// <summary>Hanger and index from files to what a script and a person see.</summary>
public class HangerIndexTests
{
    private const string Bike = "touring-3x9-cable";

    private static string Readings =>
        CommandLine.InRepository("demo/readings/touring-hanger-index.yaml");

    [Fact]
    public void Correct_ClockReadings_TellsLeanBeforeAndNow()
    {
        var (exit, json) = CommandLine.RunJson("correct", CommandLine.Spec(Bike), Readings);
        Assert.Equal(1, exit);
        var hanger = json.GetProperty("hanger");
        Assert.Equal("within", hanger.GetProperty("verdict").GetString());
        var rounds = hanger.GetProperty("rounds");
        Assert.Equal(2, rounds.GetArrayLength());
        Assert.Equal(5.5, rounds[0].GetProperty("topLessBottomMm").GetDouble(), 9);
        Assert.Equal(0.5, rounds[1].GetProperty("topLessBottomMm").GetDouble(), 9);
        var read = json.GetProperty("indexing").GetProperty("read");
        Assert.Equal("within", read.GetProperty("friction").GetString());
        Assert.Equal(1, read.GetProperty("correction").GetProperty("clicks").GetInt32());
        var stop = json.GetProperty("readings").EnumerateArray().Last();
        Assert.Equal(
            "clockwise",
            stop.GetProperty("adjustment").GetProperty("direction").GetString()
        );
    }

    [Fact]
    public void Index_CableBike_ListsEveryCogAndEndsFine()
    {
        var (exit, output) = CommandLine.Run("index", CommandLine.Spec(Bike));
        Assert.Equal(0, exit);
        foreach (var cog in (string[])["11", "13", "15", "17", "20", "23", "26", "30", "34"])
        {
            Assert.Matches($@"\n +{cog} +\d", output);
        }
    }

    [Fact]
    public void Index_NothingDescribed_SaysWhatToGive()
    {
        var (exit, output) = CommandLine.Run("index", CommandLine.Spec("model-example"));
        Assert.Equal(2, exit);
        Assert.Contains("shifting.pull", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Index_ReadingInAnotherUnit_IsRefusedWithItsPlace()
    {
        using var scratch = new Scratch();
        var file = scratch.File("r.yaml", "readings:\n  - {quantity: hanger-12, value: 4 °}\n");
        var (exit, output) = CommandLine.Run("index", CommandLine.Spec(Bike), file);
        Assert.Equal(2, exit);
        Assert.Contains("2:34: readings[0].value", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Index_NothingDescribed_AnswersAsJsonToo()
    {
        var (exit, json) = CommandLine.RunJson("index", CommandLine.Spec("model-example"));
        Assert.Equal(2, exit);
        Assert.Contains(
            "shifting.pull",
            json.GetProperty("problems")[0].GetProperty("message").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Index_SingleSpeed_SaysThatThereIsNoDerailleur()
    {
        var (exit, output) = CommandLine.Run("index", CommandLine.Spec("single-speed"));
        Assert.Equal(2, exit);
        Assert.Contains("no rear derailleur to index", output, StringComparison.Ordinal);
    }

    /// <summary>What is outside comes first; the readings that only count together are one line.</summary>
    [Fact]
    public void Correct_ManyReadings_TellsWhatIsOutsideFirstAndTheOthersInOneLine()
    {
        var (_, output) = CommandLine.Run("correct", CommandLine.Spec(Bike), Readings);
        var outside = output.IndexOf("✗ outside", StringComparison.Ordinal);
        var together = output.IndexOf("Taken into the result below", StringComparison.Ordinal);
        Assert.InRange(outside, 0, together);
        Assert.Equal(
            together,
            output.LastIndexOf("Taken into the result below", StringComparison.Ordinal)
        );
        Assert.Contains("hanger-12", output[together..], StringComparison.Ordinal);
    }

    /// <summary>No reading is lost: a misspelt one is asked about, one that is not of the index is named.</summary>
    [Fact]
    public void Index_ReadingsOfOtherNames_AreAskedAboutOrNamed()
    {
        using var scratch = new Scratch();
        const string fine =
            "readings:\n"
            + "  - {quantity: index-up, ring: 36, cog: 20, value: 0.1, uncertainty: 0.05}\n"
            + "  - {quantity: index-down, ring: 36, cog: 20, value: 0, uncertainty: 0.05}\n";
        string[] alone = ["index", CommandLine.Spec(Bike), scratch.File("fine.yaml", fine)];
        Assert.Equal(0, CommandLine.Run(alone).Exit);

        string[] other =
        [
            .. alone[..2],
            scratch.File("other.yaml", fine + "  - {quantity: gap, ring: 26, cog: 34, value: 6}\n"),
        ];
        var (exit, output) = CommandLine.Run(other);
        Assert.Equal(0, exit);
        Assert.Contains("not judged here: gap 26/34 6 mm", output, StringComparison.Ordinal);
        var named = CommandLine.RunJson(other).Json.GetProperty("otherReadings");
        Assert.Equal(
            "gap",
            Assert.Single(named.EnumerateArray()).GetProperty("quantity").GetString()
        );

        string[] misspelt =
        [
            .. alone[..2],
            scratch.File(
                "misspelt.yaml",
                fine + "  - {quantity: indx-up, ring: 36, cog: 20, value: 3}\n"
            ),
        ];
        (exit, output) = CommandLine.Run(misspelt);
        Assert.Equal(1, exit);
        Assert.Contains("Was index-up meant?", output, StringComparison.Ordinal);
        Assert.Contains(
            "asked",
            CommandLine
                .RunJson(misspelt)
                .Json.GetProperty("readings")
                .EnumerateArray()
                .Select(reading => reading.GetProperty("status").GetString())
        );
    }

    /// <summary>What was assumed of a reading stays marked: no gauge was named.</summary>
    [Fact]
    public void Index_NoGaugeNamed_SaysWhatWasAssumed()
    {
        using var scratch = new Scratch();
        const string reading = "readings:\n  - {quantity: index-up, ring: 36, cog: 20, value: 0.1";
        string[] args = ["index", CommandLine.Spec(Bike), scratch.File("r.yaml", reading + "}\n")];
        Assert.Contains(
            "a standard uncertainty of 0.25 mm was assumed",
            CommandLine.Run(args).Output,
            StringComparison.Ordinal
        );
        var (_, json) = CommandLine.RunJson(args);
        Assert.True(json.GetProperty("readings")[0].GetProperty("uncertaintyAssumed").GetBoolean());
        args[2] = scratch.File("r.yaml", reading + ", uncertainty: 0.05}\n");
        Assert.DoesNotContain(
            "was assumed",
            CommandLine.Run(args).Output,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("index")]
    [InlineData("correct")]
    public void Json_EveryNameOfHangerAndIndex_IsDocumented(string command)
    {
        var documentation = File.ReadAllText(
                CommandLine.InRepository("docs/how-to/command-line.md")
            )
            .Replace("[]`", "`", StringComparison.Ordinal);
        var (_, json) = CommandLine.RunJson(command, CommandLine.Spec(Bike), Readings);
        var names = Names(json).Distinct().ToList();
        Assert.Contains("gapChangeMm", names);
        Assert.All(
            names,
            name => Assert.Contains($"`{name}`", documentation, StringComparison.Ordinal)
        );
    }

    private static IEnumerable<string> Names(JsonElement json) =>
        json.ValueKind switch
        {
            JsonValueKind.Object => json.EnumerateObject()
                .SelectMany(p => Names(p.Value).Prepend(p.Name)),
            JsonValueKind.Array => json.EnumerateArray().SelectMany(Names),
            _ => [],
        };
}
