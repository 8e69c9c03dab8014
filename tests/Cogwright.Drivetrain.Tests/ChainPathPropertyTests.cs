using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>What must hold of every chain path, whatever the numbers.</summary>
public class ChainPathPropertyTests
{
    private const double Rounding = 1e-9;

    /// <summary>Two to five sprockets with any senses, spread so far that no two overlap.</summary>
    private static readonly Gen<OrientedSprocket[]> Layouts = Gen.Select(
            Gen.Int[9, 53],
            Gen.Double[-60, 60],
            Gen.Double[-60, 60],
            Gen.Bool
        )
        .Array[2, 5]
        .Select(rows =>
            rows.Select(
                    (r, i) =>
                        new OrientedSprocket(
                            new Point(500, 0).Turned(-i * Math.Tau / rows.Length)
                                + new Point(r.Item2, r.Item3),
                            r.Item1,
                            i > 1 && r.Item4 ? -1 : 1
                        )
                )
                .ToArray()
        );

    [Fact]
    public void ChainPath_MovedAndTurned_IsTheSame()
    {
        var gen = Gen.Select(Layouts, Gen.Double[-Math.PI, Math.PI], Gen.Double[-900, 900]);
        foreach (var (sprockets, angle, shift) in Draws.Of(gen, 500, 20_000, 1))
        {
            OrientedSprocket[] moved =
            [
                .. sprockets.Select(s =>
                    s with
                    {
                        Centre = s.Centre.Turned(angle) + new Point(shift, -shift / 3),
                    }
                ),
            ];
            AssertSame(ChainPath.Round(sprockets), ChainPath.Round(moved), i => i, i => i);
        }
    }

    [Fact]
    public void ChainPath_RunBackwardWithSensesReversed_IsTheSame()
    {
        foreach (var sprockets in Draws.Of(Layouts, 500, 20_000, 2))
        {
            var n = sprockets.Length;
            OrientedSprocket[] backward =
            [
                .. sprockets.Reverse().Select(s => s with { Sense = -s.Sense }),
            ];
            AssertSame(
                ChainPath.Round(sprockets),
                ChainPath.Round(backward),
                i => (n - 2 - i + n) % n,
                i => n - 1 - i
            );
        }
    }

    [Fact]
    public void ChainPath_SeenInAMirror_IsTheSame()
    {
        foreach (var sprockets in Draws.Of(Layouts, 500, 20_000, 3))
        {
            OrientedSprocket[] mirrored =
            [
                .. sprockets.Select(s =>
                    s with
                    {
                        Centre = new(-s.Centre.X, s.Centre.Y),
                        Sense = -s.Sense,
                    }
                ),
            ];
            AssertSame(ChainPath.Round(sprockets), ChainPath.Round(mirrored), i => i, i => i);
        }
    }

    [Fact]
    public void ChainPath_EverythingScaled_TakesTheSamePitches()
    {
        var gen = Gen.Select(Layouts, Gen.Double[0.2, 5]);
        foreach (var (sprockets, scale) in Draws.Of(gen, 500, 20_000, 4))
        {
            OrientedSprocket[] scaled =
            [
                .. sprockets.Select(s =>
                    s with
                    {
                        Centre = new(s.Centre.X * scale, s.Centre.Y * scale),
                    }
                ),
            ];
            var path = ChainPath.Round(sprockets);
            var larger = ChainPath.Round(scaled, Sprocket.PitchMm * scale);
            Assert.Equal(path.Pitches, larger.Pitches, Rounding);
            Assert.Equal(path.Runs[0].LengthMm * scale, larger.Runs[0].LengthMm, 1e-7);
        }
    }

    [Fact]
    public void ChainPath_TwoEqualSprockets_TakesTwiceTheDistanceAndTheTeeth()
    {
        var gen = Gen.Select(Gen.Int[5, 80], Gen.Double[350, 900], Gen.Double[-3, 3]);
        foreach (var (teeth, distance, angle) in Draws.Of(gen, 500, 20_000, 5))
        {
            var path = ChainPath.Round([
                new(new Point(distance, 0).Turned(angle), teeth, 1),
                new(new(0, 0), teeth, 1),
            ]);
            Assert.Equal((2 * distance / Sprocket.PitchMm) + teeth, path.Pitches, Rounding);
        }
    }

    [Fact]
    public void ChainPath_OverlappingNeighbours_NamesBothAndSaysByHowMuch()
    {
        // Same sense: one inside the other; opposite senses: their circles meet.
        var inside = ChainPath.Round([new(new(5, 0), 11, 1), new(new(0, 0), 50, 1)]);
        Assert.False(inside.IsPossible);
        Assert.Equal((0, 1), inside.Overlapping);
        Assert.Equal(
            Sprocket.PitchRadiusMm(50) - Sprocket.PitchRadiusMm(11) - 5,
            inside.OverlapMm,
            1e-9
        );
        var crossed = ChainPath.Round([
            new(new(-400, 0), 11, 1),
            new(new(0, 0), 50, 1),
            new(new(100, -50), 12, -1),
        ]);
        Assert.Equal((1, 2), crossed.Overlapping);
        Assert.Empty(crossed.Runs);
        Assert.Equal(0, crossed.Pitches);
    }

    [Fact]
    public void ChainPath_FewerThanTwoSprocketsOrNoSense_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => ChainPath.Round([new(new(0, 0), 11, 1)]));
        Assert.Throws<ArgumentException>(() =>
            ChainPath.Round([new(new(0, 0), 11, 1), new(new(400, 0), 11, 0)])
        );
    }

    private static void AssertSame(
        ChainPath expected,
        ChainPath actual,
        Func<int, int> run,
        Func<int, int> wrap
    )
    {
        Assert.True(expected.IsPossible);
        Assert.True(actual.IsPossible);
        Assert.Equal(expected.Pitches, actual.Pitches, Rounding);
        for (var i = 0; i < expected.Runs.Length; i++)
        {
            Assert.Equal(expected.Runs[i].LengthMm, actual.Runs[run(i)].LengthMm, 1e-8);
            Assert.Equal(expected.Wraps[i].AngleRad, actual.Wraps[wrap(i)].AngleRad, Rounding);
        }
    }
}
