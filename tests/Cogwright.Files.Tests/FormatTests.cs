using System.Text.RegularExpressions;
using Cogwright.Drivetrain;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files.Tests;

/// <summary>Files of every format version ever written must load for ever, with the same figures.</summary>
public sealed partial class FormatTests
{
    [Theory]
    [InlineData("parts.yaml")]
    [InlineData("parts.csv")]
    public void FormatV1_Parts_ReadWithTheirFigures(string name)
    {
        var reading = PartsReader.Read(Repository.Text("testdata/formats/v1/" + name), name);

        Assert.Empty(reading.Problems);
        Assert.Equal(["alder-9", "marsh-long", "link-9"], reading.Parts.Select(p => p.Id));
        var cassette = reading.Parts[0];
        Assert.Equal("Alder 9, \"wide\"", cassette.Name);
        Assert.Equal("Osmead Cogs", cassette.Maker);
        Assert.Equal(4, cassette.InStock);
        Assert.Equal("spline-35", cassette.Tag(PartFields.HubDriver));
        Assert.Equal([11, 13, 15, 17, 20, 23, 26, 30, 34], cassette.Numbers(PartFields.Teeth));
        Assert.Equal(4.34, cassette.Number(PartFields.Spacing));
        Assert.Equal(1.7, reading.Parts[1].Number(PartFields.ShiftRatio));
        Assert.Equal("touring-long", reading.Parts[1].SpecValues["rearDerailleur.class"]);
        Assert.Equal(["even", "wide-narrow"], reading.Parts[2].Tags(PartFields.ToothForms));
    }

    [Fact]
    public void FormatV1_BikeOfParts_ReadsWithWhatTheyGive()
    {
        var parts = PartsReader
            .Read(Repository.Text("testdata/formats/v1/parts.yaml"), "parts.yaml")
            .Parts;
        var reading = SpecReader.Read(
            Repository.Text("testdata/formats/v1/bike-of-parts.yaml"),
            "bike-of-parts.yaml",
            new PartLibrary(parts)
        );

        Assert.Empty(reading.Problems);
        Assert.Equal(9, reading.Spec!.Drivetrain.Cogs.Teeth.Length);
        Assert.Equal(4.34, reading.Spec.Drivetrain.Cogs.SpacingMm);
        Assert.Equal(6.6, reading.Spec.Drivetrain.Lateral!.ChainWidthMm);
    }

    [Fact]
    public void FormatV1_ModelExample_ReadsWithItsFigures()
    {
        var reading = SpecReader.Read(
            Repository.Text("testdata/formats/v1/model-example.yaml"),
            "model-example.yaml"
        );

        Assert.Empty(reading.Problems);
        var spec = reading.Spec!.Drivetrain;
        Assert.Equal("Worked example 2×12", spec.Name);
        Assert.Equal(410, spec.Frame.ChainstayMm);
        Assert.Equal(70, spec.Frame.BottomBracketDropMm);
        Assert.Equal(new Point(-8, -28), spec.Hanger!.OffsetMm);
        Assert.Equal([new Ring(50, 47), new Ring(34, 40)], spec.Rings);
        Assert.Equal([11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30, 34], spec.Cogs.Teeth);
        Assert.Equal(64.3, spec.Cogs.SmallestLateralMm);
        Assert.Equal(3.6, spec.Cogs.SpacingMm);
        Assert.Equal(110, spec.Chain.Pitches);
        var derailleur = spec.RearDerailleur!;
        Assert.Equal(15.5 * Math.PI / 180, derailleur.BodyAngleRad, 15);
        Assert.Equal(new Point(-24.5, -24.7), derailleur.UpperPivotMm);
        Assert.Equal(57.8, derailleur.LinkLengthMm);
        Assert.Equal(-47 * Math.PI / 180, derailleur.LinkAngleRad, 15);
        Assert.Equal(52 * Math.PI / 180, derailleur.SlantRad, 15);
        Assert.Equal(44.5, derailleur.GuideLateralAtZeroMm);
        Assert.Equal(new CagePulley(new Point(-10.8, 1), 12), derailleur.Cage.Guide);
        Assert.Equal(new CagePulley(new Point(-4, -74), 12), derailleur.Cage.Tension);
        Assert.Equal(-100 * Math.PI / 180, derailleur.Cage.RearStopRad, 15);
        Assert.Equal(62 * Math.PI / 180, derailleur.Cage.FrontStopRad, 15);
        Assert.Equal(0.7, derailleur.BodyAngleScrew!.ThreadPitchMm);
        Assert.Empty(spec.Assumptions);
    }

    [Fact]
    public void FormatV1_TouringCable_ReadsItsShifting()
    {
        var reading = SpecReader.Read(
            Repository.Text("testdata/formats/v1/touring-3x9-cable.yaml"),
            "touring-3x9-cable.yaml"
        );

        Assert.NotNull(reading.Spec);
        var spec = reading.Spec.Drivetrain;
        Assert.Equal(HangerMaterial.Steel, spec.Hanger!.Material);
        Assert.Equal([2.6, 2.5, 2.5, 2.5, 2.5, 2.6, 2.6, 2.6], spec.Shifting!.PullMm);
        Assert.Equal(1.7, spec.Shifting.ShiftRatio);
        Assert.Equal(
            [Moves.CableLength, Moves.RearOutboardStop, Moves.RearInboardStop],
            spec.Adjusters.Select(a => a.Moves)
        );
        Assert.Equal(0.8, spec.Adjusters[0].ThreadPitchMm);
        Assert.Equal(4, spec.Adjusters[0].ClicksPerTurn);
        Assert.Equal(13, spec.Adjusters[1].LeverRadiusMm);
    }

    [Fact]
    public void FormatV1_OnTheAxle_ReadsItsMount()
    {
        var reading = SpecReader.Read(
            Repository.Text("testdata/formats/v1/trail-1x12-coaxial.yaml"),
            "trail-1x12-coaxial.yaml"
        );

        Assert.NotNull(reading.Spec);
        var spec = reading.Spec.Drivetrain;
        Assert.Null(spec.Hanger);
        var mount = spec.RearDerailleur!.Coaxial!;
        Assert.Equal(21, mount.SetUpCogTeeth);
        Assert.Null(mount.SetUpRingTeeth);
        Assert.Equal(-2 * Math.PI / 180, mount.CageAtSetUpRad, 15);
        Assert.Equal(-35 * Math.PI / 180, mount.BodyRange!.Value.LeastRad, 15);
        Assert.Equal(30 * Math.PI / 180, mount.BodyRange.Value.MostRad, 15);
        Assert.False(spec.RearDerailleur.RestsInboard);
    }

    [Fact]
    public void FormatV1_AtRestInboard_ReadsItsSense()
    {
        var reading = SpecReader.Read(
            Repository.Text("testdata/formats/v1/commuter-1x8-rests-inboard.yaml"),
            "commuter-1x8-rests-inboard.yaml"
        );

        Assert.NotNull(reading.Spec);
        Assert.True(reading.Spec.Drivetrain.RearDerailleur!.RestsInboard);
        Assert.Equal([2.8, 2.8, 2.8, 2.9, 2.8, 2.8, 2.8], reading.Spec.Drivetrain.Shifting!.PullMm);
    }

    [Fact]
    public void FormatV1_Readings_ReadWithTheirGaugesAndPlaces()
    {
        var reading = ReadingsReader.Read(
            Repository.Text("testdata/formats/v1/readings.yaml"),
            "readings.yaml"
        );

        Assert.Empty(reading.Problems);
        var file = reading.File!;
        Assert.Equal(
            [("rim gauge", 0.5, 0.2, "mm"), ("caliper", 0.01, 0.05, "mm")],
            file.Gauges.Select(g =>
                (g.Name, g.Resolution!.Value, g.StandardUncertainty!.Value, g.Unit)
            )
        );
        Assert.Equal(13, file.Readings.Length);
        var up = file.Readings[6];
        Assert.Equal(
            ("index-up", 36, 13, 0.55, "mm", "caliper"),
            (up.Quantity, up.RingTeeth, up.CogTeeth, up.Value, up.Unit, up.Gauge)
        );
        Assert.Equal(
            ("inboard-overshoot", 1.8),
            (file.Readings[^1].Quantity, file.Readings[^1].Value)
        );
    }

    [Fact]
    public void FormatV1_Procedure_HoldsEveryField()
    {
        var written = ProcedureReader
            .Read(Repository.Text("testdata/formats/v1/procedure.yaml"), "procedure.yaml")
            .Places.Keys.Select(path => Index().Replace(path, "[]"))
            .ToHashSet();

        Assert.All(
            FieldTable.Walk(ProcedureFields.Procedure),
            row => Assert.Contains(row.Path, written)
        );
    }

    [GeneratedRegex(@"\[\d+\]")]
    private static partial Regex Index();

    [Fact]
    public void FormatV1_Procedure_ReadsItsSteps()
    {
        var reading = ProcedureReader.Read(
            Repository.Text("testdata/formats/v1/procedure.yaml"),
            "procedure.yaml"
        );

        Assert.Empty(reading.Problems);
        var steps = reading.Procedure!.Steps;
        Assert.Equal(
            ["battery-out", "mount", "rough", "read", "prove", "largest", "gap", "again"],
            steps.Select(step => step.Id)
        );
        Assert.Equal(1.5, steps[6].TimerMinutes);
        Assert.Equal("gapTarget", steps[6].Check!.Target!.Print());
        Assert.Equal("8 N·m", steps[1].Torque!.Least!.Print());
        Assert.Equal(
            ["drive-battery-out", "inboard-stop-proven-by-hand", "hanger-read"],
            steps[5].BlockedUntil
        );
        Assert.Equal("turn-cranks", steps[5].Hazards[0].Act);
        Assert.Equal("largest", steps[4].Hazards[0].About);
        Assert.Equal(["stops-backed-off"], steps[4].Clears);
    }
}
