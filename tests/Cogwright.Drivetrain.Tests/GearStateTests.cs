using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Each state of a gear with its blame and its figure, each figure computed another way.</summary>
public class GearStateTests
{
    private static DrivetrainSpec With(Func<RearDerailleur, RearDerailleur> change) =>
        Spec with
        {
            RearDerailleur = change(Spec.RearDerailleur!),
        };

    [Fact]
    public void GearTable_OutboardStopBeforeTheCog_SaysHowManyMillimetresAreMissing()
    {
        var gear = GearTableSolver
            .Solve(With(d => d with { OutboardStopRad = Rad(-20) }), 110)
            .Find(new(50, 11))!
            .Value;
        Assert.Equal(GearState.Unreachable, gear.State);
        Assert.Equal(Blame.OutboardStop, gear.Blame);
        Assert.False(gear.HasReach);
        Assert.False(gear.HasPose);
        // The worked example needs a swing of −33.8079°.
        var missing = 57.8 * Math.Cos(Rad(52)) * (Math.Sin(Rad(33.8079)) - Math.Sin(Rad(20)));
        Assert.Equal(missing, gear.ShortfallMm, 1e-4);
        Assert.Equal(-20, Deg(gear.SwingRad), 1e-9);
    }

    [Fact]
    public void GearTable_InboardStopBeforeTheCog_SaysHowManyMillimetresAreMissing()
    {
        var gear = GearTableSolver
            .Solve(With(d => d with { InboardStopRad = Rad(30) }), 110)
            .Find(new(34, 34))!
            .Value;
        Assert.Equal(Blame.InboardStop, gear.Blame);
        var missing = 57.8 * Math.Cos(Rad(52)) * (Math.Sin(Rad(33.8079)) - Math.Sin(Rad(30)));
        Assert.Equal(missing, gear.ShortfallMm, 1e-4);
    }

    [Fact]
    public void GearTable_LinkTooShort_BlamesTheParallelogram()
    {
        var gear = GearTableSolver
            .Solve(With(d => d with { LinkLengthMm = 30 }), 110)
            .Find(new(50, 11))!
            .Value;
        Assert.Equal(GearState.Unreachable, gear.State);
        Assert.Equal(Blame.Parallelogram, gear.Blame);
        // 64.3 − 44.5 = 19.8 mm outboard of the middle are wanted.
        Assert.Equal(19.8 - (30 * Math.Cos(Rad(52))), gear.ShortfallMm, 1e-9);
    }

    [Fact]
    public void GearTable_BodyTurnedFurther_ClashesWhereTheGapIsGone()
    {
        var clashes = 0;
        for (var body = 15; body <= 60; body++)
        {
            var gear = GearTableSolver.Solve(Spec, 108, Rad(body)).Find(new(34, 34))!.Value;
            if (!gear.HasPose)
            {
                continue;
            }
            Assert.Equal(gear.GapMm <= 0, gear.State == GearState.Clash);
            if (gear.State == GearState.Clash)
            {
                clashes++;
                Assert.Equal(Blame.GuidePulleyOnCog, gear.Blame);
                Assert.Equal(-gear.GapMm, gear.ShortfallMm);
            }
        }
        Assert.True(clashes > 0);
    }

    [Fact]
    public void GearTable_HangerOnTheAxle_NoPoseIsFree()
    {
        // The lower knuckle inside the largest cog: at no cage angle is the guide pulley clear of it.
        var spec = Spec with
        {
            Hanger = new(new(30, 30)),
            RearDerailleur = Spec.RearDerailleur! with
            {
                Cage = Spec.RearDerailleur!.Cage with
                {
                    RearStopRad = Rad(-20),
                    FrontStopRad = Rad(20),
                },
            },
        };
        var gear = GearTableSolver.Solve(spec, 110).Find(new(50, 34))!.Value;
        Assert.Equal(GearState.Clash, gear.State);
        Assert.Equal(Blame.OverlappingSprockets, gear.Blame);
        Assert.False(gear.HasPose);
    }

    [Fact]
    public void Findings_WorkedExample_AreThePartsLimitsAppliedToTheTable()
    {
        var table = GearTableSolver.Solve(Spec, 110);
        var findings = Findings.Of(table);
        foreach (var gear in table.Gears)
        {
            bool Has(FindingKind kind) => findings.Any(f => f.Gear == gear.Gear && f.Kind == kind);
            var ok = gear.State == GearState.Ok;
            Assert.Equal(!ok, Has(FindingKind.State));
            Assert.Equal(ok && gear.GapMm < 2, Has(FindingKind.GapBelowLeast));
            Assert.Equal(ok && gear.GapToNextMm < 2, Has(FindingKind.GapToNextBelowLeast));
            Assert.Equal(ok && gear.TightMarginMm < 3, Has(FindingKind.LittleTightMargin));
            Assert.Equal(ok && gear.LooseMarginMm < 3, Has(FindingKind.LittleLooseMargin));
        }
        // 50/34 needs 109.7539 of 110 pitches: 3.1 mm, just enough.
        Assert.DoesNotContain(findings, f => f.Gear == new Gear(50, 34));
    }

    [Fact]
    public void GearTable_OneRing_HasOneGearPerCog()
    {
        var spec = Spec with { Rings = [new(42, 45)] };
        Assert.Empty(SpecCheck.Problems(spec));
        var table = GearTableSolver.Solve(spec, 110);
        Assert.Equal(12, table.Gears.Length);
        Assert.All(table.Gears, gear => Assert.Equal(42, gear.Gear.RingTeeth));
        Assert.Equal(23, ChainChooser.Choose(spec).CapacityTeeth);
    }
}
