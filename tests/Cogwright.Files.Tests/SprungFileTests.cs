using Cogwright.Drivetrain;

namespace Cogwright.Files.Tests;

/// <summary>Sprung mount and damper in files: every field, both ways, and what cannot be.</summary>
public sealed class SprungFileTests
{
    private const double PerDegree = Math.PI / 180;

    private static readonly string Whole = Repository.Text(
        "testdata/formats/v1/touring-2x9-sprung.yaml"
    );

    [Fact]
    public void FormatV1_SprungTourer_ReadsWithItsFigures()
    {
        var reading = SpecReader.Read(Whole, "touring-2x9-sprung.yaml");

        Assert.Empty(reading.Problems);
        AssertIsWhole(reading.Spec!.Drivetrain);
    }

    [Fact]
    public void SprungTourer_WrittenAndRead_IsTheSame()
    {
        var text = SpecWriter.Write(SpecReader.Read(Whole, "").Spec!);

        AssertIsWhole(SpecReader.Read(text, "").Spec!.Drivetrain);
    }

    [Fact]
    public void Damper_Off_ResistsNothing()
    {
        var spec = Read(Whole.Replace("state: on", "state: off", StringComparison.Ordinal));

        Assert.Equal(new Damper(0.25, On: false), spec.RearDerailleur!.Cage.Damper);
        Assert.Equal(0, spec.RearDerailleur.Cage.FrictionNm);
        Assert.True(spec.RearDerailleur.Cage.HasDamper);
    }

    [Fact]
    public void Damper_StateLeftOut_IsOn()
    {
        var spec = Read(Whole.Replace("      state: on\n", "", StringComparison.Ordinal));

        Assert.Equal(new Damper(0.25), spec.RearDerailleur!.Cage.Damper);
    }

    [Theory]
    [InlineData("    preload: 1.1", "    # none: 1.1", "rearDerailleur.sprung.preload")]
    [InlineData("forwardLimit: 45", "forwardLimit: -20", "rearDerailleur.sprung.forwardLimit")]
    [InlineData("torquePerTurn: 0.08", "perTurn: 0.08", "rearDerailleur.sprung.perTurn")]
    public void Sprung_FieldThatCannotBe_IsNamed(string from, string to, string field)
    {
        var reading = SpecReader.Read(Whole.Replace(from, to, StringComparison.Ordinal), "");

        Assert.Equal(field, Assert.Single(reading.Problems).Field);
    }

    /// <summary>The demo balances in every gear that its rider may use, and its gap is the one asked for, within a turn or two.</summary>
    [Fact]
    public void SprungDemo_Solved_BalancesInEveryGear()
    {
        var choice = ChainChooser.Choose(DemoSpecTests.Read("touring-2x9-sprung.yaml").Drivetrain);

        Assert.Equal(ChainChoiceStatus.ServesAll, choice.Status);
        Assert.All(choice.Table!.Gears, gear => Assert.Equal(BodyRest.Balanced, gear.BodyRest));
        Assert.InRange(choice.Table.Find(new(30, 34))!.Value.GapMm, 6, 10);
    }

    private static DrivetrainSpec Read(string text) => SpecReader.Read(text, "").Spec!.Drivetrain;

    private static void AssertIsWhole(DrivetrainSpec spec)
    {
        var mount = spec.RearDerailleur!.Sprung!;
        Assert.Equal(-4 * PerDegree, mount.RearRestRad, 15);
        Assert.Equal(45 * PerDegree, mount.ForwardLimitRad, 15);
        Assert.Equal(1.1, mount.PreloadNm, 15);
        Assert.Equal(1.3, mount.RateNmPerRad, 12);
        Assert.Equal(0.08, mount.ScrewNmPerTurn);
        Assert.Null(mount.ScrewRadPerTurn);
        Assert.Equal(new Damper(0.25), spec.RearDerailleur.Cage.Damper);
        Assert.Equal(0.25, spec.RearDerailleur.Cage.FrictionNm);
    }
}
