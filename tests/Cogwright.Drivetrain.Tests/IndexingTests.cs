using System.Collections.Immutable;
using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Index of all cogs: the trade's products, the best offset against brute force, friction.</summary>
public sealed class IndexingTests
{
    private static DrivetrainSpec With(
        int cogs,
        double spacingMm,
        Shifting shifting,
        double? floatMm = null
    )
    {
        var derailleur = Example.Spec.RearDerailleur!;
        return Example.Spec with
        {
            Cogs = new()
            {
                Teeth = [.. Enumerable.Range(11, cogs)],
                SmallestLateralMm = 64,
                SpacingMm = spacingMm,
            },
            RearDerailleur = derailleur with
            {
                Cage = derailleur.Cage with
                {
                    Guide = derailleur.Cage.Guide with { FloatMm = floatMm },
                },
            },
            Shifting = shifting,
        };
    }

    private static Shifting Cable(int clicks, double pullMm, double ratio) =>
        new() { PullMm = [.. Enumerable.Repeat(pullMm, clicks)], ShiftRatio = ratio };

    /// <summary>
    /// Pull × ratio = pitch, by family (common practice, from the trade's tables of pulls, ratios and cog pitches; the
    /// figures are rounded to a tenth, so a click agrees within 0.15 mm).
    /// </summary>
    [Theory]
    [InlineData(7, 2.9, 1.7, 5.0)]
    [InlineData(8, 2.8, 1.7, 4.8)]
    [InlineData(9, 2.55, 1.7, 4.34)]
    [InlineData(10, 2.3, 1.7, 3.95)]
    [InlineData(11, 2.7, 1.4, 3.72)]
    [InlineData(7, 4.5, 1.11, 5.0)]
    [InlineData(8, 4.3, 1.11, 4.8)]
    [InlineData(9, 3.9, 1.11, 4.34)]
    [InlineData(10, 3.4, 1.2, 3.95)]
    [InlineData(10, 3.05, 1.3, 3.95)]
    public void Click_OfAFamilyThatBelongsTogether_IsTheCogPitch(
        int cogs,
        double pullMm,
        double ratio,
        double pitchMm
    )
    {
        var result = Indexing.Of(With(cogs, pitchMm, Cable(cogs - 1, pullMm, ratio)))!;
        Assert.All(result.Cogs.Skip(1), cog => Assert.Equal(pitchMm, cog.ClickMm!.Value, 0.15));
    }

    /// <summary>By hand: 2.8 × 1.7 = 4.76, 0.04 short of 4.8 in each of seven clicks; half of 0.28 at either end.</summary>
    [Fact]
    public void Of_SteadyError_SpreadsItOverBothEnds()
    {
        var result = Indexing.Of(With(8, 4.8, Cable(7, 2.8, 1.7)))!;
        Assert.Equal(0.04, result.SteadyErrorMm, 9);
        Assert.Equal(0.14, result.GreatestResidualMm, 9);
        Assert.Equal(-0.14, result.BestOffsetMm, 9);
        Assert.Equal(-0.14, result.Cogs[0].ResidualMm, 9);
        Assert.Equal(0.14, result.Cogs[^1].ResidualMm, 9);
        Assert.Equal(0.28, result.Cogs[^1].CumulativeErrorMm, 9);
        Assert.Equal(0, result.LeftWithoutSteadyMm, 9);
        Assert.True(result.AllFine);
    }

    /// <summary>The classic mismatch: a pull of 2.3 on a ratio of 1.2 falls short by more than a millimetre at each click.</summary>
    [Fact]
    public void Of_PartsOfTwoFamilies_SaysThatEveryClickIsWrong()
    {
        var result = Indexing.Of(With(10, 3.95, Cable(9, 2.3, 1.2)))!;
        Assert.False(result.AllFine);
        Assert.True(result.IsSteady);
        Assert.Equal(1.19, result.SteadyErrorMm, 9);
        Assert.Equal(5.355, result.GreatestResidualMm, 9);
    }

    [Fact]
    public void Of_OneWrongClick_NamesIt()
    {
        ImmutableArray<double> pull = [2.5, 2.5, 2.5, 2.2, 2.5, 2.5];
        var result = Indexing.Of(With(7, 4.25, new() { PullMm = pull, ShiftRatio = 1.7 }))!;
        Assert.Equal(4, result.WorstClick);
        Assert.Equal(0.51, result.Cogs[4].ClickErrorMm!.Value, 9);
        Assert.False(result.IsSteady);
    }

    [Fact]
    public void Of_MoreClicksThanCogs_CountsWhatIsLeftOver()
    {
        var more = Indexing.Of(With(9, 4.34, Cable(9, 2.3, 1.7)))!;
        Assert.Equal((1, 0), (more.ClicksUnused, more.CogsNotReached));
        var less = Indexing.Of(With(10, 3.95, Cable(8, 2.3, 1.7)))!;
        Assert.Equal((0, 1), (less.ClicksUnused, less.CogsNotReached));
        Assert.False(less.AllFine);
    }

    [Fact]
    public void Of_Float_DecidesWhatIsFine()
    {
        var shifting = Cable(7, 2.7, 1.7);
        Assert.False(Indexing.Of(With(8, 4.8, shifting))!.AllFine);
        Assert.True(Indexing.Of(With(8, 4.8, shifting, floatMm: 1.6))!.AllFine);
    }

    [Fact]
    public void Of_ProgrammedPositions_TellsTheOffsetFromZero()
    {
        var result = Indexing.Of(
            With(3, 4, new() { PositionsMm = [64.5, 60.5, 56.6], OffsetStepMm = 0.25 })
        )!;
        Assert.Equal(-0.55, result.BestOffsetMm, 9);
        Assert.Equal(0.05, result.GreatestResidualMm, 9);
        Assert.False(result.IsCable);
    }

    [Fact]
    public void Of_NothingDescribed_IsNothing() => Assert.Null(Indexing.Of(Example.Spec));

    private static readonly Gen<DrivetrainSpec> Mixed =
        from cogs in Gen.Int[2, 13]
        from spacing in Gen.Double[3.3, 5.5]
        from pull in Gen.Double[2, 4.6].Array[1, 13]
        from ratio in Gen.Double[1, 1.9]
        select With(cogs, spacing, new() { PullMm = [.. pull], ShiftRatio = ratio });

    [Fact]
    public void BestOffset_AgainstBruteForce_IsBeatenByNoOther() =>
        Mixed.Sample(
            spec =>
            {
                var result = Indexing.Of(spec)!;
                var atBest = result.Cogs.Max(c => Math.Abs(c.ResidualMm));
                Assert.Equal(result.GreatestResidualMm, atBest, 9);
                for (var move = -2.0; move <= 2; move += 0.01)
                {
                    Assert.True(
                        result.Cogs.Max(c => Math.Abs(c.ResidualMm + move)) >= atBest - 1e-12
                    );
                }
            },
            iter: 50
        );

    /// <summary>A shift that every cog has alike is indexed away.</summary>
    [Fact]
    public void Of_PulleyMovedAlikeEverywhere_ChangesOffsetOnly() =>
        Gen.Select(Mixed, Gen.Double[-2, 2])
            .Sample(
                (spec, mm) =>
                {
                    var plain = Indexing.Of(spec)!;
                    var moved = Indexing.Of(
                        spec,
                        [.. Enumerable.Repeat(mm, spec.Cogs.Teeth.Length)]
                    )!;
                    Assert.Equal(plain.GreatestResidualMm, moved.GreatestResidualMm, 9);
                    Assert.Equal(plain.BestOffsetMm - mm, moved.BestOffsetMm, 9);
                }
            );

    [Fact]
    public void Friction_LagBothWays_IsTheDifference()
    {
        var spec = With(9, 4.34, Cable(8, 2.55, 1.7));
        var friction = ShiftFriction.Of(
            spec,
            [new(4, 0.5, -0.1), new(1, 0.2, 0.1), new(6, 0.1, null)]
        );
        Assert.Equal(1, friction.Readings[0].CogIndex);
        Assert.Equal(4, friction.Worst!.Value.CogIndex);
        Assert.Equal(0.6, friction.Worst!.Value.DeadBandMm!.Value, 9);
        Assert.Equal(0.2, friction.Worst!.Value.MiddleMm!.Value, 9);
        // A quarter turn of M5 × 0.8 on a ratio of 1.7.
        Assert.Equal(0.34, friction.LimitMm, 9);
    }
}
