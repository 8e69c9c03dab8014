using System.Text;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Measurement;
using Cogwright.Setup.Jobs;
using Cogwright.Web.Bikes;
using Cogwright.Web.Device;
using Cogwright.Web.Jobs;

namespace Cogwright.Web.Tests.Device;

/// <summary>Several people and devices at the work of one shop.</summary>
public sealed class ShopWorkTests
{
    private readonly PretendShop shop = new();

    [Fact]
    public async Task Gauge_SetAndChanged_IsTheSameElsewhere_AndIsNoBike()
    {
        var device = new PretendDevice(shop);
        await device.Shelf.OpenShopAsync();
        await device.Shelf.SetGaugeAsync(
            new("", "caliper 2", "mm")
            {
                Resolution = 0.01,
                StandardUncertainty = 0.02,
                CalibratedOn = new(2026, 5, 2),
                MonthsValid = 12,
            }
        );
        var made = Assert.Single(device.Shelf.Gauges);
        await device.Shelf.SetGaugeAsync(made with { Name = "caliper 2, red", MonthsValid = 6 });
        await device.Shelf.SetGaugeAsync(new("", "wrench 1", "N·m") { DeviationPercent = 4 });
        await device.ExchangeAsync();

        var other = new PretendDevice(shop);
        await other.ExchangeAsync();
        foreach (var one in new[] { device, device.Reloaded(), other })
        {
            await one.Shelf.OpenShopAsync();
            Assert.Equal(
                [made with { Name = "caliper 2, red", MonthsValid = 6 }, "wrench 1"],
                one.Shelf.Gauges.Select(gauge => gauge.Unit == "mm" ? gauge : (object)gauge.Name)
            );
            Assert.DoesNotContain(await one.Shelf.ListAsync(), card => !card.IsDemo);
        }
    }

    [Fact]
    public void For_OwnGaugesFirst_ThenTheUsualOnesOfThatUnit()
    {
        ShopGauge[] own =
        [
            new("1", "caliper 2", "mm"),
            new("2", "old rule", "mm") { IsRetired = true },
            new("3", "wrench", "N·m"),
        ];

        Assert.Equal("1", UsualGauges.For(own, "mm")[0].Id);
        Assert.Equal(1 + UsualGauges.All.Length, UsualGauges.For(own, "mm").Length);
        Assert.Equal(["3"], UsualGauges.For(own, "N·m").Select(gauge => gauge.Id));
    }

    [Fact]
    public async Task Procedure_OfTheShop_CanBeBegunElsewhere_OnceThereIsNothingToMend()
    {
        var device = new PretendDevice(shop);
        await device.Shelf.OpenShopAsync();
        var text = ProcedureShelf.All.Single(each => each.Id == "hanger-alignment").Text;
        await device.Shelf.SetProcedureAsync(new("", text + "nonsense: 1\n", false));
        var made = Assert.Single(device.Shelf.Procedures);
        Assert.Empty(ProcedureShelf.Of(device.Shelf.Procedures));

        await device.Shelf.SetProcedureAsync(made with { Text = text });
        await device.ExchangeAsync();
        var other = new PretendDevice(shop);
        await other.ExchangeAsync();
        await other.Shelf.OpenShopAsync();
        Assert.Equal(made.Id, Assert.Single(ProcedureShelf.Of(other.Shelf.Procedures)).Id);

        await other.Shelf.SetProcedureAsync(made with { Text = text, IsRetired = true });
        Assert.Empty(ProcedureShelf.Of(other.Shelf.Procedures));
        Assert.Single(other.Shelf.Procedures);
    }

    [Fact]
    public async Task Hands_TheLastOneHasTheJob_AndStepsKnowWhoHadItThen()
    {
        var device = new PretendDevice(shop);
        var (log, job, run) = await BegunAsync(device);
        await device.Shelf.AddFactAsync(log, JobEntry.Step(Done(run, "battery-out")));
        await device.Shelf.AddFactAsync(log, JobEntry.Hands(job, "AK", ""));
        await device.Shelf.AddFactAsync(log, JobEntry.Step(Done(run, "lockring")));
        await device.Shelf.AddFactAsync(log, JobEntry.Hands(job, "MB", "lockring done"));

        var work = device.Shelf.WorkOf(log.ToString());
        Assert.Equal("MB", work.Job(job)!.InHandsOf);
        Assert.Equal("lockring done", work.Job(job)!.Hands[^1].Note);
        Assert.Equal(["", "AK"], work.Runs[0].Results.Take(2).Select(result => result!.By));
    }

    [Fact]
    public async Task Words_LieBesideTheLog_AndTheEntriesHoldNothingOfThem()
    {
        const string said = "It jumps when I climb, says Tove Tannberg";
        var device = new PretendDevice(shop);
        var (log, job, _) = await BegunAsync(device);
        await device.Shelf.AddWordsAsync(log, job, PersonalWords.Complaint, said);
        await device.ExchangeAsync();

        var other = new PretendDevice(shop);
        await other.ExchangeAsync();
        foreach (var one in new[] { device.Reloaded(), other })
        {
            await one.Shelf.OpenAsync(log.ToString());
            var digest = one.Shelf.WorkOf(log.ToString()).Job(job)!.Words[PersonalWords.Complaint];
            var (state, words) = await one.Courier.Photos.WordsAsync(
                log,
                new(Convert.FromHexString(digest))
            );
            Assert.Equal((PhotoState.Here, said), (state, words));
            Assert.DoesNotContain("Tannberg", Whole(one), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Words_TakenBack_AreNotInForce()
    {
        var device = new PretendDevice(shop);
        var (log, job, _) = await BegunAsync(device);
        await device.Shelf.AddWordsAsync(log, job, PersonalWords.Customer, "Tove Tannberg");
        await device.Shelf.AddWordsAsync(log, job, PersonalWords.Customer, "");

        Assert.Empty(device.Shelf.WorkOf(log.ToString()).Job(job)!.Words);
    }

    [Fact]
    public async Task Step_DoneOnTwoDevicesUnseen_IsAConflict_UntilItIsDoneOnceMore()
    {
        var (one, other, log, run) = await TwoAsync();
        await one.Shelf.AddFactAsync(log, JobEntry.Step(Done(run, "lockring")));
        await other.Shelf.AddFactAsync(
            log,
            JobEntry.Step(Done(run, "lockring") with { Outcome = StepOutcome.Outside })
        );
        await MeetAsync(one, other);

        var conflict = Assert.Single(one.Shelf.StepConflictsOf(log.ToString()));
        Assert.Equal(2, conflict.Versions.Length);
        Assert.Single(conflict.Versions, version => version.IsOwn);
        // It is no field of the spec.
        Assert.Empty(one.Shelf.ConflictsOf(log.ToString()));

        await one.Shelf.AddFactAsync(log, JobEntry.Step(Done(run, "lockring")));
        await MeetAsync(one, other);
        Assert.Empty(one.Shelf.StepConflictsOf(log.ToString()));
        Assert.Empty(other.Shelf.StepConflictsOf(log.ToString()));
    }

    [Fact]
    public async Task Step_OnlyLookedAtTwice_ToTheSameEnd_IsNoConflict()
    {
        var (one, other, log, run) = await TwoAsync();
        await one.Shelf.AddFactAsync(
            log,
            JobEntry.Step(Done(run, "lockring") with { Held = true })
        );
        await other.Shelf.AddFactAsync(
            log,
            JobEntry.Step(Done(run, "lockring") with { Held = true })
        );
        await MeetAsync(one, other);

        Assert.Empty(one.Shelf.StepConflictsOf(log.ToString()));
    }

    private async Task<(PretendDevice One, PretendDevice Other, LogId Log, string Run)> TwoAsync()
    {
        var one = new PretendDevice(shop);
        var (log, _, run) = await BegunAsync(one);
        await one.ExchangeAsync();
        var other = new PretendDevice(shop);
        await other.ExchangeAsync();
        await other.Shelf.OpenAsync(log.ToString());
        return (one, other, log, run);
    }

    private static async Task MeetAsync(PretendDevice one, PretendDevice other)
    {
        await one.ExchangeAsync();
        await other.ExchangeAsync();
        await one.ExchangeAsync();
    }

    private static string Whole(PretendDevice device) =>
        string.Join(
            '\n',
            device.Browser.Entries.Values.Select(entry =>
                Encoding.UTF8.GetString(Convert.FromBase64String(entry.Bytes))
            )
        );

    private static StepDone Done(string run, string step) =>
        new(new("", 0, ""), run, step, StepOutcome.Done);

    private static async Task<(LogId Log, string Job, string Run)> BegunAsync(PretendDevice device)
    {
        var id = new LogId(
            Guid.Parse(
                await device.Shelf.StartAsync(
                    BikeHistory.Empty.To(DemoWorkshop.Sheet("demo-road-2x12-wireless"), "begun")!
                )
            )
        );
        var job = await device.Shelf.AddFactAsync(id, JobEntry.Begin("Whole drivetrain"));
        var procedure = ProcedureShelf.All.Single(p => p.Id == "wireless-2x12-installation");
        return (
            id,
            job,
            await device.Shelf.AddFactAsync(id, JobEntry.Procedure(job, procedure.Text))
        );
    }
}
