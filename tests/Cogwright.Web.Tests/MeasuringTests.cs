using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;
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
        Assert.Null(round.Drop().Doubt);
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
        var round = Round.Take(Bolt, 29).Take(Bolt, 30);
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
        var spec = sheet.Check().Spec!.Drivetrain;
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
        var measured = sheet.Check().Spec!.Drivetrain.Measured!;
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
