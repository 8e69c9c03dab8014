using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Facts;
using Cogwright.Files;
using Cogwright.Web.Bikes;
using Cogwright.Web.Plots;
using Cogwright.Web.Tests.Device;

namespace Cogwright.Web.Tests;

/// <summary>What a trial says of the bike while it lasts, and what becomes of it.</summary>
public sealed class TrialTests
{
    private static readonly SpecSheet Road = DemoWorkshop.Sheet("demo-road-2x12-wireless");

    // Its room to the spokes was measured on the bike: 4 mm.
    private static readonly SpecSheet Trail = DemoWorkshop.Sheet("demo-trail-1x12");

    private static ComputedBike Bike(SpecSheet sheet)
    {
        var reading = sheet.Check(DemoParts.Library);
        Assert.True(reading.Spec is not null, string.Join('\n', reading.Problems));
        return ComputedBike.Of(reading.Spec);
    }

    private static Knob Knob(ComputedBike bike, string key) =>
        Knobs.Of(bike, bike.GapGear).Single(knob => knob.Key == key);

    private static double Mm(string said) =>
        double.Parse(said.Split(' ')[0].Replace('−', '-'), CultureInfo.InvariantCulture);

    [Fact]
    public void Room_MeasuredBeforeWhatIsTried_IsToBeMeasuredAgain()
    {
        var bike = Bike(Trail);
        Assert.Equal("4.0 mm", Figures.Room(bike));
        foreach (var knob in Knobs.Of(bike, bike.GapGear))
        {
            var tried = bike.With(knob.Write(Trial.None, knob.Nearest(knob.AsSpec + knob.Step)));
            Assert.Contains("measure again", Figures.Room(tried), StringComparison.Ordinal);
            Assert.All(
                tried.Clearances.All.Where(c => c.Kind <= ClearanceKind.CageKnocked),
                clearance =>
                {
                    Assert.Null(clearance.Mm);
                    Assert.Equal(ClearanceVerdict.CannotSay, clearance.Verdict);
                    Assert.StartsWith(
                        "Measure again: with the chain on the largest cog",
                        LateralWords.Of(clearance, tried.Clearances).WhatToDo,
                        StringComparison.Ordinal
                    );
                }
            );
        }
        var lean = Knob(bike, "lean");
        Assert.Equal(
            "the tilt came after the measuring: measure again",
            Figures.Room(bike.With(lean.Write(Trial.None, 3)))
        );
    }

    [Fact]
    public void Room_Computed_IsLessWithTheHangerLeaningInboardThanOutboard()
    {
        var bike = Bike(Road);
        var lean = Knob(bike, "lean");
        var straight = Mm(Figures.Room(bike));
        var inboard = Mm(Figures.Room(bike.With(lean.Write(Trial.None, 4))));
        var outboard = Mm(Figures.Room(bike.With(lean.Write(Trial.None, -4))));
        Assert.True(inboard < straight - 0.3, $"{inboard} of {straight}");
        Assert.True(inboard < outboard, $"{inboard} and {outboard}");
    }

    [Theory]
    [InlineData("lean", "hangs inboard", 0, -100)]
    [InlineData("toe", "rear stands inboard", -100, 0)]
    public void Tilt_SaidToGoInboard_CarriesThatPlaceInboard(
        string key,
        string said,
        double forwardMm,
        double upMm
    )
    {
        var knob = Knob(Bike(Road), key);
        Assert.Contains(said, knob.Say(4), StringComparison.Ordinal);
        // Half of what is read across the rim of 622 mm is what it stands off at the radius: 2 mm in 311 mm.
        Assert.Equal(
            -4.0 / 622 * 100,
            knob.Write(Trial.None, 4).Tilt!.Value.LateralMm(new(forwardMm, upMm)),
            6
        );
    }

    [Theory]
    [InlineData("3", -2.75)]
    [InlineData("0.6", -0.25)]
    [InlineData("0.2", 0)]
    public void Screw_TurnedOut_KeepsTheLastLeastTurnInItsThread(string turnsLeftOut, double least)
    {
        var bike = Bike(Road.With("rearDerailleur.bodyAngleScrew.turnsLeftOut", turnsLeftOut));
        var screw = Knob(bike, "screw");
        Assert.Equal(least, screw.Least);
        Assert.Equal(5, screw.Most);
        Assert.Equal(least, screw.Nearest(-20));
    }

    [Fact]
    public void Nearest_AtTheEndsOfARangeThatIsNoWholeNumberOfSteps_ReachesThem()
    {
        var bike = Bike(DemoWorkshop.Sheet("demo-full-suspension-1x12"));
        var travel = Knob(bike, "travel");
        Assert.Equal(140, travel.Most);
        Assert.Equal(42, travel.AsSpec);
        Assert.Equal(140, travel.Nearest(140));
        Assert.Equal(140, travel.Nearest(999));
        Assert.Equal(137, travel.Nearest(137.9));
        Assert.Equal(0, travel.Nearest(0));
        Assert.Equal(42, travel.Nearest(43));
        // The button goes one step on from the end, and back.
        Assert.Equal(137, travel.Nearest(140 - travel.Step));
    }

    [Fact]
    public void Wrong_OfAShortChain_SaysWhatTheModelSays()
    {
        var bike = Bike(Road);
        var tried = bike.With(Trial.None with { Pitches = bike.Table.Pitches - 6 });
        var gear = tried.Table.Gears.First(gear => gear.State == GearState.Short);
        Assert.EndsWith(
            "Fit a longer chain, or lock this gear out. Shifting into it can tear the derailleur off.",
            Figures.Wrong(gear, tried.Spec),
            StringComparison.Ordinal
        );
        Assert.Null(Figures.Wrong(bike.Table.Find(bike.GapGear)!.Value, bike.Spec));
    }

    [Fact]
    public void Keep_OfATurnWithStopsFromAClass_KeepsTheReservesThatWereTried()
    {
        var bike = Bike(Road);
        Assert.Null(Road["rearDerailleur.cage.rearStop"]);
        var trial = Knob(bike, "screw").Write(Trial.None, 2);
        var tried = bike.With(trial).Table;
        var kept = Bike(TrialKeeping.Of(Road, bike, trial).Sheet).Table;
        foreach (var gear in tried.Gears)
        {
            var after = kept.Find(gear.Gear)!.Value;
            Assert.Equal(gear.TightMarginMm, after.TightMarginMm, 0.01);
            Assert.Equal(gear.LooseMarginMm, after.LooseMarginMm, 0.01);
        }
    }

    [Fact]
    public void Keep_OfARing_WhileAnotherIsLookedAt_IsKept()
    {
        var bike = Bike(Road);
        var ring = Knobs.Of(bike, new(50, 34)).Single(knob => knob.Key == "ring");
        var trial = ring.Write(Trial.None, 52);
        Assert.Equal(34, bike.GapGear.RingTeeth);
        var keeping = TrialKeeping.Of(Road, bike, trial);
        Assert.Single(keeping.Kept);
        Assert.Equal("52", keeping.Sheet["rings[0].teeth"]);
    }

    [Fact]
    public void Keep_OfOffsetSteps_CountsThemAndLeavesTheIndexAsItWas()
    {
        var bike = Bike(Road);
        var trial = Knob(bike, "offset").Write(Trial.None, -3);
        var sheet = TrialKeeping.Of(Road, bike, trial).Sheet;
        Assert.Equal("11", sheet["shifting.stepsLeftOutboard"]);
        Assert.Equal("5", sheet["shifting.stepsLeftInboard"]);
        var after = Bike(sheet);
        Assert.Equal(
            bike.Spec.Shifting!.PositionsMm.Select(mm => Math.Round(mm - 0.75, 3)),
            after.Spec.Shifting!.PositionsMm.Select(mm => Math.Round(mm, 3))
        );
        Assert.Equal(-0.75, after.Spec.RearDerailleur!.IndexOffsetMm, 6);
        Assert.Equal(
            Indexing.Of(bike.Spec)!.BestOffsetMm,
            Indexing.Of(after.Spec)!.BestOffsetMm,
            6
        );
        Assert.Equal(
            Indexing.Of(bike.With(trial).Spec)!.BestOffsetMm,
            Indexing.Of(after.Spec)!.BestOffsetMm,
            6
        );
    }

    [Fact]
    public void Keep_OfWhatMovesTheCage_TakesTheMeasuredRoomOutAndSaysSo()
    {
        var bike = Bike(Trail);
        var trial = Trial.None with { Pitches = bike.Table.Pitches + 2 };
        var keeping = TrialKeeping.Of(Trail, bike, trial);
        Assert.Null(keeping.Sheet["wheel.cageToSpokes"]);
        Assert.Equal(["cage to spokes"], keeping.Recheck);
        Assert.Equal("not measured", Figures.Room(Bike(keeping.Sheet)));
        // A tilt is not kept, so that the bike stays as it was measured.
        var tilt = Knob(bike, "lean").Write(Trial.None, 3);
        Assert.Empty(TrialKeeping.Of(Trail, bike, tilt).Recheck);
    }

    [Fact]
    public void Keep_OfAChain_OnAMeasuredBike_TakesTheGapsReadWithTheOldOneOut()
    {
        var sheet = DemoWorkshop
            .Sheet("demo-measured-2x12")
            .With("measured.gaps[0].ring", "34")
            .With("measured.gaps[0].cog", "34")
            .With("measured.gaps[0].gap.value", "7");
        var bike = Bike(sheet);
        var keeping = TrialKeeping.Of(
            sheet,
            bike,
            Trial.None with
            {
                Pitches = bike.Table.Pitches + 2,
            }
        );
        Assert.Equal("gap in 34/34", keeping.Recheck[^1]);
        Assert.Equal(0, keeping.Sheet.CountOf("measured.gaps"));
        Assert.Equal("69.5", keeping.Sheet["measured.positions[0].pivotToAxle.value"]);
        Assert.NotNull(keeping.Sheet.Check(DemoParts.Library).Spec);
    }

    [Fact]
    public void Keep_OfAnEndCog_OnAMeasuredBike_CarriesWhatWasReadUnderIt()
    {
        var sheet = DemoWorkshop.Sheet("demo-measured-2x12");
        var bike = Bike(sheet);
        var cog = Knobs.Of(bike, new(50, 34)).Single(knob => knob.Key == "cog");
        var keeping = TrialKeeping.Of(sheet, bike, cog.Write(Trial.None, 36));
        Assert.Contains("tips of the 34-tooth cog", keeping.Recheck);
        Assert.Equal("36", keeping.Sheet["measured.positions[2].cog"]);
        Assert.Null(keeping.Sheet["measured.tips.largestCog.value"]);
    }

    [Fact]
    public void Trial_OfOtherTeeth_CarriesWhatNamesThemByTheirTeeth()
    {
        var sheet = Road.With("rearDerailleur.gap.ring", "50");
        var bike = Bike(sheet);
        var knobs = Knobs.Of(bike, new(50, 34));
        var trial = knobs.Single(knob => knob.Key == "ring").Write(Trial.None, 52);
        trial = knobs.Single(knob => knob.Key == "cog").Write(trial, 36);
        var tried = bike.With(trial);
        Assert.Equal([new(52, 36)], tried.Spec.GearsNotUsed);
        Assert.Equal([52, 34], tried.Spec.FrontDerailleur!.Trims.Select(trim => trim.RingTeeth));
        Assert.Equal(new(52, 36), tried.GapGear);
        Assert.NotNull(tried.Table.Find(tried.GapGear));
        Assert.Empty(SpecCheck.Problems(tried.Spec));
    }

    [Fact]
    public void Trial_OfOtherTeeth_CarriesTheSetUpRingOfADerailleurOnTheAxle()
    {
        var sheet = DemoWorkshop
            .Sheet("demo-trail-1x12-coaxial")
            .With("rearDerailleur.coaxial.setUpRing", "32");
        var bike = Bike(sheet);
        var ring = Knobs.Of(bike, bike.Table.Gears[0].Gear).Single(knob => knob.Key == "ring");
        var tried = bike.With(ring.Write(Trial.None, 34));
        Assert.Equal(34, tried.Spec.RearDerailleur!.Coaxial!.SetUpRingTeeth);
        Assert.Empty(SpecCheck.Problems(tried.Spec));
    }

    [Fact]
    public async Task Trial_OnASpecThatLosesCogs_IsDroppedAsFarAsItStoodOnThem()
    {
        var shelf = new OneBike(Road);
        var bench = new Workbench(shelf, DemoLibrary.Shelf());
        await bench.OpenAsync("one");
        var knobs = Knobs.Of(bench.AsSpec!, new(50, 34));
        var trial = knobs.Single(knob => knob.Key == "ring").Write(Trial.None, 52);
        trial = knobs.Single(knob => knob.Key == "cog").Write(trial, 36);
        bench.Choose(new(50, 34));
        bench.Try(knobs.Single(knob => knob.Key == "lean").Write(trial, 2));
        Assert.Equal(new(52, 36), bench.Gear);

        // Another device gave the bike eleven cogs.
        shelf.Set(Road.With("cogs.teeth", "11-12-13-14-15-17-19-21-24-28-34"));

        Assert.True(bench.Trial.Cogs.IsDefault);
        Assert.Equal([52, 34], bench.Trial.Rings);
        Assert.NotNull(bench.Trial.Tilt);
        Assert.Equal(22, bench.Bike!.Table.Gears.Length);
        Assert.NotNull(bench.Bike.Table.Find(bench.Gear));
    }

    [Fact]
    public void Table_OfABikeWithoutATrial_IsThatOfTheChainChoice()
    {
        var bike = Bike(Road.With("chain.pitches", null));
        Assert.Same(bike.Choice.Table, bike.Table);
        var tried = bike.With(Trial.None with { TravelMm = 0 });
        Assert.NotSame(bike.Choice.Table, tried.Table);
    }

    [Theory]
    [InlineData("demo-high-pivot-idler-1x12", "Shock stroke (mm, of 56)", "mm of shock stroke")]
    [InlineData("demo-full-suspension-1x12", "Travel (mm, of 140)", "mm of travel")]
    public void Plots_OverTheTravel_SayWhatItMeans(string id, string axis, string place)
    {
        var plots = BikePlots.Of(Bike(DemoWorkshop.Sheet(id)));
        var over = plots
            .Where(plot => plot.Id is "growth" or "travelGap" or "travelTight")
            .ToList();
        Assert.Equal(3, over.Count);
        Assert.All(over, plot => Assert.Equal(axis, plot.XTitle));
        Assert.All(over, plot => Assert.Contains(place, plot.Summary, StringComparison.Ordinal));
    }

    /// <summary>A shelf with one bike that another device can change.</summary>
    private sealed class OneBike(SpecSheet sheet) : IBikeShelf
    {
        private BikeHistory history = BikeHistory.Empty.With(BikeHistory.Empty.To(sheet, "first")!);

        public event Action<string?>? Changed;

        internal void Set(SpecSheet next)
        {
            history = history.With(history.To(next, "other")!);
            Changed?.Invoke("one");
        }

        public ValueTask<BikeHistory?> OpenAsync(string id) => new(history);

        public bool IsUnread(string id) => false;

        public ValueTask<IReadOnlyList<BikeCard>> ListAsync() => new([]);

        public ValueTask<string> StartAsync(SpecChange first, string? fromDemo = null) =>
            throw new NotSupportedException();

        public ValueTask<BikeHistory> AddAsync(string id, SpecChange change) =>
            throw new NotSupportedException();

        public ValueTask<string?> DraftAsync(string id) => new((string?)null);

        public ValueTask KeepDraftAsync(string id, string text) =>
            throw new NotSupportedException();

        public ValueTask RemoveDemoAsync() => throw new NotSupportedException();

        public ValueTask RestoreDemoAsync() => throw new NotSupportedException();
    }
}
