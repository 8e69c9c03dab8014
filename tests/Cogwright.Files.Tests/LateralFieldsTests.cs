using Cogwright.Drivetrain;

namespace Cogwright.Files.Tests;

/// <summary>Lateral positions from hub, cassette, crank and stop figures; a measured position always wins.</summary>
public sealed class LateralFieldsTests
{
    private const double ExactMm = 1e-9;

    private static DrivetrainSpec Read(
        string cogs,
        string more = "",
        string rings = "[50, 34]",
        string derailleur = ""
    )
    {
        var reading = SpecReader.Read(Text(cogs, more, rings, derailleur), "bike.yaml");
        Assert.DoesNotContain(reading.Problems, p => p.IsError);
        return reading.Spec!.Drivetrain;
    }

    private static string Text(string cogs, string more, string rings, string derailleur) =>
        $$"""
            name: Hesby
            frame: {class: road-race}
            hanger: {class: road}
            rings: {{rings}}
            cogs: {teeth: 11-12-13-14-15-17-19-21-24-27-30-34{{cogs}} }
            rearDerailleur: {class: road-medium{{derailleur}} }
            {{more}}
            """;

    private static bool IsAssumed(DrivetrainSpec spec, string path) =>
        spec.Assumptions.Any(a => a.Path == path);

    [Theory]
    [InlineData(130, 61.4)]
    [InlineData(135, 63.9)]
    [InlineData(142, 63.9)]
    [InlineData(148, 66.9)]
    public void SmallestCog_FromHubAlone_IsCommonPracticeAndToldAsAssumed(int hub, double lateral)
    {
        var spec = Read($", hubSpacing: {hub}");
        Assert.Equal(lateral, spec.Cogs.SmallestLateralMm, ExactMm);
        Assert.True(IsAssumed(spec, "cogs.smallestLateral"));
    }

    [Fact]
    public void SmallestCog_FromFullHubFigures_IsNoAssumption()
    {
        var spec = Read(", hubSpacing: 142, recess: 0, locknutGap: 3.1, thickness: 1.6");
        Assert.Equal(71 - 3.1 - 0.8, spec.Cogs.SmallestLateralMm, ExactMm);
        Assert.False(IsAssumed(spec, "cogs.smallestLateral"));
    }

    [Fact]
    public void Cogs_FromStackAndChainline_StandRoundTheChainline()
    {
        var spec = Read(", stackWidth: 41.3, thickness: 1.6, chainline: \"1.75 in\"");
        Assert.Equal((41.3 - 1.6) / 11, spec.Cogs.SpacingMm, ExactMm);
        Assert.Equal(1.75 * 25.4, (spec.Cogs.LateralMm(0) + spec.Cogs.LateralMm(11)) / 2, ExactMm);
        Assert.False(IsAssumed(spec, "cogs.smallestLateral"));
        Assert.False(IsAssumed(spec, "cogs.spacing"));
    }

    [Fact]
    public void SmallestCog_Measured_WinsOverEverything() =>
        Assert.Equal(
            65,
            Read(", hubSpacing: 148, chainline: 40, smallestLateral: 65").Cogs.SmallestLateralMm
        );

    [Fact]
    public void Rings_FromChainline_StandRoundItAndTheLargestOutermost()
    {
        var spec = Read("", "crank: {chainline: 44.5, ringSpacing: 7.2}", "[34, 50]");
        Assert.Equal(44.5 - 3.6, spec.Rings[0].LateralMm, ExactMm);
        Assert.Equal(44.5 + 3.6, spec.Rings[1].LateralMm, ExactMm);
        Assert.False(IsAssumed(spec, "rings[0].lateral"));
        Assert.True(IsAssumed(Read("", "crank: {chainline: 44.5}"), "rings[0].lateral"));
    }

    [Theory]
    [InlineData(", inboardStopOvershoot: 0.8", RearStop.Inboard, 0.8)]
    [InlineData(", outboardStopOvershoot: \"0.02 in\"", RearStop.Outboard, 0.508)]
    [InlineData(", outboardStopLateral: 65", RearStop.Outboard, 1.1)]
    public void Stop_ByPosition_StandsThere(string field, RearStop stop, double overshoot) =>
        Assert.Equal(
            overshoot,
            StopReach.Of(Read("", derailleur: field), stop)!.OvershootMm,
            ExactMm
        );

    [Theory]
    [InlineData(
        ", inboardStop: 35, inboardStopLateral: 24",
        "rearDerailleur.inboardStopLateral",
        "more than once"
    )]
    [InlineData(", inboardStopLateral: 2", "rearDerailleur.inboardStopLateral", "reaches from")]
    [InlineData(", cage: {innerFace: 90}", "rearDerailleur.cage.innerFace", "expected")]
    public void Stop_ThatCannotBe_IsToldAtItsField(string field, string path, string words)
    {
        var reading = SpecReader.Read(Text("", "", "[50, 34]", field), "bike.yaml");
        Assert.Null(reading.Spec);
        var problem = Assert.Single(reading.Problems, p => p.IsError);
        Assert.Equal(path, problem.Field);
        Assert.Contains(words, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Wheel_InInches_IsReadInMillimetresAndTheRimTakenAsCentred()
    {
        var spec = Read("", "wheel: {flangeLateral: 0.7 in, flangeRadius: 2.2 cm, rimRadius: 298}");
        var spokes = spec.Lateral!.Spokes!;
        Assert.Equal(17.78, spokes.FlangeLateralMm!.Value, ExactMm);
        Assert.Equal(22, spokes.FlangeRadiusMm!.Value, ExactMm);
        Assert.Equal(0, spokes.RimLateralMm);
        Assert.True(IsAssumed(spec, "wheel.rimLateral"));
    }

    [Fact]
    public void Written_LateralSpec_ReadsBackTheSameWithItsAssumptions()
    {
        var text = Text(
            ", hubSpacing: 148, locknutGap: 3",
            "wheel: {flangeLateral: 17, flangeRadius: 22, rimRadius: 298}\ncrank: {chainline: 44, ringThickness: 2.2}",
            "[50, 34]",
            ", inboardStopOvershoot: 0.7, cage: {innerFace: 4.8, reach: 20}"
        );
        var first = SpecReader.Read(text, "bike.yaml").Spec!;
        var again = SpecReader.Read(SpecWriter.Write(first), "bike.yaml").Spec!;
        Assert.Equal(first.Drivetrain.Lateral, again.Drivetrain.Lateral);
        Assert.Equal(
            first.Drivetrain.Cogs.SmallestLateralMm,
            again.Drivetrain.Cogs.SmallestLateralMm
        );
        Assert.Equal(first.Drivetrain.Rings, again.Drivetrain.Rings);
        Assert.Equal(
            first.Drivetrain.RearDerailleur!.InboardStopRad,
            again.Drivetrain.RearDerailleur!.InboardStopRad
        );
        Assert.Equal(first.Drivetrain.Assumptions, again.Drivetrain.Assumptions);
    }
}
