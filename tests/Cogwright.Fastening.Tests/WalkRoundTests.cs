namespace Cogwright.Fastening.Tests;

public sealed class WalkRoundTests
{
    private static Dictionary<string, TorqueFigure> OfTrade(params string[] fasteners) =>
        fasteners.ToDictionary(
            id => id,
            id => TorqueFigure.Of(null, null, FastenerCatalogue.Find(id)!.UsualRange)
        );

    [Fact]
    public void Walk_OfEverything_GoesForwardOnOneSideAndBackOnTheOther()
    {
        var stops = WalkRound.Of(OfTrade([.. Fasteners.All]));
        Assert.Equal(
            [
                "rearAxle",
                "hangerScrews",
                "lockring",
                "rearMount",
                "pulleys",
                "rearCable",
                "ringBolts",
                "pedals",
                "frontMount",
                "frontCable",
                "shifterClamp",
                "crankPinch",
                "pedals",
            ],
            stops.Select(stop => stop.Fastener.Id)
        );
        Assert.Equal(
            stops.Select(stop => stop.Place.Station).Order(),
            stops.Select(s => s.Place.Station)
        );
    }

    [Fact]
    public void Order_OfASetUp_NamesEachOnceAndFollowsTheWalk()
    {
        Assert.Equal(
            [
                "rearAxle",
                "hangerScrews",
                "lockring",
                "rearMount",
                "pulleys",
                "rearCable",
                "ringBolts",
                "frontMount",
                "frontCable",
                "shifterClamp",
                "crankPinch",
                "pedals",
            ],
            WalkRound.Order
        );
    }

    [Fact]
    public void Walk_Pedals_AreTwoStopsAndTheOtherSideIsLeftHanded()
    {
        var stops = WalkRound.Of(OfTrade(Fasteners.Pedals));
        Assert.Equal([false, true], stops.Select(stop => stop.Place.IsLeftHand));
        Assert.Contains("left-hand", stops[1].Title, StringComparison.Ordinal);
        Assert.NotEqual(stops[0].Title, stops[1].Title);
    }

    [Fact]
    public void Walk_WhatSettingsRestOn_IsLookedAtAndNotTurned()
    {
        var looked = WalkRound
            .Of(OfTrade([.. Fasteners.All]))
            .Where(stop => !stop.Notes.IsEmpty)
            .Select(stop => stop.Fastener.Id);
        Assert.Equal(["hangerScrews", "lockring", "pulleys"], looked);
    }

    [Fact]
    public void Walk_WithoutAnyFigure_SaysHowToStart()
    {
        var stop = WalkRound.Of(
            new Dictionary<string, TorqueFigure> { [Fasteners.RearAxle] = TorqueFigure.Of(null) }
        )[0];
        Assert.Equal(TorqueSource.None, stop.Figure.Source);
        Assert.Contains("2 N·m", stop.FigureNote, StringComparison.Ordinal);
    }

    [Fact]
    public void Walk_RangeThatDiffersByKind_NamesEveryKind()
    {
        var clamp = WalkRound.Of(OfTrade(Fasteners.ShifterClamp))[0];
        Assert.Contains("drop-bar lever 6 to 8 N·m", clamp.FigureNote, StringComparison.Ordinal);
        Assert.Null(WalkRound.Of(OfTrade(Fasteners.FrontCable))[0].FigureNote);
    }

    [Fact]
    public void Walk_FastenerThatThereIsNot_IsRefusedByName()
    {
        var error = Assert.Throws<ArgumentException>(() =>
            WalkRound.Of(
                new Dictionary<string, TorqueFigure> { ["flange"] = TorqueFigure.Of(null) }
            )
        );
        Assert.Contains("flange", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Catalogue_HasEveryFastenerThatASpecMayName()
    {
        Assert.Empty(Fasteners.All.Except(FastenerCatalogue.All.Select(each => each.Id)));
        Assert.Distinct(FastenerCatalogue.All.Select(each => each.Id));
        Assert.All(
            FastenerCatalogue.All,
            each =>
            {
                Assert.NotEmpty(each.Title);
                Assert.NotEmpty(each.Places);
                Assert.NotEmpty(each.Ranges);
                Assert.All(each.Ranges, range => Assert.NotEmpty(range.Title));
            }
        );
    }

    [Fact]
    public void Walk_OfTheWholeCatalogue_NamesEveryStopApart()
    {
        var stops = WalkRound.Of(OfTrade([.. FastenerCatalogue.All.Select(each => each.Id)]));
        Assert.Distinct(stops.Select(stop => stop.Title));
        Assert.Equal(FastenerCatalogue.All.Sum(each => each.Places.Length), stops.Length);
        Assert.All(Enum.GetValues<BikeStation>(), each => Assert.NotEmpty(WalkRound.TitleOf(each)));
    }

    // Common practice, N·m.
    [Theory]
    [InlineData("rearMount", 8, 10)]
    [InlineData("rearCable", 5, 7)]
    [InlineData("lockring", 29, 50)]
    [InlineData("crankPinch", 12, 15)]
    [InlineData("pedals", 35, 40)]
    [InlineData("rearAxle", 9, 15)]
    [InlineData("crankBolt", 35, 50)]
    [InlineData("crankPreload", 0.4, 0.7)]
    [InlineData("bracketCups", 35, 50)]
    [InlineData("brakeCaliper", 6, 8)]
    [InlineData("brakeRotor", 4, 6)]
    public void Catalogue_UsualRange_IsTheTrades(string id, double lower, double upper) =>
        Assert.Equal(new(lower, upper), FastenerCatalogue.Find(id)!.UsualRange);

    [Fact]
    public void Treatments_All_HaveATitleAndAreFoundByName() =>
        Assert.All(
            ThreadTreatment.All,
            each =>
            {
                Assert.NotEmpty(each.Title);
                Assert.Same(each, ThreadTreatment.Find(each.Id));
            }
        );

    [Fact]
    public void Materials_All_HaveATitleAndAreFoundByName()
    {
        Assert.All(NutMaterial.All, each => Assert.NotEmpty(each.Title));
        Assert.All(NutMaterial.All, each => Assert.Same(each, NutMaterial.Find(each.Id)));
        Assert.All(BoltMaterial.All, each => Assert.Same(each, BoltMaterial.Find(each.Id)));
    }
}
