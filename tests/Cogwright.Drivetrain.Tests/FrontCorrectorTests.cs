using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>What to turn when a front setting is off, held against the arc of the cage itself.</summary>
public sealed class FrontCorrectorTests
{
    private const double PitchMm = 0.5;
    private const double LeverMm = 12;

    private static Adjuster Screw(Moves moves, bool? clockwiseOutboard = null) =>
        new()
        {
            Name = "stop screw",
            Moves = moves,
            ThreadPitchMm = PitchMm,
            LeverRadiusMm = LeverMm,
            ClockwiseOutboard = clockwiseOutboard,
        };

    private static GearTable Bike(params Adjuster[] screws) =>
        FrontExample.Bare(FrontExample.Spec with { Adjusters = [.. screws] });

    /// <summary>Common practice: a stop screw turned in narrows the range, so a gap too small is opened by backing it out.</summary>
    [Theory]
    [InlineData(FrontSettingKind.OuterGap, Moves.FrontOutboardStop)]
    [InlineData(FrontSettingKind.InnerGap, Moves.FrontInboardStop)]
    public void StopScrew_OfAGapTooSmall_IsBackedOut(FrontSettingKind kind, Moves moves)
    {
        var usual = FrontCorrector.Correct(Bike(Screw(moves)), kind, 0)!;
        var reverse = FrontCorrector.Correct(
            Bike(Screw(moves, clockwiseOutboard: moves is Moves.FrontOutboardStop)),
            kind,
            0
        )!;

        Assert.True(usual.Turning!.Turns < 0);
        Assert.Equal(-usual.Turning.Turns, reverse.Turning!.Turns);
        Assert.Contains("anticlockwise", FrontWords.Of(usual), StringComparison.Ordinal);
        Assert.Contains("other way", FrontWords.Of(reverse), StringComparison.Ordinal);
        Assert.DoesNotContain("other way", FrontWords.Of(usual), StringComparison.Ordinal);
    }

    /// <summary>The link really turned by the screw brings what was promised, and every gear of the ring with it.</summary>
    [Fact]
    public void Turns_MadeOnTheLink_BringWhatWasExpected() =>
        Gen.Select(Gen.Double[-0.8, 2.5], Gen.Bool, Gen.Bool)
            .Sample(
                (read, isOuter, isReverse) =>
                {
                    var kind = isOuter ? FrontSettingKind.OuterGap : FrontSettingKind.InnerGap;
                    var moves = FrontCorrector.MovedBy(kind);
                    var clockwiseOutboard = isOuter == isReverse;
                    var table = Bike(Screw(moves, clockwiseOutboard));
                    var correction = FrontCorrector.Correct(table, kind, read)!;
                    var wanted = FrontPractice.Range(kind);

                    // Where the cage stands by the reading, on its link.
                    var setting = FrontClearances.Of(table)!.SettingOf(kind)!.Value;
                    var ring = setting.Gear.RingTeeth;
                    var stands =
                        FrontClearances
                            .Of(table)!
                            .Positions.First(p => p.RingTeeth == ring)
                            .LateralMm + ((isOuter ? 1 : -1) * (read - setting.GapMm));
                    const double zero = 47 - 6 - 0.5;
                    var pivot = zero - (30 * Math.Cos(Example.Rad(-80)));
                    var angle = -Math.Acos((stands - pivot) / 30);
                    // Hanging down, the cage goes outboard as the link turns anticlockwise.
                    var turned =
                        angle
                        + (
                            (clockwiseOutboard ? 1 : -1)
                            * correction.Turning!.Turns
                            * PitchMm
                            / LeverMm
                        );
                    var moved = pivot + (30 * Math.Cos(turned)) - stands;
                    var gap = read + ((isOuter ? 1 : -1) * moved);

                    // A turn's effect is taken where the screw stands; over two turns the arc bends by some hundredths.
                    Assert.Equal(gap, correction.ExpectedMm!.Value, 0.06);
                    Assert.InRange(
                        correction.ExpectedMm.Value,
                        wanted.LowerMm - 0.2,
                        wanted.UpperMm + 0.2
                    );
                    Assert.Equal(
                        correction.ExpectedMm.Value,
                        correction.After!.SettingOf(kind)!.Value.GapMm,
                        1e-9
                    );
                },
                iter: 300,
                seed: "0000KGFbTqXc"
            );

    [Fact]
    public void Gap_WithinItsBounds_IsLeftAlone()
    {
        var correction = FrontCorrector.Correct(
            Bike(Screw(Moves.FrontOutboardStop)),
            FrontSettingKind.OuterGap,
            0.6
        )!;

        Assert.Equal(CorrectionStatus.LeaveAsIs, correction.Turning!.Status);
        Assert.Equal(0, correction.Turning.Turns);
        Assert.Equal(0.6, correction.ExpectedMm!.Value, 9);
    }

    [Fact]
    public void Screw_NotDescribed_IsTriedByHalfATurn()
    {
        var correction = FrontCorrector.Correct(Bike(), FrontSettingKind.OuterGap, 1.4)!;

        Assert.Equal(CorrectionStatus.TryHalfTurn, correction.Turning!.Status);
        Assert.Equal(0.5, correction.Turning.Turns);
        Assert.Null(correction.ExpectedMm);
        Assert.Null(correction.After);
        Assert.Contains("measure again", FrontWords.Of(correction), StringComparison.Ordinal);
    }

    [Fact]
    public void Height_WithoutAScrew_IsSlidAtTheClamp()
    {
        var correction = FrontCorrector.Correct(Bike(), FrontSettingKind.Height, 3.5)!;

        Assert.Null(correction.Turning);
        Assert.Equal(1.5, correction.ExpectedMm!.Value, 9);
        Assert.Contains("2.0 mm down", FrontWords.Of(correction), StringComparison.Ordinal);
        Assert.Equal(1.5, correction.After!.SettingOf(FrontSettingKind.Height)!.Value.GapMm);
    }

    [Fact]
    public void Height_Lowered_BringsTheBridgeDownInEveryGear()
    {
        var table = Bike();
        var before = FrontClearances.Of(table)!;
        var after = FrontCorrector.Correct(table, FrontSettingKind.Height, 3.5)!.After!;
        var asRead = FrontClearances.Of(
            table with
            {
                Spec = table.Spec with
                {
                    FrontDerailleur = FrontExample.Front with { HeightMm = 3.5 },
                },
            }
        )!;

        Assert.All(
            after.Gears,
            gear =>
                Assert.True(
                    gear.Own!.Value.BridgeMm > asRead.Find(gear.Gear)!.Own!.Value.BridgeMm + 1.9
                )
        );
        Assert.Equal(
            before.Gears[3].Own!.Value.BridgeMm!.Value,
            after.Gears[3].Own!.Value.BridgeMm!.Value,
            9
        );
    }

    [Fact]
    public void Wanted_OfThePart_WinsOverCommonPractice()
    {
        var table = FrontExample.Bare(
            FrontExample.Spec with
            {
                FrontDerailleur = FrontExample.Front with { WantedOuterGap = new(1, 1.4) },
                Adjusters = [Screw(Moves.FrontOutboardStop)],
            }
        );

        Assert.Equal(
            1.2,
            FrontCorrector.Correct(table, FrontSettingKind.OuterGap, 0.5)!.WantedMm,
            9
        );
        Assert.Equal(
            1.2,
            FrontClearances.Of(table)!.SettingOf(FrontSettingKind.OuterGap)!.Value.GapMm,
            9
        );
    }

    /// <summary>The rate is the derivative of the arc, by a central difference.</summary>
    [Theory]
    [InlineData(Moves.FrontOutboardStop, 48, -1)]
    [InlineData(Moves.FrontInboardStop, 42, 1)]
    public void Rate_OfAStopScrew_IsTheSlopeOfTheArc(Moves moves, double stands, int sign)
    {
        var spec = FrontExample.Spec with
        {
            FrontDerailleur = FrontExample.Front with { OutboardStopMm = 48, InboardStopMm = 42 },
        };
        var pivot = 40.5 - (30 * Math.Cos(Example.Rad(-80)));
        var angle = -Math.Acos((stands - pivot) / 30);
        const double h = 1e-5;
        var slope = 30 * (Math.Cos(angle + h) - Math.Cos(angle - h)) / (2 * h) * PitchMm / LeverMm;

        Assert.Equal(sign * slope, AdjusterRate.MmPerTurn(spec, moves, Screw(moves))!.Value, 7);
    }

    /// <summary>Common practice: barrel pitch times cable ratio; slackening lets the front cage go inboard.</summary>
    [Fact]
    public void Rate_OfTheFrontBarrel_IsPitchTimesRatioInboard()
    {
        var spec = FrontExample.Spec with
        {
            FrontDerailleur = FrontExample.Front with { CableRatio = 1.7 },
        };
        var barrel = new Adjuster
        {
            Name = "front barrel adjuster",
            Moves = Moves.FrontCableLength,
            ThreadPitchMm = 0.8,
        };

        Assert.Equal(-1.36, AdjusterRate.MmPerTurn(spec, barrel.Moves, barrel)!.Value, 9);
    }

    [Fact]
    public void Correction_WithoutFrontDerailleur_IsNone() =>
        Assert.Null(
            FrontCorrector.Correct(FrontExample.Bare(Example.Spec), FrontSettingKind.Height, 1)
        );
}
