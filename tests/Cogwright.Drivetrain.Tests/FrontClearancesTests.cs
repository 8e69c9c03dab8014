using CsCheck;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The chain in the front cage: by hand, against the naive twin, by what must hold, and against common practice.</summary>
public sealed class FrontClearancesTests
{
    /// <summary>Closed form against points a hundredth of a millimetre apart on slopes of a tenth: a thousandth and some.</summary>
    private const double TwinMm = 2e-3;

    // Half a chain for two cogs is 3.9 mm wide. 46/46: the chain goes from 46 at the ring to 46.475 at the tail; the cage stands at 48, its inner face at 42 in
    // front and 39.5 at the tail, its outer face at 54. 36/36: from 40 to 43.8; cage at 42: 36, 33.5 and 48.
    [Theory]
    [InlineData(46, 46, 0.1, 3.625)]
    [InlineData(36, 36, 0.1, 0.3)]
    public void Plates_OfLevelRuns_AreThoseWorkedByHand(
        int ring,
        int cog,
        double innerMm,
        double outerMm
    )
    {
        var own = FrontExample.Of(FrontExample.Level).Find(new(ring, cog))!.Own!.Value;

        Assert.Equal(innerMm, own.InnerPlateMm, 9);
        Assert.Equal(outerMm, own.OuterPlateMm, 9);
    }

    /// <summary>cos λ = cos 80° + 2.5/30, so the cage at 42 has risen by 30 (sin 80° − 0.966416) = 0.5517 mm; the chain lies at r(36) = 72.8581.</summary>
    [Fact]
    public void Bridge_UnderALevelRun_IsWorkedByHand()
    {
        var own = FrontExample.Of(FrontExample.Level).Find(new(36, 36))!.Own!.Value;
        var tip = (12.7 / (2 * Math.Sin(Math.PI / 46))) + (12.7 * (1.125 - (0.8 / 46)) / 2) - 3.875;

        Assert.Equal(2.0517, own.HeightMm!.Value, 4);
        Assert.Equal(72.8581 - (tip + 2.0517 - 40) - 4.25, own.BridgeMm!.Value, 3);
    }

    [Fact]
    public void Bridge_NotDescribed_IsNotSpokenOf()
    {
        var spec = FrontExample.Spec with
        {
            FrontDerailleur = FrontExample.Front with { BridgeBelowMm = null },
        };

        Assert.All(FrontExample.Of(spec).Gears, gear => Assert.Null(gear.Own!.Value.BridgeMm));
    }

    [Fact]
    public void Report_WithoutFrontDerailleur_IsNone() =>
        Assert.Null(FrontClearances.Of(FrontExample.Bare(Example.Spec)));

    [Fact]
    public void Gear_NotReachedAtTheRear_HasNoPose()
    {
        var table = FrontExample.Bare(FrontExample.Spec);
        var unreached = table.Gears[0] with { State = GearState.Unreachable };

        var gear = FrontClearances
            .Of(table with { Gears = table.Gears.SetItem(0, unreached) })!
            .Gears[0];

        Assert.Null(gear.Own);
        Assert.False(gear.Rubs);
        Assert.Null(gear.TrimClears);
    }

    private static readonly Gen<(DrivetrainSpec Spec, double Wide)> Bikes = Gen.Select(
            Gen.Double[390, 470],
            Gen.Double[-20, 85],
            Gen.Double[-3, 3],
            Gen.Double[-3, 3],
            Gen.Int[40, 54],
            Gen.Double[-86, -55],
            Gen.Double[0, 3],
            Gen.Double[26, 40]
        )
        .Select(
            (stay, drop, toeIn, toeOut, ring, link, height, length) =>
                (
                    FrontExample.Spec with
                    {
                        Frame = new() { ChainstayMm = stay, BottomBracketDropMm = drop },
                        Rings = [new(ring, 47), new(ring - 14, 40)],
                        FrontDerailleur = FrontExample.Front with
                        {
                            FrontXMm = 15,
                            InnerPlate = new(-8 + toeIn, -6, 1),
                            OuterPlate = new(6 + toeOut, 6, 1.2),
                            LinkAngleRad = Example.Rad(link),
                            LinkLengthMm = length,
                            HeightMm = height,
                            OutboardStopMm = 48 + toeIn,
                            InboardStopMm = 40.2 + (toeOut / 4),
                        },
                    },
                    stay
                )
        );

    [Fact]
    public void Clearances_OfRandomBikes_AreThoseOfTheNaiveTwin()
    {
        foreach (var (spec, _) in Draws.Of(Bikes, 12, 120, 20261125))
        {
            foreach (var gear in FrontExample.Of(spec).Gears.Where((_, i) => i % 5 == 0))
            {
                var own = gear.Own!.Value;
                var (inner, outer) = NaiveFront.PlatesMm(spec, gear.Gear, own.LateralMm, 5.22 / 2);
                Assert.Equal(inner, own.InnerPlateMm, TwinMm);
                Assert.Equal(outer, own.OuterPlateMm, TwinMm);
                if (own.BridgeMm is { } bridge)
                {
                    Assert.Equal(
                        NaiveFront.BridgeMm(spec, gear.Gear, own.LateralMm),
                        bridge,
                        TwinMm
                    );
                }
            }
        }
    }

    /// <summary>A rear end moved to a place leads the chain as one that was built there.</summary>
    [Fact]
    public void Cage_OnASuspendedRearEnd_FollowsItsAxle()
    {
        var frame = FrontExample.Spec.Frame with { ChainstayMm = 425, BottomBracketDropMm = 10 };
        var there = FrontExample.Bare(FrontExample.Spec) with { AxlePose = new(frame.Axle, 0.02) };

        Assert.Equal(
            FrontExample.Of(FrontExample.Spec with { Frame = frame }).Gears,
            FrontClearances.Of(there)!.Gears,
            (a, b) => a.Own == b.Own
        );
        Assert.NotEqual(
            FrontExample.Of(FrontExample.Spec).Gears[0].Own,
            FrontClearances.Of(there)!.Gears[0].Own
        );
    }

    /// <summary>An idler leads the chain to the ring as a cog in its place would.</summary>
    [Fact]
    public void Cage_BehindAnIdler_SeesTheChainThatComesFromThere()
    {
        var near = new Frame { ChainstayMm = 200, BottomBracketDropMm = 120 };
        var bike = FrontExample.Spec with { Lateral = new() { ChainWidthMm = 5.3 } };
        var asCog = bike with
        {
            Frame = near,
            Cogs = new()
            {
                Teeth = [17],
                SmallestLateralMm = 47,
                SpacingMm = 0,
            },
        };
        var idler = bike with { Idler = new(near.Axle, 17, LateralMm: 47) };

        var expected = FrontExample.Of(asCog).Find(new(50, 17))!.Own;
        Assert.Equal(expected, FrontExample.Of(idler).Find(new(50, 34))!.Own);
        Assert.Equal(expected, FrontExample.Of(idler).Find(new(50, 11))!.Own);
    }

    [Fact]
    public void Chain_ForMoreCogsThanAnybodyMakes_AsksForItsWidth()
    {
        var spec = FrontExample.Spec with
        {
            Cogs = FrontExample.Spec.Cogs with
            {
                Teeth = [11, 12, 13, 14, 15, 16, 17, 18, 19, 21, 24, 27, 30, 34],
                SpacingMm = 3,
            },
        };

        Assert.Contains(SpecCheck.Problems(spec), problem => problem.Path == "chain.width");
        Assert.DoesNotContain(
            SpecCheck.Problems(spec with { Lateral = new() { ChainWidthMm = 4.7 } }),
            problem => problem.Path == "chain.width"
        );
    }

    [Fact]
    public void OutboardStop_MovedOutboard_NeverNarrowsTheOuterGapOnTheLargeRing() =>
        Gen.Select(Bikes, Gen.Double[0, 4])
            .Sample(
                (bike, by) =>
                {
                    var front = bike.Spec.FrontDerailleur!;
                    var moved = bike.Spec with
                    {
                        FrontDerailleur = front with { OutboardStopMm = front.OutboardStopMm + by },
                    };
                    var before = FrontExample.Of(bike.Spec).Gears;
                    var after = FrontExample.Of(moved).Gears;
                    for (var i = 0; i < before.Length; i++)
                    {
                        var gain =
                            after[i].Own!.Value.OuterPlateMm - before[i].Own!.Value.OuterPlateMm;
                        var large = before[i].Gear.RingTeeth == bike.Spec.Rings[0].Teeth;
                        Assert.Equal(large ? by : 0, gain, 1e-9);
                    }
                },
                iter: 200,
                seed: "0000KGFbTqXc"
            );

    /// <summary>Cage, toe-in and chain mirrored in the plane of the ring: the plates exchange their clearances.</summary>
    [Fact]
    public void ToeIn_Mirrored_ExchangesThePlates() =>
        Gen.Select(
                Gen.Double[-10, 10],
                Gen.Double[-3, 3],
                Gen.Double[-4, 4],
                Gen.Double[-4, 4],
                Gen.Double[0, 60]
            )
            .Sample(
                (cog, cage, toeInner, toeOuter, drop) =>
                {
                    var one = Crossing(
                        cog,
                        cage,
                        new(-7 + toeInner, -6, 1),
                        new(8 + toeOuter, 5, 1),
                        drop
                    );
                    var other = Crossing(
                        -cog,
                        -cage,
                        new(-8 - toeOuter, -5, 1),
                        new(7 - toeInner, 6, 1),
                        drop
                    );

                    Assert.Equal(one.InnerPlateMm, other.OuterPlateMm, 1e-9);
                    Assert.Equal(one.OuterPlateMm, other.InnerPlateMm, 1e-9);
                },
                iter: 300,
                seed: "0000KGFbTqXc"
            );

    private static FrontPose Crossing(
        double cogBesideRing,
        double cageBesideRing,
        CagePlate inner,
        CagePlate outer,
        double drop
    ) =>
        FrontExample
            .Of(
                FrontExample.Level with
                {
                    Frame = new() { ChainstayMm = 420, BottomBracketDropMm = drop },
                    Cogs = new()
                    {
                        Teeth = [11, 28],
                        SmallestLateralMm = 46 + cogBesideRing + 8,
                        SpacingMm = 8,
                    },
                    FrontDerailleur = FrontExample.Front with
                    {
                        InnerPlate = inner,
                        OuterPlate = outer,
                        OutboardStopMm = 46 + cageBesideRing,
                        InboardStopMm = 30,
                    },
                }
            )
            .Find(new(46, 28))!
            .Own!.Value;

    /// <summary>Common practice: 0.5 mm to the outer plate on large ring and smallest cog, 0.5 to 1 mm to the inner on small ring and largest cog.</summary>
    [Fact]
    public void Stops_NotGiven_AreTakenAsCommonPracticeSetsThem()
    {
        var report = FrontExample.Of(FrontExample.Spec);

        Assert.Equal(0.5, report.Find(new(50, 11))!.Own!.Value.OuterPlateMm, 9);
        Assert.InRange(report.Find(new(34, 34))!.Own!.Value.InnerPlateMm, 0.5, 1);
        Assert.Equal(new(50, 11), report.SettingOf(FrontSettingKind.OuterGap)!.Value.Gear);
        Assert.Equal(new(34, 34), report.SettingOf(FrontSettingKind.InnerGap)!.Value.Gear);
        Assert.False(report.SettingOf(FrontSettingKind.OuterGap)!.Value.IsGiven);
        Assert.All(report.Settings, setting => Assert.True(setting.IsWithin));
    }

    /// <summary>Common practice: a cage at its stops rubs in the extreme crossings, and a trim click frees it.</summary>
    [Fact]
    public void ExtremeCrossings_OfADouble_RubUntilTrimmed()
    {
        var bare = FrontExample.Of(FrontExample.Spec);
        var trimmed = FrontExample.Of(
            FrontExample.Spec with
            {
                FrontDerailleur = FrontExample.Front with { Trims = [new(34, 1.8), new(50, -1)] },
            }
        );

        Assert.True(bare.Find(new(34, 11))!.Rubs);
        Assert.Equal(CageRub.OuterPlate, bare.Find(new(34, 11))!.Own!.Value.Rubs);
        Assert.False(bare.Find(new(34, 11))!.TrimClears);
        Assert.True(trimmed.Find(new(34, 11))!.TrimClears);
        Assert.Equal(CageHold.Trim, trimmed.Find(new(34, 11))!.Best!.Value.Hold);
        Assert.Null(trimmed.Find(new(50, 17))!.TrimClears);
    }

    [Fact]
    public void Trim_BeyondAStop_IsHeldByIt()
    {
        var spec = FrontExample.Level with
        {
            FrontDerailleur = FrontExample.Level.FrontDerailleur! with
            {
                Trims = [new(46, 3), new(36, -3)],
            },
        };
        var report = FrontExample.Of(spec);

        Assert.Equal(48, report.Find(new(46, 46))!.Poses[1].LateralMm);
        Assert.Equal(42, report.Find(new(36, 36))!.Poses[1].LateralMm);
    }

    [Fact]
    public void MiddleRing_WithoutPosition_SharesTheRoomOfItsCogs()
    {
        var report = FrontExample.Of(
            FrontExample.Spec with
            {
                Rings = [new(48, 54), new(36, 47.5), new(26, 41)],
            }
        );
        var middle = report.Gears.Where(gear => gear.Gear.RingTeeth == 36).ToArray();

        Assert.All(middle, gear => Assert.Equal(CageHold.Shifter, gear.Own!.Value.Hold));
        Assert.Equal(
            middle.Min(gear => gear.Own!.Value.InnerPlateMm),
            middle.Min(gear => gear.Own!.Value.OuterPlateMm),
            1e-9
        );
        Assert.Equal([48, 36, 26], report.Positions.Select(position => position.RingTeeth));
    }

    [Fact]
    public void SettingGear_NotToBeUsed_GivesWayToTheNextCog()
    {
        var report = FrontExample.Of(FrontExample.Spec with { GearsNotUsed = [new(34, 34)] });

        Assert.Equal(new(34, 30), report.SettingOf(FrontSettingKind.InnerGap)!.Value.Gear);
    }

    [Fact]
    public void Findings_OfGearsThatNoPositionFrees_NameThemWithTheBestRoom()
    {
        var report = FrontExample.Of(FrontExample.Spec with { GearsNotUsed = [new(34, 11)] });
        var finding = FrontClearances.Findings(report).First(f => f.Gear == new Gear(34, 11));

        Assert.Equal(FindingKind.RubsFrontCage, finding.Kind);
        Assert.True(finding.NotUsed);
        Assert.True(finding.ValueMm <= 0);
        Assert.Contains("34/11", Explanation.Of(finding).What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("frontDerailleur.xFront")]
    [InlineData("frontDerailleur.outerPlate")]
    [InlineData("frontDerailleur.outboardStop")]
    [InlineData("frontDerailleur.inboardStop")]
    [InlineData("frontDerailleur.positions[0].ring")]
    [InlineData("frontDerailleur.trims[0].ring")]
    [InlineData("frontDerailleur.wanted.innerGap.upper")]
    [InlineData("frontDerailleur")]
    public void Check_OfWhatCannotBe_NamesTheField(string path)
    {
        var front = FrontExample.Front;
        var spec = path switch
        {
            "frontDerailleur.xFront" => With(front with { FrontXMm = -95 }),
            "frontDerailleur.outerPlate" => With(front with { OuterPlate = new(5, -6, 1) }),
            "frontDerailleur.outboardStop" => With(
                front with
                {
                    OutboardStopMm = 41,
                    InboardStopMm = 42,
                }
            ),
            "frontDerailleur.inboardStop" => With(front with { InboardStopMm = 2 }),
            "frontDerailleur.positions[0].ring" => With(front with { Positions = [new(34, 42)] }),
            "frontDerailleur.trims[0].ring" => With(front with { Trims = [new(35, 1)] }),
            "frontDerailleur.wanted.innerGap.upper" => With(
                front with
                {
                    WantedInnerGap = new(1, 0.5),
                }
            ),
            _ => With(front) with { Rings = [new(42, 45)] },
        };

        Assert.Equal([path], SpecCheck.Problems(spec).Select(problem => problem.Path));
    }

    [Fact]
    public void Check_OfTheExample_FindsNothing() =>
        Assert.Empty(SpecCheck.Problems(FrontExample.Spec));

    private static DrivetrainSpec With(FrontDerailleur front) =>
        FrontExample.Spec with
        {
            FrontDerailleur = front,
        };
}
