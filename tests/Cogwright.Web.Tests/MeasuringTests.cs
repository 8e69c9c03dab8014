using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Web.Bikes;
using Cogwright.Web.Measuring;

namespace Cogwright.Web.Tests;

/// <summary>A round at the bench: what becomes of each reading.</summary>
public sealed class MeasuringTests
{
    private static readonly BenchPlace Bolt = new(BenchDistance.AxleToHangerBolt);
    private static readonly BenchPlace Pins = new(BenchDistance.AcrossLinkPins);
    private static readonly BenchPlace Pivot = new(BenchDistance.PivotToAxle, 34);
    private static readonly BenchPlace Gap = new(BenchDistance.Gap, 34, 50);

    private static readonly MeasuringRound Round = new MeasuringRound().For([
        Bolt,
        Pins,
        Pivot,
        Gap,
    ]);

    [Fact]
    public void Receive_AReadingForTheArmedField_TakesItAndAsksForTheNext()
    {
        var (round, arrival, mm) = Round.Receive("29,05", Bolt, 29);
        Assert.Equal(Arrival.Taken, arrival);
        Assert.Equal(29.05, mm);
        Assert.Equal(Pins, round.Place);
        Assert.Equal([29.05], round.Of(Bolt));
    }

    [Fact]
    public void Receive_AReadingWhenNothingIsArmed_IsKeptAsAStray()
    {
        var (round, arrival, _) = Round.Receive("29.05", null, null);
        Assert.Equal(Arrival.Stray, arrival);
        Assert.Equal(["29.05"], round.Strays);
        Assert.Empty(round.Readings);
        Assert.Empty(round.DropStray(0).Strays);
    }

    [Fact]
    public void Receive_AReadingThatBeganForAnotherDistance_IsKeptAsAStray()
    {
        var (round, arrival, _) = Round.Receive("29.05", Pins, 58);
        Assert.Equal(Arrival.Stray, arrival);
        Assert.Empty(round.Readings);
    }

    [Theory]
    [InlineData("abc")]
    [InlineData("12.3.4")]
    public void Receive_WhatIsNoLength_ChangesNothing(string text)
    {
        var (round, arrival, _) = Round.Receive(text, Bolt, 29);
        Assert.Equal(Arrival.NoLength, arrival);
        Assert.Same(Round, round);
    }

    [Theory]
    [InlineData("290", 29.0, false, null)]
    [InlineData("-3", 29.0, true, null)]
    [InlineData("0", 29.0, true, null)]
    [InlineData("1.14", 29.0, false, 28.956)]
    public void Receive_AnUnlikelyReading_AsksAboutIt(
        string text,
        double expected,
        bool isImpossible,
        double? inches
    )
    {
        var (round, arrival, _) = Round.Receive(text, Bolt, expected);
        Assert.Equal(Arrival.Doubted, arrival);
        Assert.Equal(Bolt, round.Place);
        Assert.Equal(isImpossible, round.Doubt!.IsImpossible);
        Assert.Equal(inches is null, round.Doubt.AsInchesMm is null);
        Assert.Equal(inches ?? 0, round.Doubt.AsInchesMm ?? 0, 1e-9);
        Assert.Empty(round.Readings);
        Assert.Null(round.Drop(round.Doubt).Doubt);
    }

    [Fact]
    public void Receive_ALikelyReadingAfterADoubt_StandsInItsPlace()
    {
        var doubted = Round.Receive("290", Bolt, 29).Round;
        var (round, arrival, _) = doubted.Receive("29.0", Bolt, 29);
        Assert.Equal(Arrival.Taken, arrival);
        Assert.Null(round.Doubt);
        Assert.Equal([29.0], round.Of(Bolt));
    }

    [Fact]
    public void Receive_AGapOfACaliperLeftInInches_AsksAboutIt()
    {
        var (round, arrival, _) = Round.GoTo(Gap).Receive("0.24", Gap, null);
        Assert.Equal(Arrival.Doubted, arrival);
        Assert.Equal(6.096, round.Doubt!.AsInchesMm!.Value, 1e-9);
        Assert.Equal(Arrival.Taken, Round.GoTo(Gap).Receive("6.1", Gap, null).Arrival);
        Assert.Equal(Arrival.Taken, Round.GoTo(Gap).Receive("0.24 in", Gap, null).Arrival);
    }

    [Fact]
    public void Doubt_WhileAnotherDistanceIsAskedFor_StaysUntilItIsAnswered()
    {
        var round = Round.Receive("290", Bolt, 29).Round.Move(1).Receive("580", Pins, 58).Round;
        Assert.Equal(580, round.Doubt!.ReadMm);
        round = round.GoTo(Bolt);
        Assert.Equal(290, round.Doubt!.ReadMm);
        round = round.Answer(round.Doubt, 29);
        Assert.Equal([29.0], round.Of(Bolt));
        Assert.Equal([580.0], round.Doubts.Select(doubt => doubt.ReadMm));
    }

    [Fact]
    public void Doubt_AfterAnotherDoubtOfTheSameDistance_AsksAboutBoth()
    {
        var round = Round.Receive("290", Bolt, 29).Round.Receive("291", Bolt, 29).Round;
        Assert.Equal([290.0, 291.0], round.Doubts.Select(doubt => doubt.ReadMm));
        Assert.Equal([291.0], round.Drop(round.Doubt!).Doubts.Select(doubt => doubt.ReadMm));
    }

    [Fact]
    public void ReadAgain_ADistance_KeepsTheOldReadingsUntilTheNewOneIsThere()
    {
        var round = Round.Take(Bolt, 29).Take(Bolt, 35).ReadAgain(Bolt);
        Assert.Equal(Bolt, round.Place);
        Assert.Equal([29.0, 35.0], round.Of(Bolt));
        round = round.Take(Bolt, 29.1);
        Assert.Equal([29.1], round.Of(Bolt));
        Assert.Equal([29.1, 29.3], round.Take(Bolt, 29.3).Of(Bolt));
    }

    [Fact]
    public void Know_WhileAReadingWaitsForTheSheet_KeepsTheReading()
    {
        // The sheet that comes in holds another change, made before the reading got there.
        var round = Round.Take(Bolt, 29).Know(Bolt, null);
        Assert.Equal([29.0], round.Of(Bolt));
        Assert.Equal([28.0, 29.0], Round.Know(Bolt, 28).Take(Bolt, 29).Know(Bolt, 28).Of(Bolt));
        // What was read meanwhile waits on.
        Assert.Contains(Bolt, round.Take(Bolt, 30).Stored(Bolt, [29]).Waiting);
        Assert.DoesNotContain(Bolt, round.Stored(Bolt, [29]).Waiting);
    }

    [Fact]
    public void IsOvertaken_WhenTheSheetSaysWhatNobodyReadHere_AsksAlsoAfterTheReload()
    {
        var round = Round.Know(Bolt, 28).Take(Bolt, 29).Take(Bolt, 29.5);
        foreach (
            var one in new[]
            {
                round,
                MeasuringRound.From(RoundDraft.Read(round.ToDraft().Write())!),
            }
        )
        {
            // As it was, or as this sitting has it by now.
            Assert.All(
                new double?[] { 28, 28.5, 28.833 },
                mm => Assert.False(one.IsOvertaken(Bolt, mm), $"{mm}")
            );
            Assert.True(one.IsOvertaken(Bolt, 30));
            Assert.True(one.IsOvertaken(Bolt, null));
            Assert.False(one.IsOvertaken(Pins, 30));
            Assert.Equal([30.0], one.GiveWay(Bolt, 30).Of(Bolt));
            Assert.Empty(one.GiveWay(Bolt, 30).Waiting);
        }
        // With the first of two in the sheet, that is what it was.
        var stored = Round.Take(Bolt, 29).Take(Bolt, 30).Stored(Bolt, [29]);
        Assert.False(stored.IsOvertaken(Bolt, 29));
        Assert.True(stored.IsOvertaken(Bolt, null));
        Assert.False(stored.Stored(Bolt, [29, 30]).IsOvertaken(Bolt, 31));
    }

    [Fact]
    public void IsOvertaken_OfAReadingTakenOut_AsksWhenSomebodyHasReadItAnew()
    {
        var round = Round.Know(Bolt, 28).Forget(Bolt);
        Assert.False(round.IsOvertaken(Bolt, 28));
        Assert.False(round.IsOvertaken(Bolt, null));
        Assert.True(round.IsOvertaken(Bolt, 30));
    }

    /// <summary>A draft of an earlier version does not say what the spec held: then anything in it is asked about.</summary>
    [Fact]
    public void IsOvertaken_OfADraftThatDoesNotSayWhatItBeganFrom_AsksWhenThereIsAnything()
    {
        var draft = Round.Take(Bolt, 29).ToDraft() with { Was = [] };
        var round = MeasuringRound.From(RoundDraft.Read(draft.Write())!);
        Assert.False(round.IsOvertaken(Bolt, null));
        Assert.False(round.IsOvertaken(Bolt, 29));
        Assert.True(round.IsOvertaken(Bolt, 28));
    }

    [Fact]
    public void Stray_HeardInInches_IsStillInchesWhenItIsPlaced()
    {
        var round = (Round with { InInches = true }).Receive("1,14", null, null).Round;
        Assert.Equal(["1,14 in"], round.Strays);
        var (placed, arrival, mm) = (round with { InInches = false }).PlaceStray(0, Pins, 29);
        Assert.Equal(Arrival.Taken, arrival);
        Assert.Equal(28.956, mm, 1e-9);
        Assert.Empty(placed.Strays);
        Assert.Equal([mm], placed.Of(Pins));
        Assert.Equal(28.956, round.PlaceStray(0, Pins, 29).Mm, 1e-9);
    }

    [Fact]
    public void Draft_ThereAndBack_HoldsEveryReadingAndWhatIsAskedAbout()
    {
        var screw = new BenchPlace(BenchDistance.PivotToAxleAfterScrew, 34, 0, 2.5);
        var round = (Round with { Repeats = 3, InInches = true })
            .Take(Bolt, 29.05)
            .Take(Bolt, 29.15)
            .Take(screw, 61)
            .Stored(screw, [61])
            .Receive("410", null, null)
            .Round.Receive("290 mm", Bolt, 29)
            .Round.ReadAgain(Pins);
        var back = MeasuringRound.From(RoundDraft.Read(round.ToDraft().Write())!).For(Round.Places);
        Assert.Equal(Pins, back.Place);
        Assert.Equal([29.05, 29.15], back.Of(Bolt));
        Assert.Equal([61.0], back.Of(screw));
        Assert.Equal([Bolt], back.Waiting);
        Assert.Equal([Pins], back.Anew);
        Assert.Equal(["410 in"], back.Strays);
        Assert.Equal(290, back.GoTo(Bolt).Doubt!.ReadMm);
        Assert.Equal(3, back.Repeats);
        Assert.True(back.InInches);
        Assert.Null(RoundDraft.Read("{"));
        Assert.Null(RoundDraft.Read(""));
    }

    [Fact]
    public void Receive_InInches_IsMillimetres() =>
        Assert.Equal(28.575, (Round with { InInches = true }).Receive("1 1/8", Bolt, 29).Mm, 1e-9);

    [Fact]
    public void Take_WithThreeReadingsOfEach_AsksForTheNextAfterThree()
    {
        var round = Round with { Repeats = 3 };
        round = round.Take(Bolt, 29).Take(Bolt, 29.2);
        Assert.Equal(Bolt, round.Place);
        Assert.Equal(Pins, round.Take(Bolt, 29.1).Place);
    }

    [Fact]
    public void Know_AfterAnUndo_ForgetsWhatWasReadInThisSitting()
    {
        var round = Round.Take(Bolt, 29).Take(Bolt, 30).Stored(Bolt, [29, 30]);
        Assert.Equal(2, round.Know(Bolt, 29.5).Of(Bolt).Length);
        Assert.Equal([29.0], round.Know(Bolt, 29).Of(Bolt));
        Assert.Empty(round.Know(Bolt, null).Of(Bolt));
    }

    [Fact]
    public void With_ReadingsOfADistance_HoldsTheirMeanAndAnUncertaintyThatNMakesSmaller()
    {
        var sheet = DemoWorkshop.Sheet("demo-road-2x12-wireless");
        var one = MeasuredSheet.With(sheet, Bolt, [29]);
        Assert.Equal("29", one["measured.axleToHangerBolt.value"]);
        Assert.Null(one["measured.axleToHangerBolt.uncertainty"]);
        var four = MeasuredSheet.With(one, Bolt, [29, 29.2, 28.8, 29]);
        Assert.Equal("29", four["measured.axleToHangerBolt.value"]);
        Assert.Equal("0.25", four["measured.axleToHangerBolt.uncertainty"]);
        // Readings that scatter more than a caliper does tell of themselves how sure their mean is.
        var wild = MeasuredSheet.With(one, Bolt, [27, 31]);
        Assert.Equal("2", wild["measured.axleToHangerBolt.uncertainty"]);
    }

    [Fact]
    public void With_EveryDistanceOfTheForm_IsReadBackAndMakesASpecWithThemAll()
    {
        var sheet = DemoWorkshop.Sheet("demo-road-2x12-wireless").With("chain.pitches", "110");
        var spec = sheet.Check(DemoParts.Library).Spec!.Drivetrain;
        var places = BenchMeasurements.WholeForm(spec);
        foreach (var place in places)
        {
            sheet = MeasuredSheet.With(
                sheet,
                place,
                [BenchMeasurements.ExpectedMm(spec, place) ?? 40]
            );
        }
        Assert.All(places, place => Assert.NotNull(MeasuredSheet.ValueMm(sheet, place)));
        var measured = sheet.Check(DemoParts.Library).Spec!.Drivetrain.Measured!;
        Assert.Equal(
            places.ToImmutableHashSet(),
            measured.Readings.Select(reading => reading.Place).ToImmutableHashSet()
        );
        foreach (var place in places)
        {
            sheet = MeasuredSheet.With(sheet, place, []);
        }
        Assert.DoesNotContain(
            sheet.Values.Keys,
            path => path.StartsWith("measured", StringComparison.Ordinal)
        );
    }
}
