using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.Tests;

public sealed class KnobsTests
{
    private static readonly SpecSheet Sheet = DemoWorkshop.Sheet("demo-road-2x12-wireless");

    private static ComputedBike Bike(SpecSheet sheet) =>
        ComputedBike.Of(sheet.Check(DemoParts.Library).Spec!);

    [Fact]
    public void Screw_TurnedIn_WidensTheGapAndComesBackInWords()
    {
        var bike = Bike(Sheet);
        var screw = Knobs.Of(bike, bike.GapGear).Single(knob => knob.Key == "screw");
        var trial = screw.Write(Trial.None, 0.5);
        Assert.Equal("½ turn in", screw.Say(screw.Nearest(screw.Read(trial))));
        Assert.True(
            bike.With(trial).Table.Find(bike.GapGear)!.Value.GapMm
                > bike.Table.Find(bike.GapGear)!.Value.GapMm
        );
        Assert.Equal(Trial.None, screw.Write(trial, 0));
    }

    [Fact]
    public void Moving_OneGear_IsTheGearOfTheWholeTable()
    {
        var bike = Bike(Sheet);
        foreach (var knob in Knobs.Of(bike, bike.GapGear).Where(knob => !knob.ChangesShape))
        {
            var trial = knob.Write(Trial.None, knob.Most);
            Assert.Equal(
                bike.With(trial).Table.Find(bike.GapGear),
                bike.Moving(trial, bike.GapGear).Find(bike.GapGear)
            );
        }
    }

    [Fact]
    public void EveryKnob_OfEveryDemoBike_GoesToBothEndsAndBack()
    {
        foreach (var id in DemoWorkshop.Ids)
        {
            var bike = Bike(DemoWorkshop.Sheet(id));
            foreach (var knob in Knobs.Of(bike, bike.Table.Gears[^1].Gear))
            {
                foreach (var value in (double[])[knob.Least, knob.Most])
                {
                    var trial = knob.Write(Trial.None, value);
                    Assert.Equal(value, knob.Read(trial), 9);
                    Assert.NotEmpty(knob.Say(value));
                    Assert.NotEmpty(bike.With(trial).Table.Gears);
                    Assert.Equal(Trial.None, knob.Write(trial, knob.AsSpec));
                }
            }
        }
    }

    [Fact]
    public void Keep_OfAHalfTurn_GivesTheGapThatWasTried()
    {
        var bike = Bike(Sheet);
        var knobs = Knobs.Of(bike, bike.GapGear);
        var trial = knobs.Single(knob => knob.Key == "screw").Write(Trial.None, 0.5);
        var keeping = TrialKeeping.Of(Sheet, bike, trial);
        var after = Bike(keeping.Sheet);
        Assert.Single(keeping.Kept);
        Assert.Empty(keeping.Left);
        Assert.Equal("4.5", keeping.Sheet["rearDerailleur.bodyAngleScrew.turnsLeftIn"]);
        Assert.Equal("3.5", keeping.Sheet["rearDerailleur.bodyAngleScrew.turnsLeftOut"]);
        Assert.Equal(
            bike.With(trial).Table.Find(bike.GapGear)!.Value.GapMm,
            after.Table.Find(bike.GapGear)!.Value.GapMm,
            2
        );
    }

    [Fact]
    public void Keep_OfAnotherRing_ChangesItWhereverItIsNamed()
    {
        var bike = Bike(Sheet);
        var gear = new Gear(50, 34);
        var knobs = Knobs.Of(bike, gear);
        var trial = knobs.Single(knob => knob.Key == "ring").Write(Trial.None, 52);
        var sheet = TrialKeeping.Of(Sheet, bike, trial).Sheet;
        Assert.Equal("52", sheet["rings[0].teeth"]);
        Assert.Equal("34", sheet["rings[1].teeth"]);
        Assert.Equal("52", sheet["gearsNotUsed[0].ring"]);
        Assert.NotNull(sheet.Check(DemoParts.Library).Spec);
    }

    [Fact]
    public void Keep_OfATiltedHanger_StaysATrial()
    {
        var bike = Bike(Sheet);
        var knobs = Knobs.Of(bike, bike.GapGear);
        var trial = knobs.Single(knob => knob.Key == "lean").Write(Trial.None, 3);
        var keeping = TrialKeeping.Of(Sheet, bike, trial);
        Assert.Empty(keeping.Kept);
        Assert.Single(keeping.Left);
        Assert.Same(Sheet, keeping.Sheet);
    }
}
