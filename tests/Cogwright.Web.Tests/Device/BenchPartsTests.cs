using Cogwright.Facts;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Bikes;
using Cogwright.Web.Parts;

/// <summary>The stand with a bike that names parts of the shop's library.</summary>
public sealed class BenchPartsTests
{
    private const string Demo = "demo-touring-3x9-cable";
    private const string Measured = "demo-measured-2x12";

    private static readonly Part Cassette = DemoParts.Library.Of(PartKind.Cassette)[0];
    private static readonly Part Chain = DemoParts.Library.Of(PartKind.Chain)[0];
    private static readonly Part Other = DemoParts.Library.Of(PartKind.Rings)[0];

    private readonly PretendShop shop = new();
    private readonly PretendParts library = new();
    private readonly PretendKeep keep = new();
    private readonly PretendDevice device;

    public BenchPartsTests() => device = new(shop);

    private async Task<(Workbench Bench, PartShelf Parts)> StandAsync(SpecSheet sheet)
    {
        var id = await device.Shelf.StartAsync(BikeHistory.Empty.To(sheet, "begun")!);
        var parts = new PartShelf(keep, library);
        var bench = new Workbench(device.Shelf, parts);
        Assert.True(await bench.OpenAsync(id));
        return (bench, parts);
    }

    private static SpecSheet Named() => DemoWorkshop.Sheet(Demo).Fit(Cassette);

    [Fact]
    public Task APart_ThatAnotherDeviceFits_IsLookedUpOnlyWhenTheLibraryIsRead() =>
        OneThread.RunAsync(async () =>
        {
            var gate = new TaskCompletionSource();
            keep.Gate = gate.Task;
            keep.Kept = new(PartsWriter.ToCsv([Cassette]), "\"1\"");
            var (bench, _) = await StandAsync(DemoWorkshop.Sheet(Demo));
            Assert.True(bench.IsCurrent);

            // The shelf tells of a change of another tab or device as of one's own.
            await device.Shelf.AddAsync(bench.Id!, bench.History.To(Named(), "fitted")!);
            Assert.True(bench.IsCurrent);
            gate.SetResult();
            await bench.UndoAsync();
            await bench.RedoAsync();

            Assert.Equal(Cassette.Id, bench.History.Sheet["parts.cassette"]);
            Assert.True(bench.IsCurrent, string.Join('\n', bench.Reading!.Problems));
        });

    [Fact]
    public Task APart_ThatArrivesLater_HealsTheBikeWithoutOpeningItAgain() =>
        OneThread.RunAsync(async () =>
        {
            library.Hold(Other);
            var (bench, parts) = await StandAsync(Named());
            Assert.False(bench.IsCurrent);

            library.Hold(Other, Cassette);
            await parts.RefreshAsync();

            Assert.True(bench.IsCurrent);
            Assert.NotNull(bench.Bike);
        });

    [Fact]
    public Task APart_FittedElsewhereThatIsNotKnownHere_IsAskedForOnce() =>
        OneThread.RunAsync(async () =>
        {
            library.Hold(Other);
            var (bench, parts) = await StandAsync(DemoWorkshop.Sheet(Demo));
            await parts.RefreshAsync();
            var before = library.Fetches;
            library.Hold(Other, Cassette);

            await device.Shelf.AddAsync(bench.Id!, bench.History.To(Named(), "fitted")!);
            Assert.True(bench.IsCurrent);
            Assert.Equal(before + 1, library.Fetches);

            library.Hold(Other);
            await parts.RefreshAsync();
            await bench.ChangeAsync(sheet => sheet.With("name", "Plover"), "named");
            Assert.False(bench.IsCurrent);
            Assert.Equal(before + 2, library.Fetches);
        });

    [Fact]
    public Task AnotherLibrary_WithTheSamePartsOfThisBike_ComputesNothingAgain() =>
        OneThread.RunAsync(async () =>
        {
            library.Hold(Chain);
            var (bench, parts) = await StandAsync(DemoWorkshop.Sheet(Measured).Fit(Chain));
            await bench.Computed;
            var (computed, bike) = (bench.Computed, bench.AsSpec);
            Assert.True(bike is not null, string.Join("\n", bench.Reading!.Problems));

            library.Hold(Chain, Other);
            await parts.RefreshAsync();
            await bench.Computed;
            Assert.Equal((computed, bike), (bench.Computed, bench.AsSpec));

            library.Hold(Chain with { Source = "measured here" }, Other);
            await parts.RefreshAsync();
            await bench.Computed;
            Assert.NotSame(bike, bench.AsSpec);
        });
}
