using System.Text;
using Cogwright.Care;
using Cogwright.Files.Fields;
using Json.Schema;

namespace Cogwright.Files.Tests;

/// <summary>Files of wear and care: what they say, and the exact place of what they cannot say.</summary>
public sealed class WearFileTests
{
    private const string Demo = "demo/wear/gravel-12.yaml";

    [Fact]
    public void Schema_Stored_IsTheGenerated() =>
        Stored.AssertEqual("schemas/wear.schema.json", WearSchema.ToJson());

    [Fact]
    public void Guide_Table_IsThatOfTheFieldTable()
    {
        const string guide = "docs/how-to/wear-file.md";
        var text = Repository.Text(guide);
        var begin =
            text.IndexOf(GuideTests.Begin, StringComparison.Ordinal) + GuideTests.Begin.Length;
        var end = text.IndexOf(GuideTests.End, StringComparison.Ordinal);
        var table = new StringBuilder("\n");
        GuideTests.Table(table, WearFields.Wear);

        Stored.AssertEqual(guide, text[..begin] + table.Append('\n') + text[end..]);
    }

    [Fact]
    public void Demo_AgainstSchema_IsValid() =>
        Assert.True(
            SchemaTests.IsValid(JsonSchema.FromText(WearSchema.ToJson()), Repository.Text(Demo))
        );

    /// <summary>The file of the first format stays readable for ever, with the same figures.</summary>
    [Theory]
    [InlineData(Demo)]
    [InlineData("testdata/formats/v1/wear.yaml")]
    public void Wear_Read_HasItsFigures(string file)
    {
        var reading = WearReader.Read(Repository.Text(file), "wear.yaml");
        Assert.Empty(reading.Problems);
        var (code, facts, table) = reading.File!;

        Assert.Equal(("17", 12, UsageUnit.Km), (code, facts.Cogs, facts.Unit));
        Assert.Equal(2, facts.Chains.Length);
        Assert.True(facts.Chains[0].WithNewCogs && !facts.Chains[1].WithNewCogs);
        Assert.Equal(
            new FittedChain(new(2026, 3, 16), 2490) with
            {
                Id = "chains[1]",
            },
            facts.Chains[1] with
            {
                Readings = [],
            }
        );
        var first = facts.Chains[0].Readings[0];
        Assert.Equal(12.0625 * 25.4, first.Spots[0].LengthMm!.Value, 1e-9);
        var gauge = facts.Chains[1].Readings[2];
        Assert.Equal((WearWay.TwoPoint, 8, 0.16), (gauge.Way, gauge.Pitches, gauge.Play!.Mm));
        Assert.Equal(10, facts.Parts.Length);
        Assert.Equal(1.5, facts.Parts.Single(part => part.Kind == CareKind.Rotor).StampedMm);
        Assert.Equal(1.0, table[CareTerm.Pad]);
        Assert.Equal(60, table[CareTerm.WirelessHours]);
    }

    /// <summary>Newest first is as good an order to write in: what was seen last is what counts, as in a bike's log.</summary>
    [Fact]
    public void Care_WrittenNewestFirst_IsInTheOrderOfItsDays()
    {
        var parts = WearReader
            .Read(
                "care:\n  - { kind: pad, on: 2026-10-31, value: 0.4 }\n  - { kind: pad, on: 2026-03-16, value: 3.4 }\n",
                "wear.yaml"
            )
            .File!.Facts.Parts;

        Assert.Equal([3.4, 0.4], parts.Select(part => part.Value!.Value));
    }

    /// <summary>The last chain in the file is held for the one on the bike.</summary>
    [Fact]
    public void Chains_NotInTheirOrder_AreToldWithTheirPlace()
    {
        var reading = WearReader.Read(
            "chains:\n  - { on: 2026-03-16, at: 2490 }\n  - { on: 2025-09-06, at: 120 }\n",
            "wear.yaml"
        );

        Assert.Null(reading.File);
        Assert.Equal(
            ["chains[1].on", "chains[1].at"],
            reading.Problems.Where(problem => problem.IsError).Select(problem => problem.Field)
        );
    }

    private const string Head = "chains:\n  - on: 2026-01-05\n    at: 100\n    readings:\n";

    [Theory]
    [InlineData("colour: red\n", 1, 1, "colour")]
    [InlineData("cogCount: 40\n", 1, 11, "cogCount")]
    [InlineData("counter: miles\n", 1, 10, "counter")]
    [InlineData("chains:\n  - at: -4\n", 2, 9, "chains[0].at")]
    [InlineData("care:\n  - { kind: chain, on: 2026-01-05 }\n", 2, 13, "care[0].kind")]
    [InlineData("care:\n  - { kind: pad, on: 2026-01-05 }\n", 2, 5, "care[0].value")]
    [InlineData(
        "care:\n  - { kind: wirelessBattery, on: 2026-01-05, value: 101 }\n",
        2,
        53,
        "care[0].value"
    )]
    [InlineData("limits:\n  pad: 20\n", 2, 8, "limits.pad")]
    [InlineData("limits:\n  chain:\n    - { cogs: 12, percent: 7 }\n", 3, 7, "limits.chain[0]")]
    [InlineData(
        Head
            + "      - { on: 2026-02-05, at: 400, way: ruler, pitches: 24, lengths: [305.2, 380] }\n",
        5,
        78,
        "chains[0].readings[0].lengths[1]"
    )]
    [InlineData(
        Head
            + "      - { on: 2026-02-05, at: 400, way: ruler, pitches: 24, lengths: [12 1/0 in] }\n",
        5,
        71,
        "chains[0].readings[0].lengths[0]"
    )]
    [InlineData(
        Head + "      - { on: 2026-02-05, at: 90, way: ruler, pitches: 24, lengths: [305.2] }\n",
        5,
        31,
        "chains[0].readings[0].at"
    )]
    [InlineData(
        Head + "      - { on: 2025-02-05, at: 400, way: ruler, pitches: 24, lengths: [305.2] }\n",
        5,
        15,
        "chains[0].readings[0].on"
    )]
    [InlineData(
        Head + "      - { on: 2026-02-05, at: 400, way: twoPoint, pitches: 8, lengths: [102] }\n",
        5,
        63,
        "chains[0].readings[0].lengths"
    )]
    [InlineData(
        Head + "      - { on: 2026-02-05, at: 400, way: ruler, pitches: 2, lengths: [25.5] }\n",
        5,
        57,
        "chains[0].readings[0].pitches"
    )]
    public void Wear_WhatCannotBe_IsToldWithItsPlace(
        string text,
        int line,
        int column,
        string field
    )
    {
        var reading = WearReader.Read(text, "wear.yaml");

        Assert.Null(reading.File);
        var error = reading.Problems.First(problem => problem.IsError);
        Assert.Equal((line, column, field), (error.Line, error.Column, error.Field));
        Assert.NotEmpty(error.Message);
    }

    /// <summary>A page gives "0.7 %" for 256 mm and 10 1/16 in over 20 pitches: each is read for what it is.</summary>
    [Fact]
    public void Lengths_OfAPageThatDisagrees_AreReadForWhatTheyAre()
    {
        var file = WearReader
            .Read(
                Head
                    + "      - { on: 2026-02-05, at: 400, way: ruler, pitches: 20, lengths: [256, 10 1/16 in] }\n",
                "wear.yaml"
            )
            .File!;
        var spots = file.Facts.Chains[0].Readings[0].AtSpots();

        Assert.Equal(0.787, spots[0].Percent!.Value, 0.001);
        Assert.Equal(0.625, spots[1].Percent!.Value, 0.001);
    }
}
