using CsCheck;
using static Cogwright.Drivetrain.Tests.Example;
using static Cogwright.Drivetrain.Tests.LateralExample;

namespace Cogwright.Drivetrain.Tests;

public class SpokeClearanceTests
{
    [Fact]
    public void SpokeCone_HandWorked_IsALineFromFlangeToRim()
    {
        var cone = SpokeCone
            .Of(
                new()
                {
                    FlangeLateralMm = 18,
                    FlangeRadiusMm = 20,
                    RimLateralMm = 0,
                    RimRadiusMm = 300,
                    ThicknessMm = 2,
                },
                0
            )!
            .Value;
        // Flange 18 + 1.5 + 2, rim 0 + 1, and the middle between them.
        Assert.Equal(21.5, cone.LateralMm(20), 12);
        Assert.Equal(1, cone.LateralMm(300), 12);
        Assert.Equal(11.25, cone.LateralMm(160), 12);
    }

    /// <summary>A crossed spoke, as a straight line in space, never stands outboard of the cone: the cone errs on the safe side.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.8)]
    [InlineData(1.4)]
    public void SpokeCone_CrossedSpokes_LieInboardOfIt(double crossedRad)
    {
        const double flange = 20;
        const double rim = 300;
        var cone = SpokeCone
            .Of(
                new()
                {
                    FlangeLateralMm = 18,
                    FlangeRadiusMm = flange,
                    RimLateralMm = 0,
                    RimRadiusMm = rim,
                },
                0
            )!
            .Value;
        var from = new Point(0, -flange);
        var to = new Point(0, -rim).Turned(crossedRad);
        for (var i = 0; i <= 100; i++)
        {
            var part = i / 100.0;
            var at = new Point(
                from.X + (part * (to.X - from.X)),
                from.Y + (part * (to.Y - from.Y))
            );
            var z =
                cone.LateralMm(flange) + (part * (cone.LateralMm(rim) - cone.LateralMm(flange)));
            if (at.Length >= flange)
            {
                Assert.True(z <= cone.LateralMm(at.Length) + 1e-9, $"at {part}");
            }
        }
    }

    [Fact]
    public void SpokeCone_OneMeasuredDistance_IsFlatAtThatDistance()
    {
        var cone = SpokeCone.Of(new() { CogToSpokesMm = 4 }, 23.9)!.Value;
        Assert.Equal(19.9, cone.LateralMm(50), 12);
        Assert.Equal(19.9, cone.LateralMm(250), 12);
    }

    /// <summary>A cage straight below the axle and straight in its plane is nearest with the top of its upper plate.</summary>
    [Fact]
    public void CageFace_StraightBelowTheAxle_IsNearestAtItsTop()
    {
        var cone = SpokeCone.Of(Wheel, 0)!.Value;
        var face = new CageFace(new(0, -90), new(0, -160), 10, 10, 20);
        var room = face.LeastToSpokesMm(cone, default, new(0, -30), default, out var at);
        Assert.Equal(20 - cone.LateralMm(80), room, 1e-9);
        Assert.Equal(0, at.X, 1e-9);
        Assert.Equal(-80, at.Y, 1e-9);
    }

    /// <summary>With a lean that outdoes the spokes' own slope, the foot of the cage comes nearest.</summary>
    [Fact]
    public void CageFace_StrongLean_IsNearestAtItsFoot()
    {
        var cone = SpokeCone.Of(Wheel, 0)!.Value;
        var face = new CageFace(new(0, -90), new(0, -160), 10, 10, 20);
        var lean = 2 * cone.InwardPerMm;
        var room = face.LeastToSpokesMm(cone, default, new(0, -30), new(lean, 0), out var at);
        Assert.Equal(20 - (140 * lean) - cone.LateralMm(170), room, 1e-9);
        Assert.Equal(-170, at.Y, 1e-9);
    }

    /// <summary>A naive twin: every point of a fine grid over the plate.</summary>
    [Fact]
    public void CageFace_RandomPoses_AgreeWithAGridOverThePlate()
    {
        var gen = Gen.Double[0, 1].Array[8];
        foreach (var u in Draws.Of(gen, 25, 400, 20240601))
        {
            var guide = new Point(-40 + (60 * u[0]), -95 + (20 * u[1]));
            var tension = guide + new Point(0, -50 - (40 * u[2])).Turned((u[3] - 0.5) * 2.4);
            var tilt = new HangerTilt((u[4] - 0.5) * 0.2, (u[5] - 0.5) * 0.2);
            var (top, foot) = (6 + (8 * u[6]), 6 + (8 * u[7]));
            var cone = SpokeCone.Of(Wheel, 0)!.Value;
            var face = new CageFace(guide, tension, top, foot, 20);
            var room = face.LeastToSpokesMm(cone, default, new(-8, -28), tilt, out _);
            var naive = double.PositiveInfinity;
            var along = tension - guide;
            var across = new Point(-along.Y / along.Length, along.X / along.Length);
            for (var i = 0; i <= 200; i++)
            {
                var reach = top + (i / 200.0 * (foot - top));
                var centre = guide + new Point(along.X * i / 200, along.Y * i / 200);
                for (var j = -40; j <= 40; j++)
                {
                    Try(centre + new Point(across.X * reach * j / 40, across.Y * reach * j / 40));
                }
            }
            for (var i = 0; i < 360; i++)
            {
                for (var j = 0; j <= 20; j++)
                {
                    var direction = new Point(1, 0).Turned(i * Math.Tau / 360);
                    Try(guide + new Point(direction.X * top * j / 20, direction.Y * top * j / 20));
                    Try(
                        tension
                            + new Point(direction.X * foot * j / 20, direction.Y * foot * j / 20)
                    );
                }
            }
            Assert.Equal(naive, room, 0.005);

            void Try(Point p)
            {
                var z = 20 + (tilt.LeanRad * (p.Y + 28)) + (tilt.ToeRad * (p.X + 8));
                naive = Math.Min(naive, z - cone.LateralMm(p.Length));
            }
        }
    }

    [Fact]
    public void Report_NothingKnown_CannotSayAndNamesWhatToMeasure()
    {
        var report = Report(null, null);
        Assert.All(report.All, c => Assert.Equal(ClearanceVerdict.CannotSay, c.Verdict));
        Assert.All(report.All, c => Assert.Null(c.Mm));
        Assert.Equal(ClearanceKind.CageOnLargestCog, report.All[0].Kind);
        Assert.Equal(["wheel.cageToSpokes"], report.All[0].Missing);
        Assert.Equal(
            ["wheel.cageToSpokes", "rearDerailleur.inboardStopLateral"],
            report.All[1].Missing
        );
        Assert.False(report.AnyFound);
        Assert.All(
            report.All,
            c =>
                Assert.StartsWith(
                    "CANNOT SAY",
                    LateralWords.Of(c, report).What,
                    StringComparison.Ordinal
                )
        );
        Assert.Contains(
            "nearest spoke",
            LateralWords.Of(report.All[0], report).WhatToDo,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("rearDerailleur.cage.innerFace")]
    [InlineData("wheel.rimRadius")]
    [InlineData("wheel.flangeRadius")]
    public void Report_OneFigureMissing_NamesThatOne(string path)
    {
        var data = path switch
        {
            "wheel.rimRadius" => Data with { Spokes = Wheel with { RimRadiusMm = null } },
            "wheel.flangeRadius" => Data with { Spokes = Wheel with { FlangeRadiusMm = null } },
            _ => Data with { CageInnerFaceMm = null },
        };
        var cage = Report(data).Find(ClearanceKind.CageOnLargestCog)!;
        Assert.Equal(ClearanceVerdict.CannotSay, cage.Verdict);
        Assert.Equal([path], cage.Missing);
    }

    [Fact]
    public void Report_WorkedExample_IsTheNearestPointOfTheUpperPlate()
    {
        var spec = With(Data);
        var table = GearTableSolver.Solve(spec, 110);
        var cone = SpokeCone.Of(Wheel, 0)!.Value;
        var report = SpokeClearance.Of(table);
        var reach = Sprocket.TipRadiusMm(12);
        var nearest = table
            .Gears.Where(g => g.CogIndex == 11)
            .Min(g => (g.Guide - spec.Frame.Axle).Length - reach);
        var face = spec.Cogs.LateralMm(11) - 4.5;
        Assert.Equal(
            face - cone.LateralMm(nearest),
            report.Room(ClearanceKind.CageOnLargestCog),
            1e-9
        );
        // The chain's inner side on the largest cog, at the inner edge of its plates.
        var radius = Sprocket.PitchRadiusMm(34) - 4.25;
        Assert.Equal(
            24.7 - 2.65 - cone.LateralMm(radius),
            report.Room(ClearanceKind.ChainOnLargestCog),
            1e-9
        );
        Assert.Equal(68 - 64.3 - 2.65, report.Room(ClearanceKind.ChainOnSmallestCog), 1e-9);
    }

    [Fact]
    public void AtStop_StopOnTheCog_IsAsOnTheCog()
    {
        var report = Report(Data, 0);
        Assert.Equal(
            report.Room(ClearanceKind.CageOnLargestCog),
            report.Room(ClearanceKind.CageAtInboardStop),
            1e-6
        );
    }

    [Fact]
    public void AtStop_LooserStop_LeavesLessAndLess()
    {
        var last = double.PositiveInfinity;
        foreach (var overshoot in (double[])[0, 0.5, 1, 2, 3, 5])
        {
            var room = Report(Data, overshoot).Room(ClearanceKind.CageAtInboardStop);
            Assert.True(room < last);
            last = room;
        }
    }

    [Fact]
    public void Measured_CageToSpokes_WinsOverHubAndRim()
    {
        var report = Report(Data with { Spokes = Wheel with { CageToSpokesMm = 3.4 } }, 1);
        var cage = report.Find(ClearanceKind.CageOnLargestCog)!;
        Assert.Equal(3.4, cage.Mm);
        Assert.True(cage.IsMeasured);
        Assert.Equal(2.4, report.Room(ClearanceKind.CageAtInboardStop), 1e-9);
    }

    /// <summary>A tilt that came after the measuring: neither the measured figure nor one from hub and rim stands in for it.</summary>
    [Fact]
    public void Measured_BeforeTheCageWasMoved_IsNotKnownAndToBeMeasuredAgain()
    {
        var table = GearTableSolver.Solve(
            With(Data with { Spokes = Wheel with { CageToSpokesMm = 3.4 } }),
            110
        );
        var tilt = new HangerTilt(Rad(1), 0);
        Assert.Equal(3.4, SpokeClearance.Of(table, tilt).Room(ClearanceKind.CageOnLargestCog));
        var report = SpokeClearance.Of(table, tilt, movedSinceMeasured: true);
        foreach (
            var kind in new[]
            {
                ClearanceKind.CageOnLargestCog,
                ClearanceKind.CageAtInboardStop,
                ClearanceKind.CageTilted,
                ClearanceKind.CageKnocked,
            }
        )
        {
            var clearance = report.Find(kind)!;
            Assert.Equal(ClearanceVerdict.CannotSay, clearance.Verdict);
            Assert.Null(clearance.Mm);
            Assert.True(clearance.IsStale);
            var words = LateralWords.Of(clearance, report);
            Assert.EndsWith(
                ": the cage was moved after the distance had been measured.",
                words.What,
                StringComparison.Ordinal
            );
            Assert.StartsWith("Measure again: ", words.WhatToDo, StringComparison.Ordinal);
        }
        Assert.Null(report.KnockToSpokesMm);
        Assert.True(report.SpokesUnknown);
    }

    [Fact]
    public void Computed_FromHubAndRim_IsKnownAfterTheCageWasMoved()
    {
        var table = GearTableSolver.Solve(With(Data), 110);
        var tilt = new HangerTilt(Rad(1), 0);
        Assert.Equal(
            SpokeClearance.Of(table, tilt).Room(ClearanceKind.CageTilted),
            SpokeClearance.Of(table, tilt, movedSinceMeasured: true).Room(ClearanceKind.CageTilted)
        );
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.6)]
    public void Knock_ThatReachesTheSpokes_LeavesNothing(double leanDeg)
    {
        HangerTilt? tilt = leanDeg == 0 ? null : new(Rad(leanDeg), 0);
        var reaches = Report(Data, 0.5, tilt).KnockToSpokesMm!.Value;
        Assert.True(reaches > 0);
        var room = Report(Data, 0.5, tilt, new(reaches)).Room(ClearanceKind.CageKnocked);
        Assert.Equal(0, room, 1e-6);
    }

    [Fact]
    public void Knock_AsAngle_IsThatLean()
    {
        var byAngle = Report(Data, 1, null, new(Rad(1.5), true)).Room(ClearanceKind.CageKnocked);
        var byTilt = Report(Data, 1, new(Rad(1.5), 0)).Room(ClearanceKind.CageTilted);
        Assert.Equal(byTilt, byAngle, 1e-9);
    }

    [Fact]
    public void Tilt_Inward_LosesAtTheGuideWhatTheLeverSays()
    {
        // A small lean leaves the nearest point where it was: it moves in by lean × its depth below the bolt.
        var spec = With(Data, null);
        var table = GearTableSolver.Solve(spec, 110);
        var straight = SpokeClearance.Of(table).Room(ClearanceKind.CageOnLargestCog);
        var lean = 1e-5;
        var tilted = SpokeClearance.Of(table, new(lean, 0)).Room(ClearanceKind.CageTilted);
        var cone = SpokeCone.Of(Wheel, 0)!.Value;
        var bolt = spec.Frame.Axle + spec.Hanger!.OffsetMm;
        var slopes = table
            .Gears.Where(g => g.CogIndex == 11)
            .Select(g =>
            {
                new CageFace(
                    g.Guide,
                    g.Tension,
                    Sprocket.TipRadiusMm(12),
                    Sprocket.TipRadiusMm(12),
                    20
                ).LeastToSpokesMm(cone, spec.Frame.Axle, bolt, default, out var at);
                return bolt.Y - at.Y;
            })
            .ToList();
        Assert.InRange((straight - tilted) / lean, slopes.Min() - 0.1, slopes.Max() + 0.1);
    }

    /// <summary>More tilt inward, or a harder knock, never leaves more room.</summary>
    [Fact]
    public void Room_MoreTiltInwardOrHarderKnock_NeverGrows()
    {
        foreach (var u in Draws.Of(Gen.Double[0, 1].Array[4], 30, 600, 20240602))
        {
            var (low, high) = (Math.Min(u[0], u[1]) * 0.08, Math.Max(u[0], u[1]) * 0.08);
            var overshoot = 3 * u[2];
            Assert.True(
                Report(Data, overshoot, new(high, 0)).Room(ClearanceKind.CageTilted)
                    <= Report(Data, overshoot, new(low, 0)).Room(ClearanceKind.CageTilted) + 1e-9
            );
            var tilt = new HangerTilt((u[3] - 0.5) * 0.05, 0);
            Assert.True(
                Report(Data, overshoot, tilt, new(high * 100)).Room(ClearanceKind.CageKnocked)
                    <= Report(Data, overshoot, tilt, new(low * 100)).Room(ClearanceKind.CageKnocked)
                        + 1e-9
            );
        }
    }

    [Theory]
    [InlineData(-0.1, 2, ClearanceVerdict.Touches)]
    [InlineData(0, 2, ClearanceVerdict.Touches)]
    [InlineData(1.9, 2, ClearanceVerdict.Close)]
    [InlineData(2, 2, ClearanceVerdict.Clear)]
    public void Verdict_Edges_AreOnTheSafeSide(double mm, double least, ClearanceVerdict verdict) =>
        Assert.Equal(verdict, SpokeClearance.Verdict(mm, least));

    /// <summary>A stop that holds before the largest cog ends the swing there: what is told is the pose at the stop.</summary>
    [Theory]
    [InlineData(-1.5, true)]
    [InlineData(0, false)]
    [InlineData(1, false)]
    public void Words_StopShortOfTheCog_SayThatItIsNotReached(double overshootMm, bool isShort)
    {
        var report = Report(Data, overshootMm);
        var words = LateralWords.Of(report.Find(ClearanceKind.CageOnLargestCog)!, report).What;
        Assert.Equal(
            isShort,
            words.Contains(
                "at the inboard stop; the largest cog is not reached",
                StringComparison.Ordinal
            )
        );
        Assert.Equal(!isShort, words.Contains("on the largest cog", StringComparison.Ordinal));
    }

    [Fact]
    public void Worst_SomethingIsNotKnown_IsNeverClear()
    {
        Assert.Equal(ClearanceVerdict.CannotSay, Report(null).Worst!.Verdict);
        Assert.True(Report(null).SpokesUnknown);
        var known = Report(Data);
        Assert.False(known.SpokesUnknown);
        Assert.NotEqual(ClearanceKind.ChainOnSmallestCog, known.Worst!.Kind);
        var touches = Report(Data with { CageInnerFaceMm = 40, DropoutFaceMm = null });
        Assert.Equal(ClearanceVerdict.Touches, touches.Worst!.Verdict);
        // Only a knock would do it: told after what is so, and before "clear".
        var knocked = Report(Data, knock: new(30)).Worst!;
        Assert.Equal(ClearanceKind.CageKnocked, knocked.Kind);
    }

    [Fact]
    public void Report_FromAssumedFigures_SaysSo()
    {
        var spec = With(Data) with
        {
            Assumptions = [new("cogs.smallestLateral", "64.3 mm", "common practice")],
        };
        var report = SpokeClearance.Of(GearTableSolver.Solve(spec, 110));
        var cage = report.All[0];
        Assert.Equal(["cogs.smallestLateral"], cage.Assumed);
        Assert.Contains(
            "assumed",
            LateralWords.Of(cage, report).WhatToDo,
            StringComparison.Ordinal
        );
    }
}
