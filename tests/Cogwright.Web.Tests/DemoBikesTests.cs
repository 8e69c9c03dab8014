using System.Text.Json;
using Cogwright.Drawing;
using Cogwright.Drivetrain;
using Cogwright.Facts;
using Cogwright.Files;
using Cogwright.Web.Bikes;
using Cogwright.Web.GearTables;
using Cogwright.Web.Plots;
using Cogwright.Web.WorkTargets;

namespace Cogwright.Web.Tests;

/// <summary>What the pages show, for every bike of the demo workshop.</summary>
public sealed class DemoBikesTests
{
    public static TheoryData<string> Ids => [.. DemoWorkshop.Ids];

    private static ComputedBike Bike(string id) =>
        ComputedBike.Of(DemoWorkshop.Sheet(id).Check(DemoParts.Library).Spec!);

    [Theory]
    [MemberData(nameof(Ids))]
    public void GearGrid_OfADemoBike_HasEveryGearOnceWithWords(string id)
    {
        var bike = Bike(id);
        var grid = GearGrid.Of(bike);
        Assert.Equal(
            bike.Table.Gears.Select(gear => gear.Gear)
                .Order(
                    Comparer<Gear>.Create(
                        (a, b) => (a.RingTeeth, a.CogTeeth).CompareTo((b.RingTeeth, b.CogTeeth))
                    )
                ),
            grid.Cells.Select(cell => cell.Gear)
                .Order(
                    Comparer<Gear>.Create(
                        (a, b) => (a.RingTeeth, a.CogTeeth).CompareTo((b.RingTeeth, b.CogTeeth))
                    )
                )
        );
        Assert.All(grid.Cells, cell => Assert.NotEqual("", cell.Words));
        // Whatever is worth a look in a cell is told above the table, and the other way round.
        Assert.Equal(grid.Cells.All(cell => cell.Mark == Mark.Taut), grid.News.IsEmpty);
        Assert.Equal(new(grid.Rings[0], grid.Cogs[^1]), grid.At(grid.Cogs.Length - 1, 0).Gear);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void GearNews_OfADemoBike_PutsWhatRefusesToWorkFirst(string id)
    {
        var used = GearGrid
            .Of(Bike(id))
            .News.Where(news => !news.NotUsed)
            .Select(news => news.IsBad)
            .ToList();
        Assert.Equal(used.OrderDescending(), used);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Plots_OfADemoBike_HaveWordsAndGoToTheBrowserAsTheyAre(string id)
    {
        var bike = Bike(id);
        var plots = BikePlots.Of(bike);
        Assert.Equal(bike.Spec.RearDerailleur is null, plots.IsEmpty);
        Assert.All(
            plots,
            plot =>
            {
                Assert.NotEqual("", plot.Summary);
                using var json = JsonDocument.Parse(PlotScreen.ToJson(plot));
                Assert.Equal(
                    plot.Lines.Length,
                    json.RootElement.GetProperty("lines").GetArrayLength()
                );
                Assert.All(
                    plot.Lines,
                    line => Assert.Equal(plot.Lines[0].Points.Length, line.Points.Length)
                );
            }
        );
        Assert.Equal(
            bike.Spec.Frame.Suspension is not null && bike.Spec.RearDerailleur is not null,
            plots.Any(plot => plot.Id == "growth")
        );
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Stages_OfADemoBike_KeepTheOrderOfTheTargets(string id)
    {
        var bike = Bike(id);
        var stages = StageOfWork.Of(bike);
        Assert.Equal(bike.Targets, stages.SelectMany(stage => stage.Targets));
        Assert.Equal(stages.Length, stages.Select(stage => stage.Title).Distinct().Count());
        Assert.All(
            bike.Targets.Where(target => target.Value is not null || target.Lower is not null),
            target => Assert.NotNull(AimWords.Of(target))
        );
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Summary_OfADemoBike_TellsGearingAndChain(string id)
    {
        var summary = BikeSummary.Of(DemoWorkshop.History(id), DemoParts.Library);
        Assert.True(summary.IsRight);
        Assert.Equal(Bike(id).Table.Pitches, summary.Pitches);
    }

    [Fact]
    public void EveryFinding_HasWordsForItsCell() =>
        Assert.All(
            Enum.GetValues<FindingKind>().Where(kind => kind != FindingKind.State),
            kind => Assert.NotEqual("", Texts.Get($"gears.cell.{kind}", 1.0))
        );

    [Fact]
    public void Caution_WithSignalWord_IsTakenApart()
    {
        Assert.Equal(
            new("WARNING", "A chain pin can fly out."),
            CautionText.Of("WARNING: A chain pin can fly out.")
        );
        Assert.Equal(new("", "Look first: then turn."), CautionText.Of("Look first: then turn."));
    }

    [Fact]
    public void ChangedAt_OfAVersion7Id_IsTheTimeInIt()
    {
        var at = new DateTimeOffset(2026, 11, 25, 14, 5, 0, TimeSpan.Zero);
        var id = Guid.CreateVersion7(at).ToString();
        var history = BikeHistory.Empty.With(
            BikeHistory.Empty.To(Cogwright.Files.SpecSheet.Empty.With("name", "x"), "begun")! with
            {
                Id = id,
            }
        );
        Assert.Equal(at, BikeSummary.ChangedAt(history));
        Assert.Equal("today 14:05", BikeSummary.WhenInWords(at, at.AddHours(2)));
        Assert.Equal("yesterday 14:05", BikeSummary.WhenInWords(at, at.AddHours(12)));
        Assert.Equal("2026-11-25", BikeSummary.WhenInWords(at, at.AddDays(3)));
        Assert.Null(BikeSummary.ChangedAt(DemoWorkshop.History(DemoWorkshop.Ids[0])));
    }
}
