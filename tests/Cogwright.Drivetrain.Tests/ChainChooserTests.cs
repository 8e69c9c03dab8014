using CsCheck;
using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The chain choice held against the gear tables on both sides of each of its numbers.</summary>
public class ChainChooserTests
{
    private static DrivetrainSpec Spec => Example.Spec;

    private static readonly Gen<DrivetrainSpec> Bikes = Gen.Select(
            Gen.Double[400, 450],
            Gen.Double[50, 80],
            Gen.Int[0, 8],
            Gen.Int[0, 20],
            Gen.Double[-110, -40],
            Gen.Double[50, 80],
            Gen.Bool
        )
        .Select(
            (stay, drop, fewer, difference, rear, front, single) =>
            {
                var large = 50 - fewer;
                return Spec with
                {
                    Frame = new() { ChainstayMm = stay, BottomBracketDropMm = drop },
                    Rings =
                        single || difference == 0
                            ? [new Ring(large, 45)]
                            : [new Ring(large, 47), new Ring(large - difference, 40)],
                    RearDerailleur = Spec.RearDerailleur! with
                    {
                        Cage = Spec.RearDerailleur!.Cage with
                        {
                            RearStopRad = Rad(rear),
                            FrontStopRad = Rad(front),
                        },
                    },
                };
            }
        );

    [Fact]
    public void Choose_RandomBikes_NumbersAreWhereTheGearTablesTurn()
    {
        var serves = 0;
        var fails = 0;
        foreach (var spec in Draws.Of(Bikes, 120, 3_000, 41))
        {
            Assert.Empty(SpecCheck.Problems(spec));
            var choice = ChainChooser.Choose(spec);
            var leftOut = choice.LeftOut.Select(g => g.Gear).ToHashSet();
            int In(GearState state, int pitches) =>
                GearTableSolver
                    .Solve(spec, pitches)
                    .Gears.Count(g => g.State == state && !leftOut.Contains(g.Gear));
            if (choice.Numbers is not { ShortestSafe: { } shortest, LongestSafe: { } longest })
            {
                continue;
            }
            Assert.Equal(0, shortest % 2);
            Assert.Equal(0, longest % 2);
            Assert.Equal(0, In(GearState.Short, shortest));
            Assert.NotEqual(0, In(GearState.Short, shortest - 2));
            Assert.Equal(0, In(GearState.Slack, longest));
            Assert.NotEqual(0, In(GearState.Slack, longest + 2));
            var recommended = choice.Numbers.Recommended!.Value;
            if (shortest <= longest)
            {
                serves++;
                Assert.InRange(recommended, shortest, longest);
                Assert.Equal(Math.Clamp(choice.Numbers.BenchRule, shortest, longest), recommended);
                Assert.Equal(0, choice.MissingPitches);
                Assert.Empty(choice.LockOut);
            }
            else
            {
                fails++;
                Assert.Equal(ChainChoiceStatus.CannotServeAll, choice.Status);
                Assert.Equal(shortest, recommended);
                Assert.Equal(shortest - longest, choice.MissingPitches);
                // The gears to lock out are those that hang at the length recommended.
                Assert.Equal(In(GearState.Slack, recommended), choice.LockOut.Length);
            }
        }
        Draws.Say($"serves {serves}, cannot {fails}");
        Assert.True(serves > 10, $"{serves}");
        Assert.True(fails > 10, $"{fails}");
    }

    [Fact]
    public void Choose_ChainstayThreeMillimetresOff_IsTheChoiceOfThatBike()
    {
        var choice = ChainChooser.Choose(Spec);
        Assert.Equal([-3.0, 3.0], choice.ChainstaySensitivity.Select(s => s.ChainstayDeltaMm));
        foreach (var moved in choice.ChainstaySensitivity)
        {
            var other = Spec with
            {
                Frame = Spec.Frame with { ChainstayMm = 410 + moved.ChainstayDeltaMm },
            };
            Assert.Equal(
                ChainChooser.Choose(other).Numbers with
                {
                    ChainstayDeltaMm = moved.ChainstayDeltaMm,
                },
                moved
            );
            // 3 mm of stay are 6 mm of chain, nearly half a pitch.
            Assert.Equal(
                2 * moved.ChainstayDeltaMm / 12.7,
                moved.DirectLargestPitches - choice.Numbers.DirectLargestPitches,
                0.01
            );
        }
    }

    [Fact]
    public void Choose_WorkedExample_SaysCapacityAndWhoSetsTheNumbers()
    {
        var choice = ChainChooser.Choose(Spec);
        // (50 − 34) + (34 − 11)
        Assert.Equal(39, choice.CapacityTeeth);
        Assert.Equal(new Gear(50, 34), choice.ShortestSetBy);
        Assert.Equal(new Gear(34, 11), choice.LongestSetBy);
        // Worked example, 34/11: takes 112.0627 and needs 90.1003.
        Assert.Equal((112.0627 - 90.1003) * 12.7, choice.CageTakesMm!.Value, 0.002);
        Assert.Equal(106.76790 - 106, choice.RoundingEdgePitches, 1e-5);
        Assert.True(choice.RoundingEdgeIsBelow);
        Assert.Equal(110, ChainChooser.PitchesFor(Spec, choice));
        Assert.Equal(110, ChainChooser.PitchesFor(Spec with { Chain = new() }, choice));
    }

    [Fact]
    public void Choose_GearNotUsed_StaysInTheTableAndOutOfTheChoice()
    {
        var spec = Spec with { GearsNotUsed = [new(50, 34), new(34, 11)] };
        var choice = ChainChooser.Choose(spec);
        Assert.True(choice.Numbers.ShortestSafe < 110 || choice.Numbers.LongestSafe > 112);
        Assert.NotEqual(new Gear(50, 34), choice.ShortestSetBy);
        Assert.NotEqual(new Gear(34, 11), choice.LongestSetBy);
        Assert.NotNull(choice.Table!.Find(new(50, 34)));
    }

    [Fact]
    public void Choose_CogOutOfReach_IsNamedAndLeftOut()
    {
        var spec = Spec with
        {
            RearDerailleur = Spec.RearDerailleur! with { OutboardStopRad = Rad(-20) },
        };
        var choice = ChainChooser.Choose(spec);
        Assert.Equal(ChainChoiceStatus.CannotServeAll, choice.Status);
        Assert.Contains(choice.LeftOut, g => g.Gear == new Gear(50, 11));
        Assert.All(choice.LeftOut, g => Assert.Equal(Blame.OutboardStop, g.Blame));
        Assert.NotNull(choice.Numbers.Recommended);
    }
}
