using Cogwright.Drivetrain;

namespace Cogwright.Setup.Tests;

public sealed class OrderTests
{
    public static TheoryData<string> BikeNames => [.. Bikes.All.Select(bike => bike.Name)];

    [Theory]
    [MemberData(nameof(BikeNames))]
    public void Make_EveryKindOfBike_KeepsTheOrderOfStages(string name)
    {
        var (_, spec, work) = Bikes.All.Single(bike => bike.Name == name);
        var order = StageOrder.For(work.Actuation, CableSense.RestsInboard(spec));
        var places = Bikes.Targets(spec, work).Select(t => order.IndexOf(t.Stage)).ToArray();
        Assert.Equal(places.Order(), places);
        Assert.DoesNotContain(-1, places);
    }

    [Theory]
    [MemberData(nameof(BikeNames))]
    public void Make_EveryKindOfBike_NamesEachTargetOnce(string name)
    {
        var (_, spec, work) = Bikes.All.Single(bike => bike.Name == name);
        var ids = Bikes.Targets(spec, work).Select(t => t.Id).ToArray();
        Assert.Equal(ids.Distinct(), ids);
    }

    [Fact]
    public void For_EveryActuation_ListsEveryStageOnce() =>
        Assert.All(
            Enum.GetValues<Actuation>(),
            actuation =>
                Assert.Equal(
                    Enum.GetValues<WorkStage>(),
                    StageOrder.For(actuation).Order().ToArray()
                )
        );

    [Fact]
    public void For_Cable_IsTheOrderOfTheEnum() =>
        Assert.Equal(Enum.GetValues<WorkStage>(), StageOrder.For(Actuation.Cable));

    // Common practice of the trade: each pair would break something, or be done twice, the other way round.
    [Theory]
    [InlineData("frame-cracks", "tighten-rearAxle")]
    [InlineData("wheel-seated", "hanger-straight")]
    [InlineData("tighten-rearAxle", "hanger-straight")]
    [InlineData("hanger-thread", "hanger-straight")]
    [InlineData("tighten-hangerScrews", "hanger-straight")]
    [InlineData("hanger-straight", "tighten-rearMount")]
    [InlineData("tighten-lockring", "outboard-stop")]
    [InlineData("tighten-lockring", "index-cogs")]
    [InlineData("rough-stops", "chain-cut")]
    [InlineData("direct-path", "chain-cut")]
    [InlineData("chain-pitches", "chain-cut")]
    [InlineData("chain-count-twice", "chain-cut")]
    [InlineData("chain-joined", "stand-test")]
    [InlineData("cable-friction", "index-first")]
    [InlineData("shifter-released", "tighten-rearCable")]
    [InlineData("cable-adjuster", "tighten-rearCable")]
    [InlineData("outboard-stop", "inboard-stop-proven")]
    [InlineData("index-cogs", "inboard-stop-proven")]
    [InlineData("inboard-stop-proven", "first-shift-largest")]
    [InlineData("inboard-stop-proven", "tight-end")]
    [InlineData("first-shift-largest", "gap")]
    [InlineData("gap", "index-again")]
    [InlineData("gap", "inboard-stop-again")]
    [InlineData("index-again", "inboard-stop-again")]
    [InlineData("index-again", "cable-trimmed")]
    [InlineData("front-height", "front-inner-gap")]
    [InlineData("front-parallel", "front-inner-gap")]
    [InlineData("front-inner-gap", "tighten-frontCable")]
    [InlineData("tighten-frontCable", "front-outer-gap")]
    [InlineData("front-outer-gap", "front-trim")]
    [InlineData("front-trim", "front-cable-trimmed")]
    [InlineData("battery-out", "frame-cracks")]
    [InlineData("battery-charge", "index-offset")]
    [InlineData("pairing", "index-offset")]
    [InlineData("wiring", "index-offset")]
    [InlineData("inboard-stop-again", "loaded-test")]
    [InlineData("torque-pedals", "battery-in")]
    [InlineData("torque-pedals", "brakes-first")]
    [InlineData("brakes-first", "loaded-test")]
    [InlineData("chain-play", "tighten-rearAxle", "one gear")]
    [InlineData("chain-closed", "tighten-rearAxle")]
    [InlineData("tighten-rearAxle", "chain-joined", "one gear")]
    [InlineData("damper-on", "battery-in")]
    [InlineData("stand-test", "battery-in")]
    [InlineData("battery-in", "loaded-test")]
    public void Make_OrderConstraint_HoldsOnEveryBikeThatHasBoth(
        string before,
        string after,
        string? only = null
    )
    {
        var seen = 0;
        foreach (var (name, spec, work) in Bikes.All)
        {
            if (after == TargetNames.InboardStopProven && CableSense.RestsInboard(spec))
            {
                // Its inboard stop comes first: AtRestTests hold that order.
                continue;
            }
            var ids = Bikes.Targets(spec, work).Select(t => t.Id).ToList();
            if (ids.Contains(before) && ids.Contains(after) && (only is null || only == name))
            {
                seen++;
                Assert.True(ids.IndexOf(before) < ids.IndexOf(after), name);
            }
        }
        Assert.True(seen > 0, $"no bike has both {before} and {after}");
    }

    [Fact]
    public void Make_Cable_SetsTheOutboardStopBeforeTheFirstClick() =>
        AssertOrder(Bikes.CableDouble, "outboard-stop", "index-first");

    // Common practice: fine offset before the stop screws, which are brought up to the mechanism.
    [Fact]
    public void Make_MotorDriven_SetsTheOffsetBeforeTheStopScrews() =>
        AssertOrder(Bikes.MotorDouble, "index-offset", "outboard-stop");

    [Theory]
    [MemberData(nameof(BikeNames))]
    public void Make_NoTargetBeforeTheProvenStop_SendsTheChainToTheLargestCog(string name)
    {
        var (_, spec, work) = Bikes.All.Single(bike => bike.Name == name);
        if (spec.RearDerailleur is null)
        {
            Assert.DoesNotContain(
                Bikes.Targets(spec, work),
                t => t.Id == TargetNames.InboardStopProven
            );
            return;
        }
        var largest = spec.Cogs.Teeth[^1];
        var before = Bikes
            .Targets(spec, work)
            .TakeWhile(t => t.Id != TargetNames.InboardStopProven)
            .Where(t => t.Gear is { } gear && gear.CogTeeth == largest)
            .Select(t => t.Id);
        // The direct path is laid by hand, not through the derailleur; with springs that pull inboard no chain is on yet.
        Assert.Equal(CableSense.RestsInboard(spec) ? [] : [TargetNames.DirectPath], before);
    }

    private static void AssertOrder(WorkSpec work, string before, string after)
    {
        var ids = Bikes.Targets(Bikes.Double, work).Select(t => t.Id).ToList();
        Assert.Contains(before, ids);
        Assert.True(ids.IndexOf(before) < ids.IndexOf(after));
    }
}
