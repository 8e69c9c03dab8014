using Cogwright.Drivetrain;

namespace Cogwright.Files.Tests;

/// <summary>The front derailleur in files: every field, its class, and what cannot be.</summary>
public sealed class FrontDerailleurFileTests
{
    private static readonly string Whole = Repository.Text(
        "testdata/formats/v1/front-derailleur.yaml"
    );

    [Fact]
    public void FormatV1_FrontDerailleur_ReadsWithItsFigures()
    {
        var reading = SpecReader.Read(Whole, "front-derailleur.yaml");

        Assert.Empty(reading.Problems);
        AssertIsWhole(reading.Spec!.Drivetrain);
    }

    [Fact]
    public void FrontDerailleur_WrittenAndRead_IsTheSame()
    {
        var text = SpecWriter.Write(SpecReader.Read(Whole, "").Spec!);

        AssertIsWhole(SpecReader.Read(text, "").Spec!.Drivetrain);
    }

    [Theory]
    [InlineData("road-double")]
    [InlineData("touring-triple")]
    public void FrontClass_Alone_SuppliesEverythingAndIsMarked(string name)
    {
        var start = Whole.IndexOf("frontDerailleur:", StringComparison.Ordinal);
        var spec = SpecReader
            .Read(Whole[..start] + $"frontDerailleur: {{class: {name}}}\n", "")
            .Spec!.Drivetrain;

        Assert.NotNull(spec.FrontDerailleur);
        Assert.Null(spec.FrontDerailleur.OutboardStopMm);
        Assert.Contains(
            spec.Assumptions,
            a =>
                a.Path == "frontDerailleur.innerPlate.faceRear"
                && a.From == $"{name} front derailleur"
        );
    }

    [Fact]
    public void FrontDerailleur_WithoutClassOrFigures_AsksForThem()
    {
        var reading = SpecReader.Read(
            Whole.Replace("  linkAngle: -78\n", "", StringComparison.Ordinal),
            ""
        );

        var problem = Assert.Single(reading.Problems);
        Assert.Equal("frontDerailleur.linkAngle", problem.Field);
        Assert.Contains("road-double", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FrontTrim_OfNoRing_IsToldAtItsPlace()
    {
        var reading = SpecReader.Read(
            Whole.Replace("{ring: 48, by", "{ring: 50, by", StringComparison.Ordinal),
            ""
        );

        var problem = Assert.Single(reading.Problems);
        Assert.Equal("frontDerailleur.trims[0].ring", problem.Field);
        Assert.True(problem.Line > 1);
    }

    private static void AssertIsWhole(DrivetrainSpec spec)
    {
        var front = spec.FrontDerailleur!;
        Assert.Equal((-96, 4), (front.RearXMm, front.FrontXMm));
        Assert.Equal(new(-8.6, -6.4, 0.9), front.InnerPlate);
        Assert.Equal(new(6.7, 6.4, 1.1), front.OuterPlate);
        Assert.Equal(35, front.LinkLengthMm);
        Assert.Equal(-78 * Math.PI / 180, front.LinkAngleRad, 15);
        Assert.Equal((1.6, 45), (front.HeightMm, front.BridgeBelowMm));
        Assert.Equal((53.2, 42.1), (front.OutboardStopMm, front.InboardStopMm));
        Assert.Equal([new(36, 47.9)], front.Positions);
        Assert.Equal(new(48, -1.2), front.Trims[0]);
        Assert.Equal(1.27, front.Trims[1].ByMm, 12);
        Assert.Equal(1.7, front.CableRatio);
        Assert.Equal(new(0.4, 0.8), front.WantedOuterGap);
        Assert.Equal(new(0.5, 1.5), front.WantedInnerGap);
        Assert.Equal(new(1, 3), front.WantedHeight);
        Assert.Equal(
            [
                Moves.FrontOutboardStop,
                Moves.FrontInboardStop,
                Moves.FrontHeight,
                Moves.FrontCableLength,
                Moves.FrontSupport,
            ],
            spec.Adjusters.Select(adjuster => adjuster.Moves)
        );
        Assert.False(spec.Adjusters[1].ClockwiseOutboard);
    }
}
