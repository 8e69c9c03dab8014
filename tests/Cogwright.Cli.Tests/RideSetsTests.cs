using System.Text.Json;
using Snapshooter.Xunit3;

namespace Cogwright.Cli.Tests;

/// <summary>A ride on a demo bike with rings and cassettes of the demo library.</summary>
public class RideSetsTests
{
    private static readonly string[] Counts =
    [
        "doNotBelongTogether",
        "notServed",
        "cannotSay",
        "onTheBike",
        "leftAside",
        "ridden",
    ];

    private static string[] Ride(string bike, params string[] more) =>
        [
            "ride",
            CommandLine.Spec(bike),
            "--mass",
            "85",
            "--power",
            "180",
            "--profile",
            "10 km 1 %; 4 km 9 %; 5 km -4 %",
            .. more,
        ];

    [Fact]
    public void Ride_WithRingsAndCassettesOfTheLibrary_LooksAsApproved()
    {
        var (exit, output) = CommandLine.Run(
            Ride("road-2x12-wireless", "--replace", "rings,cassette", "--most", "6")
        );

        Assert.Equal(0, exit);
        Snapshot.Match(output, "ride-library");
    }

    [Fact]
    public void Ride_WithTheLibrary_TellsTheBestFirstAndByHowMuch()
    {
        var (exit, json) = CommandLine.RunJson(
            Ride("road-2x12-wireless", "--replace", "rings,cassette", "--most", "500")
        );

        Assert.Equal(0, exit);
        var present = json.GetProperty("present");
        var library = json.GetProperty("library");
        var sets = library.GetProperty("sets").EnumerateArray().ToList();
        Assert.Equal(library.GetProperty("ridden").GetInt32(), sets.Count);
        // On a climb of 9 % a rider of 180 W wants lower gears: 33 on 34 instead of 34 on 34.
        var best = sets[0];
        Assert.Equal("better", best.GetProperty("suits").GetString());
        Assert.Equal("quill-46-33", best.GetProperty("parts").GetProperty("rings").GetString());
        Assert.Equal(
            "pell-12-11-34",
            best.GetProperty("parts").GetProperty("cassette").GetString()
        );
        Assert.Equal(
            Rpm(present) + best.GetProperty("steepestInLowestGearRpmMore").GetDouble(),
            Rpm(best),
            0.01
        );
        // The same road at the same speed: cadence is as the ratio.
        Assert.Equal(Rpm(present) * 34 / 33, Rpm(best), 0.01);
        Assert.Equal(sets.Select(Outside).Order(), sets.Select(Outside));
        Assert.Equal(
            library.GetProperty("all").GetInt64(),
            Counts.Sum(name => library.GetProperty(name).GetInt64())
        );

        static double Rpm(JsonElement answer) =>
            answer.GetProperty("steepestInLowestGearRpm").GetDouble();

        static double Outside(JsonElement answer) =>
            Math.Round(
                answer.GetProperty("belowPercent").GetDouble()
                    + answer.GetProperty("abovePercent").GetDouble(),
                1
            );
    }

    [Fact]
    public void Ride_WithTheCassettesAlone_KeepsTheRings()
    {
        var (_, json) = CommandLine.RunJson(
            Ride("road-2x12-wireless", "--replace", "cassette", "--in-stock")
        );

        var sets = json.GetProperty("library").GetProperty("sets").EnumerateArray().ToList();
        Assert.NotEmpty(sets);
        Assert.All(
            sets,
            set =>
            {
                Assert.False(set.GetProperty("parts").TryGetProperty("rings", out _));
                Assert.Equal(
                    [34, 50],
                    set.GetProperty("ringShares")
                        .EnumerateArray()
                        .Select(ring => ring.GetProperty("teeth").GetInt32())
                );
            }
        );
    }

    [Fact]
    public void Ride_OfABikeWhosePartsAreNotNamed_SaysThatNoneCanBeSaidToBelongTogether()
    {
        var (exit, output) = CommandLine.Run(
            Ride("touring-3x9-cable", "--replace", "rings,cassette")
        );

        Assert.Equal(0, exit);
        Assert.Contains("Steepest minute", output, StringComparison.Ordinal);
        Assert.Contains(
            "cannot be said to belong together",
            output.Replace("\n", " ", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("cogwright options", "--replace", "cassette,chain")]
    [InlineData("no kind of part", "--replace", "casette")]
    [InlineData("--replace", "--in-stock")]
    [InlineData("--replace", "--most", "5")]
    [InlineData("from 1", "--replace", "rings", "--most", "0")]
    public void Ride_OptionOfTheLibraryThatCannotBe_SaysWhatWasExpected(
        string expected,
        params string[] more
    )
    {
        var (exit, output) = CommandLine.Run(Ride("road-2x12-wireless", more));

        Assert.Equal(2, exit);
        Assert.Contains(
            expected,
            output.Replace("\n", " ", StringComparison.Ordinal),
            StringComparison.Ordinal
        );
    }
}
