using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>What must add up in a solved gear: forces, teeth, margins.</summary>
public class GearTableBalanceTests
{
    private static readonly CageSpring Spring = new(0.9, 0.35);

    private static readonly DrivetrainSpec Sprung = Spec with
    {
        RearDerailleur = Spec.RearDerailleur! with
        {
            Cage = Spec.RearDerailleur!.Cage with { Spring = Spring },
        },
    };

    /// <summary>
    /// The spring's torque against the forces that a chain of that tension lays on both pulleys, taken from the tangent
    /// points of the general chain path: Σ r × (tension along each run), about the cage pivot.
    /// </summary>
    [Fact]
    public void LowerRunTension_MomentsAboutTheCagePivot_BalanceTheSpring()
    {
        foreach (var gear in GearTableSolver.Solve(Sprung, 110).Gears)
        {
            if (!gear.HasPose)
            {
                continue;
            }
            var path = PathOf(gear);
            var moment = 0.0;
            // Runs 1 ring→tension, 2 tension→guide, 3 guide→cog; each pulls at its tangent point.
            moment += Moment(path.Runs[1].End, path.Runs[1], -1);
            moment += Moment(path.Runs[2].Start, path.Runs[2], 1);
            moment += Moment(path.Runs[2].End, path.Runs[2], -1);
            moment += Moment(path.Runs[3].Start, path.Runs[3], 1);
            var torque = TorqueNm(gear.CageAngleRad);
            Assert.Equal(torque, gear.LowerRunTensionN * moment / 1000, 1e-9);

            double Moment(Point at, ChainRun run, int sign)
            {
                var arm = at - gear.CagePivot;
                var (sin, cos) = Math.SinCos(run.DirectionRad);
                return sign * ((arm.X * sin) - (arm.Y * cos));
            }
        }
    }

    /// <summary>
    /// Virtual work: swinging the cage by dθ forward gives the chain −dS of string, S along the true arcs; T·dS = τ·dθ.
    /// </summary>
    [Fact]
    public void LowerRunTension_VirtualWork_EqualsTheSpringsWork()
    {
        const double h = 1e-5;
        foreach (var gear in GearTableSolver.Solve(Sprung, 110).Gears)
        {
            var release =
                (String(gear, gear.CageAngleRad - h) - String(gear, gear.CageAngleRad + h))
                / (2 * h);
            var work = gear.LowerRunTensionN * release / 1000;
            Assert.Equal(TorqueNm(gear.CageAngleRad), work, 1e-6);
        }
    }

    [Fact]
    public void LowerRunTension_NoSpring_IsNotSaid()
    {
        Assert.All(
            GearTableSolver.Solve(Spec, 110).Gears,
            gear => Assert.True(double.IsNaN(gear.LowerRunTensionN))
        );
    }

    /// <summary>All free runs and all teeth in mesh are the chain.</summary>
    [Fact]
    public void TeethInMesh_WithTheFreeRuns_AddUpToTheChain()
    {
        foreach (var gear in GearTableSolver.Solve(Spec, 110).Gears)
        {
            var path = PathOf(gear);
            Assert.Equal(110, path.Pitches, 1e-8);
            Assert.Equal(path.Wraps[0].Teeth, gear.CogTeethInMesh, 1e-8);
            Assert.Equal(path.Wraps[1].Teeth, gear.RingTeethInMesh, 1e-8);
            Assert.Equal(path.Runs[0].LengthMm, gear.TopRunMm, 1e-8);
            Assert.Equal(path.Runs[1].LengthMm, gear.LowerRunMm, 1e-8);
            Assert.InRange(Math.Abs(gear.ResidualPitches), 0, CageClosure.TautWithinPitches);
        }
    }

    /// <summary>A gear turns short, or slack, at the chain length at which its margin passes 0, and nowhere else.</summary>
    [Fact]
    public void Margins_EveryChainLength_ChangeSignWhereTheStateChanges()
    {
        for (var pitches = 84; pitches <= 136; pitches++)
        {
            foreach (var gear in GearTableSolver.Solve(Spec, pitches).Gears)
            {
                Assert.Equal(gear.State == GearState.Short, gear.TightMarginMm < 0);
                Assert.Equal(gear.State == GearState.Slack, gear.LooseMarginMm < 0);
                Assert.Equal((pitches - gear.NeedsAtFrontStop) * 12.7, gear.TightMarginMm, 1e-9);
                Assert.Equal((gear.TakesAtRearStop - pitches) * 12.7, gear.LooseMarginMm, 1e-9);
                if (gear.State is GearState.Short)
                {
                    Assert.Equal(-gear.TightMarginMm, gear.ShortfallMm, 1e-9);
                }
                if (gear.State is GearState.Slack)
                {
                    Assert.Equal(-gear.LooseMarginMm, gear.ShortfallMm, 1e-9);
                }
            }
        }
    }

    /// <summary>A worn chain is longer than its pitches say: in the same gear the cage stands further rearward.</summary>
    [Fact]
    public void CageAngle_WornChain_StandsFurtherRearward()
    {
        var worn = Spec with
        {
            Chain = new() { Pitches = 110, Elongation = 0.0075 },
        };
        var fresh = GearTableSolver.Solve(Spec, 110);
        foreach (var gear in GearTableSolver.Solve(worn, 110).Gears)
        {
            if (gear.HasPose)
            {
                Assert.True(gear.CageAngleRad < fresh.Find(gear.Gear)!.Value.CageAngleRad);
                Assert.Equal(110, PathOf(gear, 12.7 * 1.0075).Pitches, 1e-8);
            }
        }
    }

    /// <summary>Two tips taken as rectangular between ISO 606's limits: u² = Σ half²/3 (JCGM 100, 4.3.7).</summary>
    [Fact]
    public void GapTipUncertainty_UnmeasuredTips_IsRectangularAndVanishesWhenMeasured()
    {
        var gear = GearTableSolver.Solve(Spec, 110).Find(new(34, 34))!.Value;
        // Spreads of the tip diameter from the published table: 145.767 − 141.994 and 57.194 − 52.326.
        var expected = Math.Sqrt(((3.773 / 4 * 3.773 / 4) + (4.868 / 4 * 4.868 / 4)) / 3);
        Assert.Equal(expected, gear.GapTipUncertaintyMm, 0.001);
        var measured = Spec with
        {
            Cogs = Spec.Cogs with
            {
                TipDiametersMm = [.. Enumerable.Repeat<double?>(null, 11), 143.0],
            },
            RearDerailleur = Spec.RearDerailleur! with
            {
                Cage = Spec.RearDerailleur!.Cage with { Guide = new(new(-10.8, 1.0), 12, 54.0) },
            },
        };
        var known = GearTableSolver.Solve(measured, 110).Find(new(34, 34))!.Value;
        Assert.Equal(0, known.GapTipUncertaintyMm);
        var tips = (143.0 + 54.0) / 2;
        Assert.Equal((known.Guide - Spec.Frame.Axle).Length - tips, known.GapMm, 1e-9);
    }

    private static double TorqueNm(double cageAngleRad) =>
        Spring.TorqueAtRearStopNm + (Spring.RateNmPerRad * (cageAngleRad - Rad(-100)));

    private static ChainPath PathOf(in GearResult gear, double pitchMm = 12.7) =>
        PathOf(gear, gear.CageAngleRad, pitchMm);

    private static ChainPath PathOf(in GearResult gear, double cageAngle, double pitchMm)
    {
        var cage = Spec.RearDerailleur!.Cage;
        return ChainPath.Round(
            [
                new(Spec.Frame.Axle, gear.Gear.CogTeeth, 1),
                new(new(0, 0), gear.Gear.RingTeeth, 1),
                new(
                    gear.CagePivot + cage.Tension.OffsetMm.Turned(cageAngle),
                    cage.Tension.Teeth,
                    1
                ),
                new(gear.CagePivot + cage.Guide.OffsetMm.Turned(cageAngle), cage.Guide.Teeth, -1),
            ],
            pitchMm
        );
    }

    /// <summary>The path as a string of free runs and true arcs (mm).</summary>
    private static double String(in GearResult gear, double cageAngle)
    {
        var path = PathOf(gear, cageAngle, 12.7);
        int[] teeth = [gear.Gear.CogTeeth, gear.Gear.RingTeeth, 12, 12];
        return path.Runs.Sum(run => run.LengthMm)
            + path.Wraps.Sum(wrap => wrap.AngleRad * Sprocket.PitchRadiusMm(teeth[wrap.Sprocket]));
    }
}
