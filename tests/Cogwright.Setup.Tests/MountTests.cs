using Cogwright.Drivetrain;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

/// <summary>What a sprung mount and a damper change in the work.</summary>
public sealed class MountTests
{
    private static readonly CageSpring Spring = new(0.9, 0.35);

    private static readonly DrivetrainSpec Damped = With(new(0.4), null);

    private static readonly DrivetrainSpec Sprung = With(
        null,
        new(0, 0.7, 1.2, 1.2) { ScrewNmPerTurn = 0.1 }
    );

    private static DrivetrainSpec With(Damper? damper, SprungMount? mount) =>
        Bikes.Double with
        {
            RearDerailleur = Bikes.Double.RearDerailleur! with
            {
                Sprung = mount,
                Cage = Bikes.Double.RearDerailleur!.Cage with { Spring = Spring, Damper = damper },
            },
        };

    [Fact]
    public void Make_Damper_GoesOffBeforeTheChainAndOnAgainBeforeTheTest()
    {
        var targets = Bikes.Targets(Damped, Bikes.CableDouble);
        var ids = targets.Select(t => t.Id).ToList();
        var off = ids.IndexOf(TargetNames.DamperOff);
        var on = ids.IndexOf(TargetNames.DamperOn);
        Assert.True(off >= 0);
        Assert.True(off < ids.IndexOf(TargetNames.DirectPath));
        Assert.True(off < ids.IndexOf(TargetNames.Gap));
        Assert.True(ids.IndexOf(TargetNames.Gap) < on);
        Assert.True(on < ids.IndexOf("loaded-test"));
        Assert.Equal(WorkStage.LoadedTest, targets[on].Stage);
    }

    /// <summary>A damper that the spec says is off must be put on again all the same.</summary>
    [Fact]
    public void Make_DamperOffInTheSpec_StillComesBackOn()
    {
        var ids = Bikes
            .Targets(With(new(0.4, On: false), null), Bikes.CableDouble)
            .Select(t => t.Id);
        Assert.Contains(TargetNames.DamperOn, ids);
    }

    [Fact]
    public void Make_NoDamper_AsksForNone()
    {
        var ids = Bikes.Targets(Sprung, Bikes.CableDouble).Select(t => t.Id).ToList();
        Assert.DoesNotContain(TargetNames.DamperOff, ids);
        Assert.DoesNotContain(TargetNames.DamperOn, ids);
    }

    [Fact]
    public void Gap_SprungMount_TellsWhatALongerChainDoes()
    {
        var target = Bikes.Targets(Sprung, Bikes.CableDouble).Single(t => t.Id == TargetNames.Gap);
        var longer = GearTableSolver
            .Solve(Sprung, 112)
            .Find(new(target.Gear!.Value.RingTeeth, target.Gear.Value.CogTeeth))!
            .Value.GapMm;
        Assert.Contains(
            string.Create(
                System.Globalization.CultureInfo.InvariantCulture,
                $"with two pitches more the model gives {longer:0.0} mm"
            ),
            target.Note,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Gap_SprungMountAndDamper_TellsTheBand()
    {
        var spec = With(new(0.3), Sprung.RearDerailleur!.Sprung);
        var note = Bikes.Targets(spec, Bikes.CableDouble).Single(t => t.Id == TargetNames.Gap).Note;
        Assert.Contains("With the damper on it may read anything", note, StringComparison.Ordinal);
        Assert.Null(Bikes.Catalogue(Damped).GapBandMm((34, 30)));
    }

    [Fact]
    public void CorrectGap_SprungMount_TurnsTheScrewAndGivesEveryGear()
    {
        var catalogue = Bikes.Catalogue(Sprung);
        Assert.True(catalogue.Screw!.EffectKnown);
        var advice = catalogue.CorrectGap((34, 30), 9.2, 7.0);
        Assert.Equal(GapAdviceKind.Turn, advice.Kind);
        Assert.True(advice.Turns < 0);
        Assert.Equal(24, advice.After.Length);
    }

    [Fact]
    public void CorrectGap_BodyOnItsTab_SaysThatTheScrewDoesNotMoveIt()
    {
        var catalogue = Bikes.Catalogue(
            With(null, new(0.17, 0.7, 6, 1.2) { ScrewNmPerTurn = 0.1 })
        );
        var gap = catalogue.Find(QuantityNames.Gap, (34, 30))!.Value;
        var advice = catalogue.CorrectGap((34, 30), gap, gap + 2);
        Assert.Equal(GapAdviceKind.NoSolution, advice.Kind);
        Assert.Contains(
            "does not follow the screw",
            Assert.Single(GapAdviceWords.ToDo(advice, catalogue.Screw)),
            StringComparison.Ordinal
        );
    }
}
