using System.Collections.Immutable;

namespace Cogwright.Web.Tests;

using Cogwright.Facts;
using Cogwright.Files;
using Cogwright.Web.Bikes;
using Cogwright.Web.Tests.Device;

public sealed class WorkbenchTests
{
    private const string Demo = "demo-road-2x12-wireless";
    private const string Chainstay = "frame.chainstay";

    private readonly PretendDevice device = new(new PretendShop());

    private static SpecChange Whole(SpecSheet sheet) => BikeHistory.Empty.To(sheet, "begun")!;

    private Task<string> StartAsync() =>
        device.Shelf.StartAsync(Whole(DemoWorkshop.Sheet(Demo))).AsTask();

    private static async Task<Workbench> StandAsync(PretendDevice device, string id)
    {
        var bench = new Workbench(device.Shelf, DemoLibrary.Shelf());
        Assert.True(await bench.OpenAsync(id));
        return bench;
    }

    [Fact]
    public Task Changes_ThatOverlap_AreAllKept() =>
        OneThread.RunAsync(async () =>
        {
            var id = await StartAsync();
            var bench = await StandAsync(device, id);
            var seen = bench.History.Sheet;

            await Task.WhenAll(
                bench.ChangeAsync(seen.With(Chainstay, "415"), "one"),
                bench.ChangeAsync(seen.With("name", "Plover"), "two")
            );
            await Task.WhenAll(bench.UndoAsync(), bench.UndoAsync());

            Assert.Equal(seen.ToYaml(), bench.History.Sheet.ToYaml());
            await Task.WhenAll(bench.RedoAsync(), bench.RedoAsync());
            Assert.Equal("415", bench.History.Sheet[Chainstay]);
            Assert.Equal("Plover", bench.History.Sheet["name"]);
            Assert.Null(bench.History.NextRedo);
            Assert.Equal(7, bench.History.Changes.Count);
        });

    [Fact]
    public Task Changes_OfADemoBikeThatOverlap_MakeOneBikeOfOnesOwn() =>
        OneThread.RunAsync(async () =>
        {
            var bench = await StandAsync(device, Demo);
            var seen = bench.History.Sheet;

            await Task.WhenAll(
                bench.ChangeAsync(seen.With(Chainstay, "415"), "one"),
                bench.ChangeAsync(seen.With("name", "Plover"), "two")
            );

            var own = Assert.Single(await device.Shelf.ListAsync(), card => !card.IsDemo);
            Assert.Equal((own.Id, Demo), (bench.Id, bench.OpenedAs));
            Assert.Equal(("Plover", "415"), (own.Name, bench.History.Sheet[Chainstay]));
        });

    [Fact]
    public Task AChange_StillBeingKeptWhenAnotherBikeIsOpened_IsKeptAndShowsOnItsOwnBikeOnly() =>
        OneThread.RunAsync(async () =>
        {
            var first = await StartAsync();
            var second = await StartAsync();
            var bench = await StandAsync(device, first);

            var change = bench.ChangeAsync(bench.History.Sheet.With(Chainstay, "415"), "one");
            Assert.True(await bench.OpenAsync(second));
            await change;

            Assert.Equal(second, bench.Id);
            Assert.NotEqual("415", bench.History.Sheet[Chainstay]);
            Assert.Equal("415", (await device.Shelf.OpenAsync(first))!.Sheet[Chainstay]);
        });

    [Fact]
    public async Task ASpec_WithAnErrorAfterTheReload_IsComputedAsBeforeTheError()
    {
        var id = await StartAsync();
        var bench = await StandAsync(device, id);
        await bench.ChangeAsync(bench.History.Sheet.With(Chainstay, "415"), "right");
        await bench.ChangeAsync(bench.History.Sheet.With(Chainstay, "about 41"), "wrong");
        await bench.ChangeAsync(bench.History.Sheet.With("name", "Plover"), "wrong still");

        var again = await StandAsync(device.Reloaded(), id);

        Assert.False(again.IsCurrent);
        Assert.Equal(bench.AsSpec!.File.Drivetrain.Frame, again.AsSpec!.File.Drivetrain.Frame);
        Assert.NotNull(again.Bike);
        Assert.Equal("about 41", again.History.Sheet[Chainstay]);
    }

    [Fact]
    public async Task News_OfAnotherBike_ChangeNothingOnTheStand()
    {
        var id = await StartAsync();
        var other = await StartAsync();
        var bench = await StandAsync(device, id);
        var bike = bench.Bike;
        var heard = 0;
        bench.Changed += () => heard++;

        await device.Shelf.AddAsync(
            other,
            new("set", ImmutableSortedDictionary<string, string?>.Empty.Add("name", "Plover"))
        );
        await device.Shelf.RemoveDemoAsync();
        await device.ExchangeAsync();

        Assert.Equal((0, bike), (heard, bench.Bike));
    }
}
