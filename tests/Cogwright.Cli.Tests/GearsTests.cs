using System.Text.Json;
using Snapshooter.Xunit3;

namespace Cogwright.Cli.Tests;

/// <summary>Measures of gears and rides from the command line.</summary>
public class GearsTests
{
    private static readonly string[] Climb =
    [
        "ride",
        CommandLine.Spec("touring-3x9-cable"),
        "--mass",
        "95",
        "--power",
        "150",
        "--profile",
        "5 km 2 %; 3 km 8 %; 4 km -6 %",
        "--beside",
        CommandLine.Spec("road-2x12-wireless"),
    ];

    [Fact]
    public void Gears_OfTwoSpecs_LookAsApproved()
    {
        var (exit, output) = CommandLine.Run(
            "gears",
            CommandLine.Spec("road-2x12-wireless"),
            CommandLine.Spec("touring-3x9-cable"),
            "--tyre",
            "32-622",
            "--crank",
            "170"
        );

        Assert.Equal(0, exit);
        Snapshot.Match(output, "gears-two");
    }

    [Fact]
    public void Ride_BesideAnotherSpec_LooksAsApproved()
    {
        var (exit, output) = CommandLine.Run(Climb);

        Assert.Equal(0, exit);
        Snapshot.Match(output, "ride-climb");
    }

    /// <summary>50/17 on a roll-out of 2105 mm is 6.1912 m, computed apart from the product.</summary>
    [Fact]
    public void Gears_OfARollOut_TellsTheDevelopment()
    {
        var (exit, json) = CommandLine.RunJson(
            "gears",
            CommandLine.Spec("road-2x12-wireless"),
            "--tyre",
            "2105mm"
        );

        Assert.Equal(0, exit);
        var setUp = json.GetProperty("setUps")[0];
        var gear = setUp
            .GetProperty("ladder")
            .EnumerateArray()
            .Single(g =>
                g.GetProperty("ring").GetInt32() == 50 && g.GetProperty("cog").GetInt32() == 17
            );
        Assert.Equal(6.1912, gear.GetProperty("developmentM").GetDouble(), 0.0001);
        Assert.Equal(JsonValueKind.Null, gear.GetProperty("gain").ValueKind);
        Assert.Equal("rollOut", setUp.GetProperty("tyre").GetProperty("source").GetString());
        Assert.False(json.GetProperty("tyreAssumed").GetBoolean());
    }

    [Fact]
    public void Gears_WithoutATyre_SaysThatOneIsAssumed()
    {
        var (_, output) = CommandLine.Run("gears", CommandLine.Spec("gravel-1x13"));

        Assert.Contains("tyre = 28-622", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--tyre", "26x1 3/8", "more than one rim")]
    [InlineData("--tyre", "wide", "28-622")]
    [InlineData("--out", "gears.pdf", ".svg")]
    [InlineData("--crank", "17", "50 to 300")]
    [InlineData("--crank", "long", "172.5")]
    [InlineData("--cadence", "fast", "60,90")]
    [InlineData("--cadence", "0", "60,90")]
    [InlineData("--other-tyre", "28-622", "second spec")]
    public void Gears_OptionThatCannotBe_SaysWhatWasExpected(
        string option,
        string value,
        string expected
    )
    {
        var (exit, output) = CommandLine.Run(
            "gears",
            CommandLine.Spec("gravel-1x13"),
            option,
            value
        );

        Assert.Equal(2, exit);
        Assert.Contains(option, output, StringComparison.Ordinal);
        Assert.Contains(expected, output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--mass", "8500", "20 to 500 kg")]
    [InlineData("--mass", "heavy", "--mass")]
    [InlineData("--power", "0:", "-3:0,0:180,6:240")]
    [InlineData("--power", "5min:200,strong", "5min:290,60min:220")]
    [InlineData("--power", "5min:200,60min:240", "no more power")]
    [InlineData("--cadence", "60", "60-100")]
    [InlineData("--cadence", "100-60", "exchange")]
    [InlineData("--position", "lying", "aero-bar")]
    [InlineData("--surface", "ice", "smooth-asphalt")]
    [InlineData("--wind", "200", "0 to 40 m/s")]
    [InlineData("--wind-from", "90", "--wind")]
    [InlineData("--window", "50", "typed road")]
    [InlineData("--gradient", "5", "Name one road")]
    [InlineData("--route", "none.gpx", "Name one road")]
    [InlineData("--profile", "5 miles", "5 miles")]
    [InlineData("--top-speed", "0", "3 to 40 m/s")]
    public void Ride_OptionThatCannotBe_SaysWhatWasExpected(
        string option,
        string value,
        string expected
    )
    {
        var given = new Dictionary<string, string>
        {
            ["--mass"] = "95",
            ["--power"] = "150",
            ["--profile"] = "5 km 2 %",
        };
        given[option] = value;
        var (exit, output) = CommandLine.Run([
            "ride",
            CommandLine.Spec("gravel-1x13"),
            .. given.SelectMany(pair => new[] { pair.Key, pair.Value }),
        ]);

        Assert.Equal(2, exit);
        Assert.Contains(
            expected,
            output.Replace("\n", " ", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("   at ", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Ride_OfAGpxFile_TellsRoadAndNotes()
    {
        using var scratch = new Scratch();
        var file = scratch.File("hill.gpx", Gpx());

        var (exit, json) = CommandLine.RunJson(
            "ride",
            CommandLine.Spec("gravel-1x13"),
            "--mass",
            "85",
            "--power",
            "200",
            "--route",
            file,
            "--wind",
            "3",
            "--wind-from",
            "0"
        );

        Assert.Equal(0, exit);
        var road = json.GetProperty("road");
        Assert.Equal("Hill", road.GetProperty("name").GetString());
        Assert.Equal(100, road.GetProperty("windowM").GetDouble());
        // 0.02° of the meridian at 47° is 2224 m on WGS84.
        Assert.Equal(2224, road.GetProperty("lengthM").GetDouble(), 10.0);
        Assert.Equal(2, road.GetProperty("notes").GetArrayLength());
        Assert.True(
            json.GetProperty("steepestMinute").GetProperty("gradientPercent").GetDouble() > 4
        );
    }

    [Fact]
    public void Ride_WithWhatCanBeHeld_TellsThePower()
    {
        var (exit, json) = CommandLine.RunJson(
            "ride",
            CommandLine.Spec("gravel-1x13"),
            "--mass",
            "85",
            "--power",
            "5min:300,20min:250,1h:220",
            "--gradient",
            "8"
        );

        Assert.Equal(0, exit);
        Assert.InRange(json.GetProperty("heldW").GetDouble(), 220, 250);
        Assert.InRange(json.GetProperty("totalS").GetDouble(), 1200, 3600);
        Assert.Null(json.GetProperty("heldNote").GetString());

        string[] longer =
        [
            "ride",
            CommandLine.Spec("gravel-1x13"),
            "--mass",
            "85",
            "--power",
            "5min:300,1h:220",
            "--profile",
            "100 km 1 %",
        ];
        var (_, beyond) = CommandLine.RunJson(longer);
        Assert.Contains(
            "more than can be held",
            beyond.GetProperty("heldNote").GetString(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "more than can be held",
            string.Join(
                ' ',
                CommandLine
                    .Run(longer)
                    .Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
            ),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Gears_DrawnIntoAFile_AreThereWhole()
    {
        using var scratch = new Scratch();
        foreach (
            var (name, start) in (ReadOnlySpan<(string, string)>)
                [("a.svg", "<"), ("b.png", "\u0089")]
        )
        {
            var (exit, _) = CommandLine.Run(
                "gears",
                CommandLine.Spec("gravel-1x13"),
                "--out",
                scratch.PathOf(name)
            );
            Assert.Equal(0, exit);
            Assert.Equal(start[0], (char)File.ReadAllBytes(scratch.PathOf(name))[0]);
        }
    }

    [Fact]
    public void Ride_OfABrokenGpxFile_NamesThePlace()
    {
        using var scratch = new Scratch();
        var file = scratch.File("cut.gpx", Gpx()[..400]);

        var (exit, json) = CommandLine.RunJson(
            "ride",
            CommandLine.Spec("gravel-1x13"),
            "--mass",
            "85",
            "--power",
            "200",
            "--route",
            file
        );

        Assert.Equal(2, exit);
        var problem = json.GetProperty("problems")[0];
        Assert.EndsWith("cut.gpx", problem.GetProperty("file").GetString());
        Assert.True(problem.GetProperty("line").GetInt32() > 1);
    }

    [Theory]
    [InlineData("--wind", "3")]
    public void Ride_OfAGpxFile_NeedsToKnowWhereTheWindComesFrom(string option, string value)
    {
        using var scratch = new Scratch();
        var (exit, output) = CommandLine.Run(
            "ride",
            CommandLine.Spec("gravel-1x13"),
            "--mass",
            "85",
            "--power",
            "200",
            "--route",
            scratch.File("hill.gpx", Gpx()),
            option,
            value
        );

        Assert.Equal(2, exit);
        Assert.Contains("--wind-from", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("gears")]
    [InlineData("ride")]
    public void Json_EveryName_IsDocumented(string command)
    {
        var documentation = File.ReadAllText(
                CommandLine.InRepository("docs/how-to/command-line.md")
            )
            .Replace("[]`", "`", StringComparison.Ordinal);
        var road = CommandLine.Spec("road-2x12-wireless");
        string[] args =
            command == "ride"
                ? ["ride", road, .. Climb[2..], "--replace", "rings,cassette"]
                : [command, CommandLine.Spec("model-example")];
        foreach (var name in Names(CommandLine.RunJson(args).Json).Distinct())
        {
            Assert.Contains($"`{name}`", documentation, StringComparison.Ordinal);
        }
    }

    private static string Gpx() =>
        "<?xml version=\"1.0\"?>\n<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"test\">\n"
        + "<trk><name>Hill</name><trkseg>\n"
        + string.Concat(
            Enumerable
                .Range(0, 201)
                .Select(i =>
                    FormattableString.Invariant(
                        $"<trkpt lat=\"{47 + (i * 0.0001):0.0000}\" lon=\"8\"><ele>{400 + (i * 0.6):0.0}</ele></trkpt>\n"
                    )
                    + (
                        i == 100
                            ? "<trkpt lat=\"47.01\" lon=\"8\"/>\n</trkseg><trkseg>\n<trkpt lat=\"47.01\" lon=\"8\"><ele>460</ele></trkpt>\n"
                            : ""
                    )
                )
        )
        + "</trkseg></trk></gpx>\n";

    private static IEnumerable<string> Names(JsonElement json) =>
        json.ValueKind switch
        {
            JsonValueKind.Object => json.EnumerateObject()
                .SelectMany(p => Names(p.Value).Prepend(p.Name)),
            JsonValueKind.Array => json.EnumerateArray().SelectMany(Names),
            _ => [],
        };
}
