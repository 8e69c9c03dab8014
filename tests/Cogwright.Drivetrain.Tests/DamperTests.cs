using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The damper: a band of tension, and on a sprung mount a band of gap.</summary>
public class DamperTests
{
    private static readonly CageSpring Spring = new(0.9, 0.35);

    private static DrivetrainSpec Damped(DrivetrainSpec spec, Damper damper) =>
        spec with
        {
            RearDerailleur = spec.RearDerailleur! with
            {
                Cage = spec.RearDerailleur!.Cage with { Spring = Spring, Damper = damper },
            },
        };

    /// <summary>Coulomb: T·lever = τ ± τ_f, the lever from the tangent points of the general path.</summary>
    [Fact]
    public void Band_FixedMount_IsTheTorquesOverTheLever()
    {
        var table = GearTableSolver.Solve(Damped(Spec, new(0.4)), 110);
        foreach (var gear in table.Gears.Where(g => g.HasPose))
        {
            var band = DamperBand.Of(table, gear)!.Value;
            var twin = new NaiveSprung(SprungExample.Spec, gear.Gear, 110);
            var lever =
                NaiveSprung.MomentMm(
                    twin.Path(gear.BodyAngleRad, gear.CageAngleRad),
                    gear.CagePivot
                ) / 1000;
            var torque = 0.9 + (0.35 * (gear.CageAngleRad - Rad(-100)));
            Assert.Equal((torque + 0.4) / lever, band.ForwardN, 1e-8);
            Assert.Equal((torque - 0.4) / lever, band.ReturningN, 1e-8);
            Assert.True(band.Returns);
            Assert.Equal(gear.GapMm, band.GapForwardMm);
            Assert.Equal(gear.GapMm, band.GapReturningMm);
        }
    }

    /// <summary>A spring without torque is allowed; the friction over the lever still holds the chain on its way forward.</summary>
    [Fact]
    public void Band_SpringWithoutTorque_IsTheFrictionOverTheLever()
    {
        var spec = Damped(Spec, new(0.4));
        spec = spec with
        {
            RearDerailleur = spec.RearDerailleur! with
            {
                Cage = spec.RearDerailleur!.Cage with { Spring = new(0, 0) },
            },
        };
        Assert.Empty(SpecCheck.Problems(spec));
        var table = GearTableSolver.Solve(spec, 110);
        var gears = table.Gears.Where(g => g.HasPose).ToArray();
        Assert.NotEmpty(gears);
        foreach (var gear in gears)
        {
            var band = DamperBand.Of(table, gear)!.Value;
            var twin = new NaiveSprung(SprungExample.Spec, gear.Gear, 110);
            var lever =
                NaiveSprung.MomentMm(
                    twin.Path(gear.BodyAngleRad, gear.CageAngleRad),
                    gear.CagePivot
                ) / 1000;
            Assert.Equal(0.4 / lever, band.ForwardN, 1e-8);
            Assert.Equal(0, band.ReturningN);
            Assert.False(band.Returns);
        }
    }

    /// <summary>On a sprung mount friction acts like a cage spring that much stronger or weaker: the same bike with such a spring.</summary>
    [Fact]
    public void Band_SprungMount_IsThatOfStrongerAndWeakerCageSprings()
    {
        var table = GearTableSolver.Solve(Damped(SprungExample.Spec, new(0.3)), 110);
        var mount = SprungExample.Spec.RearDerailleur!.Sprung!;
        var strong = GearTableSolver.Solve(SprungExample.With(Spec, new(1.2, 0.35), mount), 110);
        var weak = GearTableSolver.Solve(SprungExample.With(Spec, new(0.6, 0.35), mount), 110);
        for (var i = 0; i < table.Gears.Length; i++)
        {
            var band = DamperBand.Of(table, table.Gears[i])!.Value;
            Assert.Equal(strong.Gears[i].LowerRunTensionN, band.ForwardN, 1e-8);
            Assert.Equal(weak.Gears[i].LowerRunTensionN, band.ReturningN, 1e-8);
            Assert.Equal(strong.Gears[i].GapMm, band.GapForwardMm, 1e-7);
            Assert.Equal(weak.Gears[i].GapMm, band.GapReturningMm, 1e-7);
            Assert.True(band.BodyForwardRad > band.BodyReturningRad);
            Assert.True(band.GapForwardMm < table.Gears[i].GapMm);
            Assert.True(band.GapReturningMm > table.Gears[i].GapMm);
        }
    }

    /// <summary>The table itself is that of the middle: friction holds no chain at rest.</summary>
    [Fact]
    public void Solve_DamperOn_IsTheTableWithoutIt()
    {
        var plain = SprungExample.Spec;
        Assert.Equal(
            GearTableSolver.Solve(plain, 110).Gears,
            GearTableSolver.Solve(Damped(plain, new(0.3)), 110).Gears
        );
    }

    [Fact]
    public void Band_DamperOffOrNone_IsNotSaid()
    {
        foreach (var spec in new[] { Damped(Spec, new(0.4, On: false)), Spec })
        {
            var table = GearTableSolver.Solve(spec, 110);
            Assert.All(table.Gears, gear => Assert.Null(DamperBand.Of(table, gear)));
        }
    }

    /// <summary>The older way to state it, beside the spring, still counts.</summary>
    [Fact]
    public void Band_TorqueBesideTheSpring_CountsAsOn()
    {
        var older = Spec with
        {
            RearDerailleur = Spec.RearDerailleur! with
            {
                Cage = Spec.RearDerailleur!.Cage with
                {
                    Spring = Spring with { DamperTorqueNm = 0.4 },
                },
            },
        };
        var table = GearTableSolver.Solve(older, 110);
        var other = GearTableSolver.Solve(Damped(Spec, new(0.4)), 110);
        Assert.All(
            table.Gears,
            gear => Assert.Equal(DamperBand.Of(other, gear), DamperBand.Of(table, gear))
        );
    }

    /// <summary>Exactly the gears in which the friction is no less than the spring are named; their chain can go slack.</summary>
    [Fact]
    public void Findings_FrictionAboveTheSpring_NameTheGears()
    {
        foreach (var spec in new[] { Spec, SprungExample.Spec })
        {
            var table = GearTableSolver.Solve(Damped(spec, new(1.3)), 110);
            var named = Findings
                .Of(table)
                .Where(f => f.Kind == FindingKind.CageDoesNotReturn)
                .Select(f => f.Gear)
                .ToHashSet();
            Assert.InRange(named.Count, 1, 23);
            foreach (var gear in table.Gears.Where(g => g.State == GearState.Ok))
            {
                var rearStop = Rad(-100) + gear.BodyAngleRad - Rad(15.5);
                var torque = 0.9 + (0.35 * (gear.CageAngleRad - rearStop));
                // On a sprung mount the cage stands elsewhere by the time it should return: only far from the limit is it plain.
                if (spec == Spec || Math.Abs(torque - 1.3) > 0.1)
                {
                    Assert.Equal(torque <= 1.3, named.Contains(gear.Gear));
                }
                var band = DamperBand.Of(table, gear)!.Value;
                Assert.Equal(!named.Contains(gear.Gear), band.Returns);
                Assert.Equal(band.Returns, band.ReturningN > 0);
            }
        }
    }

    [Fact]
    public void Check_DamperTwiceOrWithoutSpring_NamesTheDamper()
    {
        var twice = Damped(Spec, new(0.4));
        twice = twice with
        {
            RearDerailleur = twice.RearDerailleur! with
            {
                Cage = twice.RearDerailleur!.Cage with
                {
                    Spring = Spring with { DamperTorqueNm = 0.4 },
                },
            },
        };
        Assert.Equal("rearDerailleur.cage.damper", Assert.Single(SpecCheck.Problems(twice)).Path);
        var without = twice with
        {
            RearDerailleur = twice.RearDerailleur! with
            {
                Cage = twice.RearDerailleur!.Cage with { Spring = null },
            },
        };
        Assert.Equal("rearDerailleur.cage.damper", Assert.Single(SpecCheck.Problems(without)).Path);
    }
}
