using Cogwright.Drivetrain.Bench;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Bikes;
using Cogwright.Web.Measuring;

/// <summary>The stand with a store that answers later, as a browser's does.</summary>
public sealed class WorkbenchTests
{
    private const string Measured = "demo-measured-2x12";
    private const string Demo = "demo-road-2x12-wireless";

    private readonly PretendDevice device = new(new PretendShop());

    [Fact]
    public Task Change_WhileOthersAreBeingKept_LosesNoneAndMakesOneBike() =>
        OneThread.RunAsync(ChangeManyAtOnceAsync);

    private async Task ChangeManyAtOnceAsync()
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        Assert.True(await bench.OpenAsync(Demo));
        var places = Enumerable
            .Range(0, 6)
            .Select(i => new BenchPlace(BenchDistance.PivotToAxle, 11 + i))
            .ToList();
        // Each begins an entry of the same list: made from one sheet they would all be the first.
        await Task.WhenAll(
            places.Select(place =>
                bench.ChangeAsync(sheet => MeasuredSheet.With(sheet, place, [60]), "measured")
            )
        );

        var sheet = (await device.Reloaded().Shelf.OpenAsync(bench.Id!))!.Sheet;
        Assert.All(places, place => Assert.Equal(60, MeasuredSheet.ValueMm(sheet, place)));
        Assert.Single(await device.Shelf.ListAsync(), card => !card.IsDemo);
    }

    [Fact]
    public Task Change_AfterOneThatFailed_IsKept() => OneThread.RunAsync(ChangeAfterAFailureAsync);

    private async Task ChangeAfterAFailureAsync()
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        await bench.OpenAsync(Demo);
        var failing = bench.ChangeAsync(_ => throw new NotSupportedException(), "fails");
        var next = bench.ChangeAsync(sheet => sheet.With("frame.chainstay", "411"), "next");
        await Assert.ThrowsAsync<NotSupportedException>(() => failing);
        await next;
        Assert.Equal("411", bench.History.Sheet["frame.chainstay"]);
    }

    [Fact]
    public Task Change_WhileAnotherBikeIsPutOnTheStand_GoesToItsOwn() =>
        OneThread.RunAsync(ChangeAndTurnAwayAsync);

    private async Task ChangeAndTurnAwayAsync()
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        await bench.OpenAsync(Demo);
        var first = bench.ChangeAsync(sheet => sheet.With("frame.chainstay", "411"), "first");
        var second = bench.ChangeAsync(sheet => sheet.With("frame.bbDrop", "71"), "second");
        await bench.OpenAsync("demo-trail-1x12");
        await Task.WhenAll(first, second);

        Assert.Equal("demo-trail-1x12", bench.Id);
        var own = Assert.Single(await device.Shelf.ListAsync(), card => !card.IsDemo);
        var sheet = (await device.Shelf.OpenAsync(own.Id))!.Sheet;
        Assert.Equal(("411", "71"), (sheet["frame.chainstay"], sheet["frame.bbDrop"]));
    }

    [Fact]
    public Task Round_AfterTheReload_IsThereWithEverySingleReading() =>
        OneThread.RunAsync(ReloadAtTheBenchAsync);

    private async Task ReloadAtTheBenchAsync()
    {
        var bolt = new BenchPlace(BenchDistance.AxleToHangerBolt);
        var desk = new MeasuringDesk(device.Shelf);
        await desk.OpenAsync(Demo);
        desk[Demo] = desk[Demo].For([bolt]).Take(bolt, 29).Take(bolt, 29.2);
        desk[Demo] = desk[Demo].Receive("410", null, null).Round;
        desk.Move(Demo, "own");
        await desk.Kept;

        var again = new MeasuringDesk(device.Reloaded().Shelf);
        await again.OpenAsync("own");
        await again.OpenAsync(Demo);
        Assert.Equal([29.0, 29.2], again["own"].Of(bolt));
        Assert.Equal(["410"], again["own"].Strays);
        Assert.Empty(again[Demo].Strays);
    }

    [Fact]
    public Task Round_OfADemoBikeThatBecomesOnesOwnOnAnotherPage_GoesAlong() =>
        OneThread.RunAsync(BecomeOwnElsewhereAsync);

    private async Task BecomeOwnElsewhereAsync()
    {
        // Kept by a page that was closed.
        var before = new MeasuringDesk(device.Shelf);
        await before.OpenAsync(Demo);
        before[Demo] = before[Demo].Receive("410", null, null).Round;
        await before.Kept;

        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        await bench.OpenAsync(Demo);
        await bench.ChangeAsync(sheet => sheet.With("name", "Plover"), "named");
        var desk = new MeasuringDesk(device.Shelf);
        await desk.FollowAsync(bench.OpenedAs!, bench.Id!);
        await desk.Kept;

        Assert.Equal(["410"], desk[bench.Id!].Strays);
        var again = new MeasuringDesk(device.Reloaded().Shelf);
        await again.OpenAsync(bench.Id!);
        await again.OpenAsync(Demo);
        Assert.Equal(["410"], again[bench.Id!].Strays);
        Assert.True(again[Demo].IsBlank);

        // What the bike has itself stays, whatever is begun at the demo bike later.
        desk[Demo] = desk[Demo].Receive("29", null, null).Round;
        await desk.FollowAsync(Demo, bench.Id!);
        Assert.Equal(["410"], desk[bench.Id!].Strays);
    }

    [Fact]
    public Task Open_AMeasuredBike_ComputesItWhileOtherWorkGoesOn() =>
        OneThread.RunAsync(ComputeInTheBackgroundAsync);

    private async Task ComputeInTheBackgroundAsync()
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        var shares = new List<double>();
        bench.Progressed += () =>
        {
            if (bench.Computing is { } share)
            {
                shares.Add(share);
            }
        };
        await bench.OpenAsync(Measured);
        Assert.NotNull(bench.Computing);
        Assert.True(bench.IsBehind);
        await bench.Computed;

        Assert.Null(bench.Computing);
        Assert.False(bench.IsBehind);
        Assert.Equal(shares.Order(), shares);
        var whole = BenchGeometry.Fit(bench.Reading!.Spec!.Drivetrain);
        Assert.Equal(whole.GapUncertaintyMm, bench.AsSpec!.Fit!.GapUncertaintyMm);
    }

    [Fact]
    public Task Change_WhileTheOneBeforeIsComputed_LeavesOnlyTheLastOne() =>
        OneThread.RunAsync(OvertakeAsync);

    private async Task OvertakeAsync()
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        await bench.OpenAsync(Measured);
        var overtaken = bench.Computed;
        await bench.ChangeAsync(sheet => sheet.With("name", "Overtaking"), "name");
        await overtaken;
        Assert.Null(bench.AsSpec);
        await bench.Computed;
        Assert.Equal("Overtaking", bench.AsSpec!.File.Drivetrain.Name);
    }

    [Fact]
    public Task Computing_ThatFails_IsToldAndCanBeBegunAgain() =>
        OneThread.RunAsync(FailAndGoOnAsync);

    private async Task FailAndGoOnAsync()
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        var told = new List<Exception>();
        var isBroken = true;
        bench.Failed += told.Add;
        bench.Progressed += () =>
        {
            if (isBroken && bench.Computing > 0)
            {
                throw new NotSupportedException();
            }
        };
        await bench.OpenAsync(Measured);
        await bench.Computed;
        Assert.IsType<NotSupportedException>(Assert.Single(told));
        Assert.Null(bench.Computing);
        Assert.True(bench.IsBehind);

        isBroken = false;
        bench.ComputeNow();
        await bench.Computed;
        Assert.False(bench.IsBehind);
    }

    [Fact]
    public Task StopComputing_KeepsWhatWasShown_UntilItIsAskedForAgain() =>
        OneThread.RunAsync(StopAndGoOnAsync);

    private async Task StopAndGoOnAsync()
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        await bench.OpenAsync(Measured);
        bench.StopComputing();
        await bench.Computed;
        Assert.Null(bench.AsSpec);
        Assert.True(bench.IsBehind);
        bench.ComputeNow();
        await bench.Computed;
        Assert.False(bench.IsBehind);
    }
}
