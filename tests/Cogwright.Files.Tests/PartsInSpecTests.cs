using System.Collections.Immutable;
using Cogwright.Parts;
using Cogwright.Setup;

namespace Cogwright.Files.Tests;

/// <summary>A spec names parts; what it leaves out comes from them, and what it says itself stands.</summary>
public sealed class PartsInSpecTests
{
    private static Part Make(
        string id,
        PartKind kind,
        (PartField Field, PartValue Value)[]? values = null,
        params (string Path, string Text)[] spec
    ) =>
        new()
        {
            Id = id,
            Kind = kind,
            Name = "Part " + id,
            Values = (values ?? []).ToImmutableDictionary(v => v.Field, v => v.Value),
            SpecValues = spec.ToImmutableSortedDictionary(
                v => v.Path,
                v => v.Text,
                StringComparer.Ordinal
            ),
        };

    private static PartValue.Number One(double value) => new(value);

    private static PartValue.Numbers Many(params double[] values) => new([.. values]);

    private static readonly PartLibrary Library = new([
        Make(
            "frame-a",
            PartKind.Frame,
            null,
            ("frame.class", "touring"),
            ("frame.chainstay", "448"),
            ("hanger.class", "mountain")
        ),
        Make("hanger-a", PartKind.Hanger, null, ("hanger.offset", "[-10, -29]")),
        Make(
            "wheel-135",
            PartKind.RearWheel,
            [
                (PartFields.HubSpacing, One(135)),
                (PartFields.FlangeLateral, One(19)),
                (PartFields.FlangeRadius, One(22.5)),
                (PartFields.RimRadius, One(298)),
            ]
        ),
        Make("wheel-141", PartKind.RearWheel, [(PartFields.HubSpacing, One(141))]),
        Make(
            "cassette-9",
            PartKind.Cassette,
            [
                (PartFields.Teeth, Many(11, 13, 15, 17, 20, 23, 26, 30, 34)),
                (PartFields.Spacing, One(4.34)),
                (PartFields.CogThickness, One(1.78)),
                (PartFields.LocknutGap, One(2.8)),
            ]
        ),
        Make("chain-9", PartKind.Chain, [(PartFields.Width, One(6.6))]),
        Make(
            "crank-a",
            PartKind.Crank,
            [(PartFields.Chainline, One(47.5)), (PartFields.RingSpacing, One(6.4))]
        ),
        Make(
            "rings-3",
            PartKind.Rings,
            [(PartFields.Teeth, Many(26, 36, 48)), (PartFields.RingThickness, One(2))]
        ),
        Make(
            "rear-long",
            PartKind.RearDerailleur,
            [(PartFields.ShiftRatio, One(1.7)), (PartFields.Capacity, One(45))],
            ("rearDerailleur.class", "touring-long"),
            ("rearDerailleur.linkLength", "61.5"),
            ("adjusters[0].name", "outboard stop screw"),
            ("adjusters[0].moves", "rear-outboard-stop")
        ),
        Make(
            "rear-motor",
            PartKind.RearDerailleur,
            [(PartFields.Protocol, new PartValue.Tags(["link-a"]))],
            ("rearDerailleur.class", "road-medium")
        ),
        Make("rear-bare", PartKind.RearDerailleur),
        Make(
            "front-3",
            PartKind.FrontDerailleur,
            null,
            ("frontDerailleur.class", "touring-triple"),
            ("adjusters[0].name", "front stop"),
            ("adjusters[0].moves", "front-outboard-stop")
        ),
        Make(
            "shifter-9",
            PartKind.RearShifter,
            [(PartFields.Pull, Many(2.6, 2.5, 2.5, 2.5, 2.5, 2.6, 2.6, 2.6))]
        ),
        Make("spacer", PartKind.Adapter),
        Make(
            "rear-broken",
            PartKind.RearDerailleur,
            null,
            ("rearDerailleur.class", "touring-long"),
            ("rearDerailleur.slant", "steep")
        ),
        Make("cassette-odd", PartKind.Cassette, [(PartFields.Teeth, Many(11, 34, 13))]),
    ]);

    private const string Whole = """
        name: Alder
        parts:
          frame: frame-a
          rearWheel: wheel-135
          cassette: cassette-9
          chain: chain-9
          crank: crank-a
          rings: rings-3
          rearDerailleur: rear-long
          frontDerailleur: front-3
          rearShifter: shifter-9
          adapters: [spacer]

        """;

    private static SpecFile Read(string text)
    {
        var reading = SpecReader.Read(text, "bike.yaml", Library);
        Assert.Empty(reading.Problems);
        return reading.Spec!;
    }

    private static FileProblem OnlyError(string text) =>
        Assert.Single(SpecReader.Read(text, "bike.yaml", Library).Problems);

    [Fact]
    public void SpecOfPartsAlone_Read_TakesEverythingFromThem()
    {
        var spec = Read(Whole).Drivetrain;

        Assert.Equal(448, spec.Frame.ChainstayMm);
        Assert.Equal([48, 36, 26], spec.Rings.Select(r => r.Teeth));
        Assert.Equal([53.9, 47.5, 41.1], spec.Rings.Select(r => Math.Round(r.LateralMm, 9)));
        Assert.Equal(9, spec.Cogs.Teeth.Length);
        Assert.Equal(4.34, spec.Cogs.SpacingMm);
        Assert.Equal(67.5 - 2.8 - (1.78 / 2), spec.Cogs.SmallestLateralMm, 1e-9);
        Assert.Equal(61.5, spec.RearDerailleur!.LinkLengthMm);
        Assert.Equal(1.7, spec.Shifting!.ShiftRatio);
        Assert.Equal(8, spec.Shifting.PullMm.Length);
        Assert.Equal(6.6, spec.Lateral!.ChainWidthMm);
        Assert.Equal(298, spec.Lateral.Spokes!.RimRadiusMm);
        Assert.Equal(["outboard stop screw", "front stop"], spec.Adjusters.Select(a => a.Name));
        Assert.NotNull(spec.FrontDerailleur);
    }

    [Fact]
    public void ValuesOfParts_AreToldAsTheParts_NotAsAssumed()
    {
        var spec = Read(Whole);

        Assert.Contains(new PartSupplied("cogs.spacing", "4.34 mm", "cassette-9"), spec.FromParts);
        Assert.Contains(new PartSupplied("rings[0].teeth", "48", "rings-3"), spec.FromParts);
        Assert.Contains(new PartSupplied("rings[0].lateral", "53.9 mm", "crank-a"), spec.FromParts);
        Assert.Contains(
            new PartSupplied("rearDerailleur.linkLength", "61.5 mm", "rear-long"),
            spec.FromParts
        );
        Assert.Empty(
            spec.Drivetrain.Assumptions.Select(a => a.Path)
                .Intersect(spec.FromParts.Select(p => p.Path))
        );
        // What the part leaves to its class is still assumed.
        Assert.Contains(spec.Drivetrain.Assumptions, a => a.Path == "rearDerailleur.slant");
        Assert.Contains(spec.Drivetrain.Assumptions, a => a.Path == "frame.bbDrop");
    }

    [Fact]
    public void ValueInTheSpec_Overrides_ThePartsAndItsBuild()
    {
        var spec = Read(
            Whole
                + """
                cogs: {spacing: 4.4}
                rings: [46, 34]
                chain: {width: 6.7}
                rearDerailleur: {linkLength: 63}
                """
        );

        Assert.Equal(4.4, spec.Drivetrain.Cogs.SpacingMm);
        Assert.Equal([46, 34], spec.Drivetrain.Rings.Select(r => r.Teeth));
        Assert.Equal(63, spec.Drivetrain.RearDerailleur!.LinkLengthMm);
        Assert.Equal(4.4, spec.Parts[PartKind.Cassette]!.Number(PartFields.Spacing));
        Assert.Equal(6.7, spec.Parts[PartKind.Chain]!.Number(PartFields.Width));
        Assert.Equal([34, 46], spec.Parts[PartKind.Rings]!.Numbers(PartFields.Teeth));
        Assert.Equal(1.78, spec.Parts[PartKind.Cassette]!.Number(PartFields.CogThickness));
        Assert.Equal("spacer", Assert.Single(spec.Parts.Adapters).Id);
    }

    [Fact]
    public void ExchangeableHanger_WinsOverTheFrames()
    {
        var spec = Read(
            Whole.Replace(
                "  rearWheel",
                "  hanger: hanger-a\n  rearWheel",
                StringComparison.Ordinal
            )
        );

        Assert.Equal(new(-10, -29), spec.Drivetrain.Hanger!.OffsetMm);
    }

    [Fact]
    public void HubSpacingThatPracticeDoesNotKnow_PlacesTheCogsAllTheSame() =>
        Assert.Equal(
            141,
            Read(
                Whole.Replace("wheel-135", "wheel-141", StringComparison.Ordinal)
            ).Drivetrain.Lateral!.Cassette!.HubSpacingMm
        );

    [Fact]
    public void RatioWithoutPull_GivesNoHalfShifting() =>
        Assert.Null(
            Read(
                Whole.Replace("  rearShifter: shifter-9\n", "", StringComparison.Ordinal)
            ).Drivetrain.Shifting
        );

    [Fact]
    public void DerailleurWithProtocol_MakesTheBikeMotorDriven()
    {
        var text = Whole.Replace("rear-long", "rear-motor", StringComparison.Ordinal);

        Assert.Equal(Actuation.MotorWireless, Read(text).Work.Actuation);
        Assert.Equal(
            Actuation.MotorWired,
            Read(text + "work: {actuation: motor-wired}").Work.Actuation
        );
        Assert.Equal(Actuation.Cable, Read(Whole).Work.Actuation);
    }

    [Theory]
    [InlineData("cassette: cassette-9", "cassette: cassette-8", 5, "did you mean \"cassette-9\"")]
    [InlineData("cassette: cassette-9", "cassette: nothing", 5, "import it")]
    [InlineData("cassette: cassette-9", "cassette: chain-9", 5, "part of another kind (chain)")]
    [InlineData("[spacer]", "[spacer, chain-9]", 12, "part of another kind (chain)")]
    [InlineData("cassette: cassette-9", "cassette: A b", 5, "the id of a part")]
    [InlineData("rear-long", "rear-broken", 9, "gives rearDerailleur.slant")]
    [InlineData("rear-long", "rear-bare", 9, "give rearDerailleur.class")]
    [InlineData("cassette-9", "cassette-odd", 5, "\"cassette-odd\" gives cogs.teeth")]
    public void PartThatCannotBeUsed_IsToldWhereItIsNamed(
        string written,
        string instead,
        int line,
        string message
    )
    {
        var problem = OnlyError(Whole.Replace(written, instead, StringComparison.Ordinal));

        Assert.Equal(line, problem.Line);
        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("  cassette: cassette-9\n", "", "cogs.teeth")]
    [InlineData("  rings: rings-3\n", "", "rings")]
    [InlineData("  frame: frame-a\n", "", "frame")]
    public void WhatNoPartGives_IsMissing(string written, string instead, string field) =>
        Assert.Contains(
            SpecReader
                .Read(
                    Whole.Replace(written, instead, StringComparison.Ordinal),
                    "bike.yaml",
                    Library
                )
                .Problems,
            p => p.Field == field && p.Message.Contains("is missing", StringComparison.Ordinal)
        );

    [Fact]
    public void SpecOfParts_WrittenAndRead_StaysOfParts()
    {
        var spec = Read(Whole);

        var text = SpecWriter.Write(spec);
        var back = Read(text);

        Assert.Contains("  cassette: cassette-9\n", text, StringComparison.Ordinal);
        Assert.Contains(
            "# cogs.spacing: 4.34 mm, from part cassette-9",
            text,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("\nrings:", text, StringComparison.Ordinal);
        Assert.DoesNotContain("class:", text, StringComparison.Ordinal);
        Assert.Equal([], SpecLeaves.Differences(SpecLeaves.Of(spec), SpecLeaves.Of(back)).ToList());
        Assert.Equal(spec.FromParts, back.FromParts);
        Assert.Equal(spec.Drivetrain.Assumptions, back.Drivetrain.Assumptions);
    }

    [Fact]
    public void ChangedValueOfAPart_Written_IsNotLost()
    {
        var spec = Read(Whole);
        var changed = spec with
        {
            Drivetrain = spec.Drivetrain with
            {
                Rings = [.. spec.Drivetrain.Rings.Select(r => r with { Teeth = r.Teeth - 2 })],
                Cogs = spec.Drivetrain.Cogs with { SpacingMm = 4.5 },
            },
        };

        var back = Read(SpecWriter.Write(changed));

        Assert.Equal([46, 34, 24], back.Drivetrain.Rings.Select(r => r.Teeth));
        Assert.Equal(4.5, back.Drivetrain.Cogs.SpacingMm);
    }

    [Fact]
    public void Sheet_OfPartsAlone_SaysWhichPartEachValueComesFrom()
    {
        var sheet = SpecSheet.Read(Whole, "bike.yaml").Sheet!;
        var field = SheetFields.Of(sheet, parts: Library).Find("cogs.spacing")!;

        Assert.Equal(ValueOrigin.Part, field.Origin);
        Assert.Equal("Part cassette-9", field.From);
        Assert.Equal("4.34 mm", field.InForce);
        Assert.NotNull(sheet.Check(Library).Spec);
    }

    [Fact]
    public void BuildOf_SpecWithoutParts_StandsInWithWhatItGives()
    {
        var build = SpecParts.BuildOf(DemoSpecTests.Read("touring-3x9-cable.yaml"));

        Assert.All(build.Parts, part => Assert.Empty(part.Id));
        Assert.Equal(
            [11, 13, 15, 17, 20, 23, 26, 30, 34],
            build[PartKind.Cassette]!.Numbers(PartFields.Teeth)
        );
        // Source: 4.34 mm from cog to cog with 9 cogs, common practice; said as assumed.
        Assert.Equal(4.34, build[PartKind.Cassette]!.Number(PartFields.Spacing));
        Assert.Equal([PartFields.Spacing], build[PartKind.Cassette]!.Assumed);
        Assert.Equal(135, build[PartKind.RearWheel]!.Number(PartFields.HubSpacing));
        Assert.Equal([26, 36, 48], build[PartKind.Rings]!.Numbers(PartFields.Teeth));
        Assert.Equal(1.7, build[PartKind.RearDerailleur]!.Number(PartFields.ShiftRatio));
        Assert.Equal(8, build[PartKind.RearShifter]!.Numbers(PartFields.Pull).Length);
        Assert.Equal(9, build[PartKind.RearShifter]!.Number(PartFields.Speeds));
        Assert.NotNull(build[PartKind.FrontDerailleur]);
        Assert.NotNull(build[PartKind.Hanger]);
        Assert.Null(build[PartKind.Chain]);
        Assert.Null(build[PartKind.BottomBracket]);
    }

    [Fact]
    public void BuildOf_MeasuredPulleys_KnowsTheCageLength()
    {
        var build = SpecParts.BuildOf(DemoSpecTests.Read("model-example.yaml"));

        Assert.InRange(
            build[PartKind.RearDerailleur]!.Number(PartFields.CageLength)!.Value,
            40,
            110
        );
        var assumed = SpecParts.BuildOf(DemoSpecTests.Read("trail-1x12.yaml"));
        Assert.Null(assumed[PartKind.RearDerailleur]!.Number(PartFields.CageLength));
        // Measured on the bike, whatever the wheel's sheet says.
        var measured = SpecParts.BuildOf(DemoSpecTests.Read("road-2x12-wireless.yaml"));
        Assert.Equal(17, measured[PartKind.RearWheel]!.Number(PartFields.FlangeLateral));
        Assert.Equal(22, measured[PartKind.RearWheel]!.Number(PartFields.FlangeRadius));
    }

    [Fact]
    public void BuildOf_NamedParts_KeepsThemAndStandsInForTheRest()
    {
        var build = SpecParts.BuildOf(
            Read(
                """
                name: Alder
                parts: {cassette: cassette-9}
                frame: {class: touring}
                hanger: {class: mountain}
                rings: [40]
                chain: {width: 6.6}
                rearDerailleur: {class: touring-long}
                """
            )
        );

        Assert.Equal("cassette-9", build[PartKind.Cassette]!.Id);
        Assert.Equal("the chain in the spec", build[PartKind.Chain]!.Name);
        Assert.Equal([40], build[PartKind.Rings]!.Numbers(PartFields.Teeth));
    }
}
