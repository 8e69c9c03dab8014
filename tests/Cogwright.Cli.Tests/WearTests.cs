using System.Text;
using Snapshooter.Xunit3;

namespace Cogwright.Cli.Tests;

/// <summary>Wear and care from the command line.</summary>
public sealed class WearTests
{
    private static readonly string Demo = CommandLine.InRepository("demo/wear/gravel-12.yaml");

    [Fact]
    public void Wear_Demo_LooksAsApproved()
    {
        var (exit, output) = CommandLine.Run("wear", Demo, "--date", "2026-11-02");

        Assert.Equal(0, exit);
        Snapshot.Match(output, "wear-gravel-12");
    }

    [Fact]
    public void Wear_Json_HasStableNames()
    {
        var (exit, json) = CommandLine.RunJson("wear", Demo, "--date", "2026-11-02");
        var chain = json.GetProperty("chain");
        var last = chain.GetProperty("readings").EnumerateArray().Last();
        var due = json.GetProperty("due").EnumerateArray().ToList();

        Assert.Equal(0, exit);
        Assert.Equal("within", last.GetProperty("verdict").GetString());
        Assert.Equal(0.363, last.GetProperty("percent").GetDouble(), 0.001);
        Assert.Equal("ahead", chain.GetProperty("forecast").GetProperty("state").GetString());
        Assert.Equal("maySkip", json.GetProperty("newChain").GetProperty("answer").GetString());
        Assert.Contains(due, item => item.GetProperty("id").GetString() == "chain-bike");
        Assert.Equal(
            "cannotSay",
            due.Single(item => item.GetProperty("kind").GetString() == "quickLink")
                .GetProperty("state")
                .GetString()
        );
    }

    [Fact]
    public void Wear_Later_FindsWhatIsDue()
    {
        var (exit, json) = CommandLine.RunJson("wear", Demo, "--date", "2027-06-01");

        Assert.Equal(1, exit);
        Assert.Equal("due", json.GetProperty("due")[0].GetProperty("state").GetString());
    }

    [Fact]
    public void Wear_Calendar_IsWrittenWhole()
    {
        using var scratch = new Scratch();
        var file = scratch.PathOf("due.ics");
        var (_, output) = CommandLine.Run("wear", Demo, "--date", "2026-11-02", "--calendar", file);
        var bytes = File.ReadAllBytes(file);
        var text = new UTF8Encoding(false, true).GetString(bytes);

        Assert.Contains("due.ics", output, StringComparison.Ordinal);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.EndsWith("END:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.Equal(text.Count(c => c == '\n'), text.Split("\r\n").Length - 1);
        Assert.Contains("DTSTART;VALUE=DATE:20270110\r\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Wear_CalendarWithoutCode_IsRefusedWithoutAFile()
    {
        using var scratch = new Scratch();
        var wear = scratch.File("wear.yaml", "care:\n  - { kind: coinCell, on: 2026-01-05 }\n");
        var file = scratch.PathOf("due.ics");
        var (exit, output) = CommandLine.Run("wear", wear, "--calendar", file);

        Assert.Equal(2, exit);
        Assert.Contains("code", output, StringComparison.Ordinal);
        Assert.False(File.Exists(file));
    }

    [Fact]
    public void Wear_BadFile_NamesThePlace()
    {
        using var scratch = new Scratch();
        var wear = scratch.File("wear.yaml", "cogCount: 40\n");
        var (exit, json) = CommandLine.RunJson("wear", wear);
        var problem = json.GetProperty("problems")[0];

        Assert.Equal(2, exit);
        Assert.Equal(
            (1, 11),
            (problem.GetProperty("line").GetInt32(), problem.GetProperty("column").GetInt32())
        );
        Assert.Equal(2, CommandLine.Run("wear", wear, "--date", "tomorrow").Exit);
    }
}
