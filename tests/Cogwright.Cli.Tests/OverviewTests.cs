using System.Text;
using System.Text.Json;
using Cogwright.Care;
using Cogwright.Facts;

namespace Cogwright.Cli.Tests;

/// <summary>The shop at a glance from an export: a finished job, one that came back, a worn part.</summary>
public sealed class OverviewTests
{
    [Fact]
    public void Overview_OfAnExport_TellsWhatIsOpenDueAndCameBack()
    {
        using var logs = AtWork();
        using var scratch = new Scratch();
        var export = logs.Export(scratch);

        var (exit, json) = CommandLine.RunJson("overview", export, "--date", "2026-04-10");

        // The first check is due within the next two weeks, the coin cell since the day before.
        Assert.Equal(1, exit);
        var standing = Assert.Single(json.GetProperty("standing").EnumerateArray());
        Assert.Equal(
            ("intake", "CD", 1),
            (Text(standing, "stage"), Text(standing, "inHandsOf"), Number(standing, "jobs"))
        );
        Assert.Equal(
            ["coin-cell 2026-04-09", "first-check 2026-04-20"],
            json.GetProperty("due")
                .EnumerateArray()
                .Select(each => $"{Text(each, "due")} {Text(each, "dueOn")}")
        );
        Assert.Equal(
            "Noise",
            Text(Assert.Single(json.GetProperty("waiting").EnumerateArray()), "title")
        );
        Assert.Equal(
            "part-fault",
            Text(Assert.Single(json.GetProperty("comebacks").EnumerateArray()), "cause")
        );
        Assert.Equal(1, json.GetProperty("over").GetInt32());
        Assert.Equal(0, CommandLine.Run("overview", export, "--date", "2026-04-08").Exit);

        var (_, screen) = CommandLine.Run("overview", export, "--date", "2026-04-10");
        foreach (
            var said in (string[])
                ["CD", "Noise", "shifter's coin cell", "Fault of a part", "jobs finished: 1"]
        )
        {
            Assert.Contains(said, screen, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("noi", 1)]
    [InlineData("GRÉY casset", 1)]
    [InlineData("grey", 2)]
    [InlineData("nothing", 0)]
    public void Find_ByBeginningsOfWords_ListsJobs(string words, int found)
    {
        using var logs = AtWork();
        using var scratch = new Scratch();

        var (_, json) = CommandLine.RunJson(
            "overview",
            logs.DeviceFile(scratch),
            "--find",
            words,
            "--date",
            "2026-04-01"
        );

        Assert.Equal(found, json.GetProperty("found").GetArrayLength());
    }

    [Fact]
    public void Csv_OfAnExport_HasEveryJobInOrder()
    {
        using var logs = AtWork();
        using var scratch = new Scratch();
        var file = scratch.PathOf("jobs.csv");

        CommandLine.Run("overview", logs.Export(scratch), "--csv", file);

        var lines = new UTF8Encoding(false, true)
            .GetString(File.ReadAllBytes(file))
            .Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(string.Join(',', JobCsv.Columns), lines[0]);
        Assert.Equal(3, lines.Length);
        Assert.Contains(",New cassette,", lines[1], StringComparison.Ordinal);
        Assert.Contains(",Noise,", lines[2], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--days", "0", "--days 0")]
    [InlineData("--due-days", "4000", "--due-days 4000")]
    [InlineData("--date", "tomorrow", "\"tomorrow\" is not a day")]
    [InlineData("--find", "-", "--find")]
    public void Question_OutOfRange_IsRefusedWithItsOption(string option, string value, string said)
    {
        using var logs = AtWork();
        using var scratch = new Scratch();

        var (exit, output) = CommandLine.Run("overview", logs.Export(scratch), $"{option}={value}");

        Assert.Equal(2, exit);
        Assert.Contains(said, output, StringComparison.Ordinal);
    }

    [Fact]
    public void File_WithoutEntries_IsRefused()
    {
        using var scratch = new Scratch();

        Assert.Equal(2, CommandLine.Run("overview", scratch.File("a.json", "{}")).Exit);
        Assert.Equal(2, CommandLine.Run("overview", scratch.PathOf("none")).Exit);
    }

    private static RecordLogs AtWork()
    {
        var logs = RecordLogs.Closed();
        logs.Add(
            CareEntry.Draft(
                new CarePart(CareKind.CoinCell, CarePlace.Left, new(2025, 4, 9)) { IsNew = true }
            )
        );
        var again = logs.Add(JobEntry.Begin("Noise")).Id.ToString();
        logs.Add(JobEntry.Comeback(again, logs.Job, "part-fault", ""));
        logs.Add(JobEntry.Hands(again, "CD", ""));
        return logs;
    }

    private static string? Text(JsonElement json, string name) =>
        json.GetProperty(name).GetString();

    private static int Number(JsonElement json, string name) => json.GetProperty(name).GetInt32();
}
