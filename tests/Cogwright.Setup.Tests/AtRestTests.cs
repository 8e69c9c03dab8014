using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

/// <summary>A cable derailleur whose springs pull inboard: order of work, words, and corrections with their sign.</summary>
public sealed class AtRestTests
{
    private static readonly WorkSpec Work = new() { Actuation = Actuation.Cable };

    private static readonly DrivetrainSpec Bike = CoaxialExample.AtRest();

    [Theory]
    [InlineData("rough-stops", "inboard-stop-proven")]
    [InlineData("inboard-stop-proven", "chain-routed")]
    [InlineData("inboard-stop-proven", "shifter-released")]
    [InlineData("inboard-stop-proven", "first-shift-largest")]
    [InlineData("chain-joined", "first-shift-largest")]
    [InlineData("first-shift-largest", "tight-end")]
    [InlineData("tight-end", "tighten-rearCable")]
    [InlineData("tighten-rearCable", "index-first")]
    [InlineData("index-first", "outboard-stop")]
    [InlineData("outboard-stop", "loose-end")]
    [InlineData("outboard-stop", "gap")]
    [InlineData("gap", "inboard-stop-again")]
    public void Targets_AtRest_ProveTheInboardStopFirst(string before, string after)
    {
        var ids = Bikes.Targets(Bike, Work).Select(t => t.Id).ToList();
        Assert.Contains(before, ids);
        Assert.Contains(after, ids);
        Assert.True(ids.IndexOf(before) < ids.IndexOf(after));
        Assert.Equal(ids.Distinct(), ids);
    }

    [Fact]
    public void Order_AtRest_ListsEveryStageOnce() =>
        Assert.Equal(
            Enum.GetValues<WorkStage>(),
            StageOrder.For(Actuation.Cable, true).Order().ToArray()
        );

    [Fact]
    public void Index_AtRest_StartsOnTheLargestCog()
    {
        var targets = Bikes.Targets(Bike, Work);
        var first = targets.Single(t => t.Id == "index-first");
        Assert.Equal((42, 26), first.Gear);
        Assert.Contains("from the largest", first.Title, StringComparison.Ordinal);
        Assert.Contains(
            "leave out the smallest cog",
            targets.Single(t => t.Id == "index-cogs").Title,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "cable pulled",
            targets.Single(t => t.Id == "outboard-stop").Convention,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Cautions_AtRest_SayWhereASlippingCableSendsIt()
    {
        var content = WorksheetContent.Make(Bikes.Catalogue(Bike), Work);
        var stop = content.Stages.Single(stage => stage.Stage is WorkStage.InboardStop);
        Assert.Equal("Inboard stop, cable slack", stop.Title);
        Assert.Contains(stop.Cautions, c => c.Contains("slips or snaps", StringComparison.Ordinal));
        var anchor = content.Stages.Single(stage => stage.Stage is WorkStage.CableOrPairing);
        Assert.Contains(anchor.Cautions, c => c.Contains("snaps sends", StringComparison.Ordinal));
    }

    /// <summary>
    /// By hand, with the usual barrel of 0.8 mm and a ratio of 1.7: 1.36 mm a turn. The pulley stands 0.34 mm too far
    /// outboard. Springs outboard: a quarter turn out (anticlockwise) pulls it inboard. Springs inboard: a quarter turn
    /// in (clockwise) lets it go inboard.
    /// </summary>
    [Theory]
    [InlineData(false, -0.25)]
    [InlineData(true, 0.25)]
    public void ReadIndex_TooFarOutboard_TurnsTheBarrelBySense(bool inboard, double turns)
    {
        var catalogue = Bikes.Catalogue(CoaxialExample.AtRest(inboard));
        var read = catalogue.ReadIndex([(17, 0.44, 0.24), (20, 0.44, 0.24)], false)!;
        Assert.Equal(turns, read.Advice.Turns, 9);
        Assert.Equal(0, read.Cogs[0].AfterMm!.Value, 9);
    }

    /// <summary>The inboard stop lets the pulley 2 mm past the largest cog: its screw goes in, whatever the springs do.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Stops_TooFar_ScrewInOnBothKinds(bool inboard)
    {
        var catalogue = Bikes.Catalogue(CoaxialExample.AtRest(inboard));
        Assert.True(catalogue.Adjust(AdjusterPlace.InboardStop, -2, -0.5).Turns > 0);
        Assert.True(catalogue.Adjust(AdjusterPlace.OutboardStop, 2, 0.5).Turns > 0);
    }

    [Fact]
    public void Index_AtRest_SpeaksOfTheCogAtRestAndOfWhatTheSpringDoes()
    {
        var spec = CoaxialExample.AtRest() with
        {
            Shifting = new() { PullMm = [.. Enumerable.Repeat(2.5, 8)], ShiftRatio = 1.7 },
        };
        var catalogue = Bikes.Catalogue(spec);
        var model = IndexReview.Judge(catalogue, Work, [])!;
        // 2.5 · 1.7 = 4.25 mm: 0.55 mm too little in each click, although the error points inboard.
        Assert.Contains(
            model.Sentences,
            s => s.Contains("0.55 mm too little", StringComparison.Ordinal)
        );
        Assert.Contains(
            model.Sentences,
            s => s.Contains("stop them at the outboard stop", StringComparison.Ordinal)
        );
        Assert.Contains(model.ToDo, s => s.Contains("32-tooth", StringComparison.Ordinal));
        var slow = IndexReview.Judge(
            catalogue,
            Work,
            [
                new("index-up", (42, 17), new(0.6, 0.02)),
                new("index-down", (42, 17), new(-0.6, 0.02)),
            ]
        )!;
        Assert.Contains(
            slow.Sentences,
            s => s.Contains("shift to larger cogs", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Work_AtRestWithMotors_IsRefused() =>
        Assert.Contains(
            WorkCheck.Problems(
                Bikes.Catalogue(Bike),
                new() { Actuation = Actuation.MotorWireless }
            ),
            p => p.Path == "actuation"
        );
}
