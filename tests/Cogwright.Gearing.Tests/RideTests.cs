using CsCheck;

namespace Cogwright.Gearing.Tests;

/// <summary>A ride in sets of gears: against the plain twin, by hand, and what it must never do.</summary>
public class RideTests
{
    private static readonly Rider Usual = new()
    {
        Load = new()
        {
            MassKg = 85,
            DragAreaM2 = 0.4,
            RollingCoefficient = 0.0045,
        },
        Power = PowerPlan.Steady(180),
    };

    private static readonly GearSet Road = new(
        "road",
        [34, 50],
        [11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30, 34]
    );

    private static readonly Tyre RolledOut = Tyre.OfRollOut(2105);

    private static readonly Gen<GearSet> Sets = Gen.Select(
        Gen.Int[22, 54].HashSet[1, 3],
        Gen.Int[10, 46].HashSet[1, 12],
        Gen.Int[0, 1000],
        (rings, cogs, odd) =>
        {
            var set = new GearSet("random", rings, cogs);
            var left = new GearTeeth(
                set.Rings[odd % set.Rings.Length],
                set.Cogs[odd % set.Cogs.Length]
            );
            return set.Count > 1 ? new("random", rings, cogs, [left]) : set;
        }
    );

    [Fact]
    public void Gears_AgainstThePlainTwin_AreTheSame() =>
        Gen.Select(Sets, Gen.Double[0.5, 17].Array[1, 300], Gen.Bool)
            .Sample(
                (set, speeds, avoids) =>
                {
                    var rider = Usual with { AvoidsAcross = avoids };
                    var times = speeds.Select((_, i) => 1 + (0.01 * i)).ToArray();
                    var choice = new GearChoice(rider, set.Count);
                    choice.Load(set, 2.105);
                    var half = speeds.Length / 2;
                    choice.Ride(speeds.AsSpan(0, half), times.AsSpan(0, half));
                    choice.Ride(speeds.AsSpan(half), times.AsSpan(half));

                    var twin = NaiveRide.Of(set, 2.105, rider, speeds, times);

                    Assert.Equal(
                        twin.Seconds.OrderBy(pair => pair.Key).Select(pair => pair.Value),
                        choice.Seconds.ToArray(),
                        (a, b) => Math.Abs(a - b) < 1e-9
                    );
                    Assert.Equal(twin.FrontShifts, choice.FrontShifts);
                    Assert.Equal(twin.RearShifts, choice.RearShifts);
                    Assert.Equal(twin.BelowS, choice.BelowS, 1e-9);
                    Assert.Equal(twin.AboveS, choice.AboveS, 1e-9);
                    Assert.Equal(twin.OffAim, choice.OffAim, 1e-6);
                    Assert.Equal(twin.LowestRpm, choice.LowestRpm, 1e-9);
                }
            );

    [Fact]
    public void Pace_AgainstThePlainTwin_IsTheSame() =>
        Gen.Select(
                Gen.Double[-0.15, 0.15].Array[1, 12],
                Gen.Double[0, 10],
                Gen.Double[-3, 3],
                Gen.Double[40, 400]
            )
            .Sample(
                (gradients, windMs, from, power) =>
                {
                    var road = Route.OfProfile(
                        "random",
                        gradients.Select(gradient => new ProfilePiece(120, gradient))
                    );
                    var rider = Usual with { Power = PowerPlan.Steady(power) };
                    var wind = new Wind(windMs, from);
                    var pace = new RidePace(road, rider, wind);
                    while (pace.Advance(7)) { }

                    var (speeds, times, total) = NaivePace.Of(road, rider, wind);

                    Assert.Equal(total, pace.TotalS, 1e-4 * total);
                    Assert.Equal(speeds.Count, pace.Pedalled);
                    for (var i = 0; i < speeds.Count; i++)
                    {
                        Assert.Equal(speeds[i], pace.PedalledMs[i], 1e-4);
                        Assert.Equal(times[i], pace.PedalledS[i], 1e-3 * times[i]);
                    }
                }
            );

    /// <summary>By hand: an even climb is ridden at its steady speed, in the gear that brings the cadence nearest to 80.</summary>
    [Fact]
    public void EvenClimb_IsRiddenInOneGearAtItsSteadySpeed()
    {
        var result = Study(Question(Route.OfGradient("climb", 0.08, 3000)));
        var speed = RoadPower.SpeedMs(Usual.Load, 180, 0.08);

        Assert.Equal(3000 / speed, result.TotalS, 0.5);
        // 180 W on 8 %: about 9 km/h, 70 rpm in 34/34.
        Assert.Equal(new GearTeeth(34, 34), result.Present.SteepestGear);
        Assert.Equal(speed * 60 / 2.105, result.Present.SteepestLowestRpm!.Value, 0.1);
        Assert.Equal(
            1,
            result.Present.Gears.Single(gear => gear.Teeth == new GearTeeth(34, 34)).Share,
            1e-9
        );
        Assert.Equal(0, result.Present.FrontShifts + result.Present.RearShifts);
        Assert.Equal(0.08, result.Steepest.Gradient, 1e-9);
        Assert.InRange(result.Steepest.Seconds, 60, 85);
    }

    [Fact]
    public void SteepestMinute_IsFoundWhereItIs()
    {
        var road = Route.OfProfile(
            "wall",
            [new(3000, 0.01), new(400, 0.12), new(3000, 0.01), new(30, 0.2), new(500, 0)]
        );
        var result = Study(Question(road));

        // The wall of 30 m is over before a minute is: the climb of 400 m at 12 % is the steepest minute.
        Assert.InRange(result.Steepest.StartM, 3000, 3350);
        Assert.Equal(0.12, result.Steepest.Gradient, 0.002);
        Assert.Equal(new GearTeeth(34, 34), result.Present.SteepestGear);
        Assert.True(result.Present.SteepestLowestRpm < 60);
        Assert.True(result.Present.LowestRpm < result.Present.SteepestLowestRpm + 1e-9);
    }

    [Fact]
    public void SteepestMinute_OfAShortRide_IsAllOfIt()
    {
        var result = Study(Question(Route.OfGradient("short", 0, 100)));

        Assert.Equal(result.TotalS, result.Steepest.Seconds, 1e-9);
        Assert.NotNull(result.Present.SteepestLowestRpm);
    }

    [Fact]
    public void SteepestMinute_DoesNotReachOverAGap()
    {
        // Two climbs of 40 s each with a gap between: neither lasts a minute.
        var track = new Track(
            "gap",
            [
                .. Enumerable.Range(0, 10).Select(i => 47 + (i * 0.0001)),
                .. Enumerable.Range(0, 10).Select(i => 47.3 + (i * 0.0001)),
            ],
            [.. Enumerable.Repeat(8.0, 20)],
            [
                .. Enumerable.Range(0, 10).Select(i => 400 + (i * 0.9)),
                .. Enumerable.Range(0, 10).Select(i => 400 + (i * 0.9)),
            ],
            [0]
        );
        var result = Study(Question(TrackRoad.Of(track)));

        Assert.InRange(result.Steepest.Seconds, 20, 59);
    }

    [Fact]
    public void Shares_AddUpToTheWhole() =>
        Gen.Select(Sets, Gen.Double[-0.1, 0.15].Array[2, 20])
            .Sample(
                (set, gradients) =>
                {
                    var road = Route.OfProfile(
                        "random",
                        gradients.Select(g => new ProfilePiece(300, g))
                    );
                    var result = Study(Question(road) with { Present = set });
                    var present = result.Present;
                    Assert.Equal(
                        result.TotalS,
                        present.PedalledS + result.CoastingS + result.WalkedS,
                        1e-6
                    );
                    if (present.PedalledS > 0)
                    {
                        Assert.Equal(1, present.Gears.Sum(gear => gear.Share), 1e-9);
                        Assert.Equal(1, present.Cogs.Sum(cog => cog.Share), 1e-9);
                        Assert.Equal(1, present.Rings.Sum(ring => ring.Share), 1e-9);
                    }
                    Assert.All(
                        present.Gears.Where(gear => set.NotUsed.Contains(gear.Teeth)),
                        gear => Assert.Equal(0, gear.Seconds)
                    );
                }
            );

    [Fact]
    public void Candidates_WithLowerGears_SuitAClimbBetterByWhatIsTold()
    {
        var question = Question(Route.OfGradient("climb", 0.12, 2000)) with
        {
            Candidates =
            [
                new("same", Road),
                new("higher", new("higher", [39, 53], Road.Cogs)),
                new("lower", new("lower", [26, 42], Road.Cogs)),
            ],
        };
        var result = Study(question);

        Assert.Equal(["lower", "same", "higher"], result.Candidates.Select(c => c.Candidate.Id));
        Assert.Equal([1, 0, -1], result.Candidates.Select(c => c.Suits));
        var lower = result.Candidates[0];
        Assert.Equal(-1, lower.OutsideShareChange, 1e-9);
        // The same speed in a gear lower by 26/34.
        Assert.Equal(
            result.Present.SteepestLowestRpm!.Value * ((34.0 / 26) - 1),
            lower.SteepestLowestRpmChange!.Value,
            1e-6
        );
    }

    [Fact]
    public void Across_IsUsedLess_ByWhoAvoidsIt()
    {
        var road = Route.OfProfile(
            "waves",
            Enumerable.Range(0, 60).Select(i => new ProfilePiece(250, i % 2 == 0 ? 0.06 : -0.02))
        );
        var careless = Study(Question(road)).Present;
        var careful = Study(
            Question(road) with
            {
                Rider = Usual with { AvoidsAcross = true },
            }
        ).Present;

        Assert.True(careless.AcrossS > 0);
        Assert.True(careful.AcrossS < careless.AcrossS);
        Assert.True(careful.FrontShifts >= careless.FrontShifts);
    }

    [Fact]
    public void Descent_IsCoastedAtTheTopSpeed()
    {
        var rider = Usual with { TopSpeedMs = 12 };
        var result = Study(Question(Route.OfGradient("down", -0.08, 5000)) with { Rider = rider });

        Assert.Equal(5000 / 12.0, result.TotalS, 1.0);
        Assert.True(result.CoastingS > 0.9 * result.TotalS);
    }

    [Fact]
    public void Descent_WithoutPowerByTheCurve_IsCoasted()
    {
        var rider = Usual with
        {
            Power = PowerPlan.Curve([new(-0.03, 0), new(0, 180), new(0.06, 240)]),
        };
        Assert.Equal(90, rider.Power.At(-0.015), 1e-9);
        Assert.Equal(210, rider.Power.At(0.03), 1e-9);
        Assert.Equal(240, rider.Power.At(0.2));
        Assert.Equal(0, rider.Power.At(-0.2));

        var result = Study(Question(Route.OfGradient("down", -0.05, 2000)) with { Rider = rider });

        Assert.Equal(result.TotalS, result.CoastingS, 1e-9);
        Assert.Null(result.Present.LowestRpm);
        Assert.Null(result.Present.SteepestLowestRpm);
        Assert.Equal(0, result.Present.OutsideShare);
    }

    /// <summary>By hand: on an even climb in one gear the ends are the steady speeds of the two loads over the two wheels.</summary>
    [Fact]
    public void Spread_OnAnEvenClimb_IsThatOfTheTwoLoads()
    {
        var question = Question(Route.OfGradient("climb", 0.12, 3000)) with
        {
            Tyre = Tyre.OfSize(28, 622),
        };
        var easier = Usual.Load with { DragAreaM2 = 0.3, RollingCoefficient = 0.003 };
        var harder = Usual.Load with { DragAreaM2 = 0.5, RollingCoefficient = 0.006 };

        var spread = RideSpread.OnSteepestMinute(
            question,
            easier,
            harder,
            TestContext.Current.CancellationToken
        )!;

        Assert.Equal(
            RoadPower.SpeedMs(easier, 180, 0.12) * 60 / question.Tyre.LeastM,
            spread.MostRpm,
            0.01
        );
        Assert.Equal(
            RoadPower.SpeedMs(harder, 180, 0.12) * 60 / question.Tyre.MostM,
            spread.LeastRpm,
            0.01
        );
    }

    /// <summary>
    /// Where lower gears are left the lowest cadence is one before a shift and says little; what the lowest gear gives does.
    /// </summary>
    [Fact]
    public void SteepestMinute_WhereLowerGearsAreLeft_TellsWhatTheLowestGives()
    {
        var question = Question(Route.OfProfile("two", [new(2000, -0.01), new(3000, 0.05)]));
        var result = Study(question);
        var present = result.Present;

        Assert.InRange(present.SteepestLowestRpm!.Value, 60, 65);
        Assert.NotEqual(new(34, 34), present.SteepestGear);
        Assert.Equal(new(34, 34), present.LowestGear);
        Assert.Equal(
            result.Steepest.SlowestMs!.Value * 60 / 2.105,
            present.SteepestInLowestGearRpm!.Value,
            1e-9
        );
        Assert.True(present.SteepestInLowestGearRpm > 80);

        var spread = RideSpread.OnSteepestMinute(
            question,
            Usual.Load with
            {
                DragAreaM2 = 0.3,
                RollingCoefficient = 0.003,
            },
            Usual.Load with
            {
                DragAreaM2 = 0.5,
                RollingCoefficient = 0.006,
            },
            TestContext.Current.CancellationToken
        )!;
        Assert.InRange(present.SteepestInLowestGearRpm.Value, spread.LeastRpm, spread.MostRpm);
        Assert.True(spread.MostRpm < 1.5 * spread.LeastRpm);
    }

    [Fact]
    public void HeldPower_IsThatForTheTimeOfTheRoad()
    {
        var held = HeldPower.Of([new(3600, 220), new(300, 300), new(1200, 250)]);
        var road = Route.OfGradient("climb", 0.07, 8000);

        var watts = held.On(road, Usual, default, TestContext.Current.CancellationToken);

        var result = Study(
            Question(road) with
            {
                Rider = Usual with { Power = PowerPlan.Steady(watts) },
            }
        );
        Assert.InRange(result.TotalS, 1200, 3600);
        Assert.Equal(held.At(result.TotalS), watts, 0.1);
        // Half way between 20 and 60 minutes on the logarithm, and level beyond the ends.
        Assert.Equal(235, held.At(Math.Sqrt(1200 * 3600.0)), 1e-9);
        Assert.Equal(300, held.At(10));
        Assert.Equal(220, held.At(99_999));
    }

    /// <summary>Nobody said what can be held for longer than the longest time: what is taken for it is too much, and told.</summary>
    [Fact]
    public void HeldPower_BeyondItsLongestTime_IsToldToBeTooMuch()
    {
        var held = HeldPower.Of([new(300, 300), new(3600, 220)]);

        Assert.Null(held.Beyond(3600));
        var told = held.Beyond(5 * 3600)!;
        Assert.Contains("60 min", told, StringComparison.Ordinal);
        Assert.Contains("300 min", told, StringComparison.Ordinal);
        Assert.Contains("more than can be held", told, StringComparison.Ordinal);
    }

    [Fact]
    public void HeldPower_ThatCannotBe_IsRefused()
    {
        Assert.Throws<ImpossibleInputException>(() => HeldPower.Of([]));
        Assert.Throws<ImpossibleInputException>(() => HeldPower.Of([new(60, 200), new(60, 180)]));
        Assert.Throws<ImpossibleInputException>(() => HeldPower.Of([new(60, 200), new(600, 240)]));
        Assert.Throws<ImpossibleInputException>(() => HeldPower.Of([new(double.NaN, 200)]));
        Assert.Throws<ImpossibleInputException>(() => HeldPower.Of([new(60, 0)]));
    }

    /// <summary>A head wind by its direction and one on a road without courses are the same on that course.</summary>
    [Fact]
    public void Wind_FromAhead_SlowsAndFromBehindHastens()
    {
        var road = Route.OfGradient("flat", 0, 5000);
        var still = Study(Question(road)).TotalS;
        var against = Study(Question(road) with { Wind = new(4, 0) }).TotalS;
        var behind = Study(Question(road) with { Wind = new(4, Math.PI) }).TotalS;

        Assert.True(behind < still && still < against);
        Assert.Equal(5000 / RoadPower.SpeedMs(Usual.Load, 180, 0, 4), against, 0.01);
    }

    [Fact]
    public void Power_ThatHardlyMovesTheBike_IsWalked()
    {
        var rider = Usual with { Power = PowerPlan.Steady(20) };
        var result = Study(Question(Route.OfGradient("wall", 0.2, 200)) with { Rider = rider });

        Assert.Equal(result.TotalS, result.WalkedS, 1e-9);
        Assert.Equal(400, result.TotalS, 1e-6);
    }

    /// <summary>However long the road, riding it in another set of gears allocates nothing but the answer.</summary>
    [Fact]
    public void Ride_InASetOfGears_AllocatesNothing()
    {
        var speeds = Enumerable.Range(0, 10_000).Select(i => 6 + (5 * Math.Sin(i))).ToArray();
        var times = Enumerable.Repeat(1.0, speeds.Length).ToArray();
        var choice = new GearChoice(Usual, Road.Count);
        choice.Load(Road, 2.105);
        choice.Ride(speeds, times);

        var before = GC.GetAllocatedBytesForCurrentThread();
        choice.Load(Road, 2.105);
        choice.Ride(speeds, times);
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;

        Assert.Equal(0, allocated);
        Assert.True(choice.RearShifts > 1000);
    }

    [Fact]
    public void Study_TellsHowFarItIs_AndEndsWhenAsked()
    {
        var question = Question(Route.OfGradient("long", 0.02, 2_000_000)) with
        {
            Candidates = [.. Enumerable.Range(0, 20).Select(i => new RideCandidate($"{i}", Road))],
        };
        using var cancel = new CancellationTokenSource();
        var last = new RideProgress(0, 1);
        Assert.Throws<OperationCanceledException>(() =>
        {
            foreach (var step in RideStudy.Steps(question, _ => { }, cancel.Token))
            {
                Assert.InRange(step.Done, last.Done, step.All);
                last = step;
                if (step.Done > step.All / 2)
                {
                    cancel.Cancel();
                }
            }
        });
        Assert.True(last.Done < last.All);
    }

    [Fact]
    public void Rider_WhoCannotBe_SaysWhat()
    {
        Assert.Equal("cadence", Refused(Usual with { LowRpm = 5 }));
        Assert.Equal("cadence", Refused(Usual with { LowRpm = 100, HighRpm = 60 }));
        Assert.Equal("cadence", Refused(Usual with { WantedRpm = 120 }));
        Assert.Equal("cadence", Refused(Usual with { HighRpm = double.NaN }));
        Assert.Equal("topSpeed", Refused(Usual with { TopSpeedMs = 0 }));
        Assert.Equal("mass", Refused(Usual with { Load = Usual.Load with { MassKg = -1 } }));
        Assert.Throws<ImpossibleInputException>(() => PowerPlan.Steady(0));
        Assert.Throws<ImpossibleInputException>(() => PowerPlan.Steady(double.NaN));
        Assert.Throws<ImpossibleInputException>(() => PowerPlan.Curve([]));
        Assert.Throws<ImpossibleInputException>(() => PowerPlan.Curve([new(0, 1), new(0, 2)]));
    }

    private static string Refused(Rider rider) =>
        Assert
            .Throws<ImpossibleInputException>(() =>
                Study(Question(Route.OfGradient("x", 0, 100)) with { Rider = rider })
            )
            .Input;

    private static RideResult Study(RideQuestion question) =>
        RideStudy.Of(question, null, TestContext.Current.CancellationToken);

    private static RideQuestion Question(Route road) =>
        new()
        {
            Route = road,
            Rider = Usual,
            Tyre = RolledOut,
            Present = Road,
        };
}
