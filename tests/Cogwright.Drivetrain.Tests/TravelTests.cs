using static Cogwright.Drivetrain.Tests.RearEnds;

namespace Cogwright.Drivetrain.Tests;

/// <summary>What the travel does to the gears and to the choice of the chain.</summary>
public class TravelTests
{
    [Fact]
    public void GearTable_AtATravel_IsThatOfARigidFrameTurnedTheSameWay()
    {
        // A frame whose axle stands there, whose hanger points there and whose body stands there is the same mechanism.
        var spec = Trail(OnLinks);
        var pose = RearEnd.Of(OnLinks).At(80);
        var derailleur = spec.RearDerailleur!;
        var turned = derailleur.BodyAngleRad + pose.RotationRad;
        var rigid = spec with
        {
            Frame = new() { ChainstayMm = pose.Axle.Length, BottomBracketDropMm = pose.Axle.Y },
            Hanger = new(spec.Hanger!.OffsetMm.Turned(pose.RotationRad)),
            RearDerailleur = derailleur with
            {
                BodyAngleRad = turned,
                Cage = derailleur.Cage with
                {
                    RearStopRad = derailleur.Cage.RearStopRad + pose.RotationRad,
                    FrontStopRad = derailleur.Cage.FrontStopRad + pose.RotationRad,
                },
            },
        };
        var suspended = GearTableSolver.Solve(spec, 118, null, 80);
        var same = GearTableSolver.Solve(rigid, 118);
        for (var i = 0; i < same.Gears.Length; i++)
        {
            Assert.Equal(same.Gears[i].State, suspended.Gears[i].State);
            Assert.Equal(same.Gears[i].GapMm, suspended.Gears[i].GapMm, 1e-8);
            Assert.Equal(same.Gears[i].CageAngleRad, suspended.Gears[i].CageAngleRad, 1e-10);
            Assert.Equal(same.Gears[i].NeedsAtFrontStop, suspended.Gears[i].NeedsAtFrontStop, 1e-9);
            Assert.Equal(same.Gears[i].TakesAtRearStop, suspended.Gears[i].TakesAtRearStop, 1e-9);
        }
    }

    [Fact]
    public void GearTable_NoTravelNamed_StandsAtSag()
    {
        var table = GearTableSolver.Solve(Trail(OnPivot), 118);
        Assert.Equal(42, table.TravelMm, 1e-12);
        Assert.Equal(RearEnd.Of(OnPivot).At(42), table.AxlePose);
    }

    [Fact]
    public void TravelSweep_EachPosition_IsThatOfTheGearTable()
    {
        var spec = Trail(OnLinks);
        Gear[] gears = [new(32, 51), new(32, 10)];
        var sweep = TravelSweep.Of(spec, gears, 118, 14);
        Assert.Equal(15, sweep.Positions);
        var rearEnd = RearEnd.Of(OnLinks);
        for (var p = 0; p < sweep.Positions; p++)
        {
            var travel = sweep.TravelMm[p];
            var table = GearTableSolver.Solve(spec, 118, null, travel);
            Assert.Equal(rearEnd.GrowthMm(travel), sweep.GrowthMm[p]);
            Assert.Equal(
                table.AxlePose,
                new(new(sweep.AxleX[p], sweep.AxleY[p]), sweep.RotationRad[p])
            );
            for (var g = 0; g < gears.Length; g++)
            {
                var expected = table.Find(gears[g])!.Value;
                var at = (g * sweep.Positions) + p;
                Assert.Equal(expected.State, sweep.State[at]);
                Assert.Equal(expected.CageAngleRad, sweep.CageAngleRad[at]);
                // Tips are subtracted in another order: the last bit may differ.
                Assert.Equal(expected.GapMm, sweep.GapMm[at], 1e-11);
                Assert.Equal(expected.TightMarginMm, sweep.TightMarginMm[at]);
                Assert.Equal(expected.LooseMarginMm, sweep.LooseMarginMm[at]);
            }
        }
        Assert.Equal(0, sweep.TravelMm[0]);
        Assert.Equal(140, sweep.TravelMm[^1]);
    }

    [Fact]
    public void TravelSweep_MoreGears_AllocatesItsResultAndNoMore()
    {
        var spec = Trail(OnLinks);
        var gears = spec.Cogs.Teeth.Select(cog => new Gear(32, cog)).ToArray();
        _ = TravelSweep.Of(spec, gears, 118, 10);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var sweep = TravelSweep.Of(spec, gears, 118, 100);
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        // Five arrays per position, five figures per gear and position (a state is four bytes), and their headers.
        var result = (101 * 5 * 8) + (101 * 12 * ((4 * 8) + 4)) + (12 * 8);
        Assert.InRange(allocated, result, result + 1000);
        Assert.Equal(101, sweep.Positions);
    }

    public static TheoryData<string> Bikes() => ["pivot", "links", "idler", "stroke"];

    private static DrivetrainSpec Bike(string name) =>
        name switch
        {
            "pivot" => Trail(OnPivot),
            "links" => Trail(OnLinks),
            "idler" => Trail(HighPivot, Over),
            _ => Trail(RearEndTests.Stroke(LinkageMember.UpperLink, 50)),
        };

    [Theory]
    [MemberData(nameof(Bikes))]
    public void GearDemand_TenTimesFinerSweep_FindsNothingWorse(string name)
    {
        var spec = Bike(name);
        Assert.Empty(SpecCheck.Problems(spec));
        var travel = spec.Frame.Suspension!.TravelMm;
        for (var cog = 0; cog < 12; cog++)
        {
            var demand = Demand(spec, cog);
            Assert.Equal(
                NeedsAt(spec, cog, demand.NeedsAtTravelMm).Needs,
                demand.NeedsPitches,
                1e-9
            );
            Assert.Equal(
                NeedsAt(spec, cog, demand.TakesAtTravelMm).Takes,
                demand.TakesPitches,
                1e-9
            );
            for (var i = 0; i <= 400; i++)
            {
                var (needs, takes) = NeedsAt(spec, cog, i * travel / 400);
                Assert.True(needs <= demand.NeedsPitches + 0.01);
                Assert.True(takes >= demand.TakesPitches - 0.01);
            }
        }
    }

    private static GearDemand Demand(DrivetrainSpec spec, int cog) =>
        GearDemand.Of(spec, RearEnd.Of(spec.Frame), 0, cog, spec.RearDerailleur!.BodyAngleRad);

    private static (double Needs, double Takes) NeedsAt(DrivetrainSpec spec, int cog, double travel)
    {
        var gear = GearTableSolver.Solve(spec, 118, null, travel).Gears[cog];
        return (gear.NeedsAtFrontStop, gear.TakesAtRearStop);
    }

    [Fact]
    public void ChainChoice_OnSuspension_CountsTheLongestPositionNotSag()
    {
        var spec = Trail(OnLinks);
        var choice = ChainChooser.Choose(spec);
        var position = choice.LongestPosition!.Value;
        Assert.Equal(LongestPosition.Of(OnLinks), position);
        Assert.InRange(position.GrowthMm, 8, 20);
        // Rigid at the longest position, the direct path is the same; at sag it would be shorter.
        var direct = ChainPath.Round([
            new(RearEnd.Of(OnLinks).At(position.TravelMm).Axle, 51, 1),
            new(new(0, 0), 32, 1),
        ]);
        Assert.Equal(direct.Pitches, choice.Numbers.DirectLargestPitches, 1e-9);
        var rigid = ChainChooser.Choose(Trail(Rigid));
        Assert.True(choice.Numbers.ShortestSafe >= rigid.Numbers.ShortestSafe);
        Assert.True(direct.Pitches > rigid.Numbers.DirectLargestPitches + 1);
        Assert.Null(rigid.LongestPosition);
        Assert.Null(rigid.ShortestSetAtTravelMm);
        var demand = Demand(spec, 11);
        Assert.Equal(demand.NeedsAtTravelMm, choice.ShortestSetAtTravelMm!.Value);
    }

    [Theory]
    [MemberData(nameof(Bikes))]
    public void ChainChoice_AtTheEnds_IsSafeOverTheTravelAndNotBeyond(string name)
    {
        var spec = Bike(name);
        var choice = ChainChooser.Choose(spec);
        var shortest = choice.Numbers.ShortestSafe!.Value;
        var gears = spec
            .Cogs.Teeth.Select(cog => new Gear(32, cog))
            .Where(gear => choice.LeftOut.All(left => left.Gear != gear))
            .ToArray();
        Assert.DoesNotContain(
            GearState.Short,
            TravelSweep.Of(spec, gears, shortest, 200).State.ToArray()
        );
        Assert.Contains(
            GearState.Short,
            TravelSweep.Of(spec, gears, shortest - 2, 200).State.ToArray()
        );
        var longest = choice.Numbers.LongestSafe!.Value;
        Assert.DoesNotContain(
            GearState.Slack,
            TravelSweep.Of(spec, gears, longest, 200).State.ToArray()
        );
        Assert.Contains(
            GearState.Slack,
            TravelSweep.Of(spec, gears, longest + 2, 200).State.ToArray()
        );
    }

    [Fact]
    public void GapCorrection_AtATravel_InvertsTheModelThere()
    {
        var spec = Trail(OnPivot);
        var gear = new Gear(32, 51);
        var sag = GearTableSolver.Solve(spec, 118).Find(gear)!.Value.GapMm;
        var correction = GapCorrector.Correct(spec, 118, gear, sag, sag + 1);
        Assert.Equal(sag, correction.ModelMm, 1e-9);
        var after = GearTableSolver.Solve(
            spec,
            118,
            spec.RearDerailleur!.BodyAngleRad + correction.ExactBodyAngleChangeRad,
            42
        );
        Assert.Equal(sag + 1, after.Find(gear)!.Value.GapMm, 1e-8);
        var extended = GapCorrector.Correct(spec, 118, gear, 10, 11, null, 0);
        Assert.NotEqual(correction.ModelMm, extended.ModelMm, 0.01);
        Assert.Equal(0, extended.After!.TravelMm);
    }

    [Fact]
    public void Findings_ChainTooShortOnlyAtFullTravel_IsFoundFromSag()
    {
        // Nothing at sag shows it: the state there is ok, and the derailleur would be torn off at full compression.
        var spec = Trail(OnLinks);
        var demand = Demand(spec, 11);
        var gear = new Gear(32, 51);
        var pitches = (int)Math.Floor(demand.NeedsPitches);
        var table = GearTableSolver.Solve(spec, pitches);
        Assert.Equal(GearState.Ok, table.Find(gear)!.Value.State);
        var finding = Assert.Single(
            Findings.Of(table),
            f => f.Gear == gear && f.Kind == FindingKind.ShortInTravel
        );
        Assert.Equal((demand.NeedsPitches - pitches) * 12.7, finding.ValueMm, 1e-9);
        Assert.Equal(demand.NeedsAtTravelMm, finding.LimitMm);
        var longer = GearTableSolver.Solve(spec, (int)Math.Ceiling(demand.NeedsPitches));
        Assert.DoesNotContain(Findings.Of(longer), f => f.Kind == FindingKind.ShortInTravel);
    }

    [Fact]
    public void Findings_ChainTooLongSomewhereInTheTravel_IsFoundFromFullTravel()
    {
        var spec = Trail(OnLinks);
        var demand = Demand(spec, 0);
        var pitches = (int)Math.Ceiling(demand.TakesPitches);
        var table = GearTableSolver.Solve(spec, pitches, null, 140);
        Assert.Equal(GearState.Ok, table.Find(new(32, 10))!.Value.State);
        Assert.Contains(
            Findings.Of(table),
            f => f.Gear == new Gear(32, 10) && f.Kind == FindingKind.SlackInTravel
        );
    }
}
