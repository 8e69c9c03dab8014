using System.Text;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Setup.Jobs;
using Cogwright.Web.Bikes;
using Cogwright.Web.Jobs;

namespace Cogwright.Web.Tests.Device;

/// <summary>Facts of the work on a bike as entries: kept on the device, sent, and the same elsewhere.</summary>
public sealed class JobEntryTests
{
    private readonly PretendShop shop = new();

    [Fact]
    public async Task Job_AfterTheReloadAndOnAnotherDevice_StandsAsItStood()
    {
        var device = new PretendDevice(shop);
        var (id, job, run) = await BegunAsync(device);
        await AddAsync(device, id, JobEntry.Intake(job, "findings", "Worn “cogs”, 12 mm"));
        await AddAsync(device, id, JobEntry.Step(Done(run, "battery-out")));
        await AddAsync(
            device,
            id,
            JobEntry.Step(
                Done(run, "lockring") with
                {
                    Outcome = StepOutcome.Outside,
                    Value = 10.25,
                    Unit = "N·m",
                    Uncertainty = 0.05,
                    Gauge = "Torque wrench 3",
                    Turned = -0.25,
                    Note = "Clicked late",
                    Held = true,
                }
            )
        );
        await AddAsync(
            device,
            id,
            JobEntry.Tried(
                new(new("", 0, ""), run, "every-gear", [new(50, 11), new(34, 30)])
                {
                    Symptoms = ["noise", "front-rub"],
                    IsAvoided = true,
                    Note = "only when cold",
                }
            )
        );
        await AddAsync(device, id, JobEntry.Change("knock", "in the van"));
        await AddAsync(device, id, JobEntry.Condition("units-paired", true));
        await AddAsync(device, id, JobEntry.Exception(run, "pair", "Paired by the customer."));
        await AddAsync(device, id, JobEntry.Stage(job, JobStage.SetUp));
        await device.ExchangeAsync();

        var other = new PretendDevice(shop);
        await other.ExchangeAsync();
        foreach (var one in new[] { device.Reloaded(), other })
        {
            await one.Shelf.OpenAsync(id);
            var work = one.Shelf.WorkOf(id);
            Assert.Empty(work.Unplaced);
            Assert.Equal(0, one.Shelf.NotUnderstoodIn(id));
            Assert.Equal(JobStage.SetUp, work.Job(job)!.Stage);
            Assert.Equal("Worn “cogs”, 12 mm", work.Job(job)!.Intake["findings"]);
            var lockring = work.Runs[0].Results[1]!.Done;
            Assert.Equal(
                (
                    StepOutcome.Outside,
                    10.25,
                    "N·m",
                    0.05,
                    "Torque wrench 3",
                    -0.25,
                    "Clicked late",
                    true
                ),
                (
                    lockring.Outcome,
                    lockring.Value,
                    lockring.Unit,
                    lockring.Uncertainty,
                    lockring.Gauge,
                    lockring.Turned,
                    lockring.Note,
                    lockring.Held
                )
            );
            var tries = Assert.Single(work.Runs[0].Tries).Value;
            Assert.Equal([new(34, 30), new(50, 11)], tries.Keys.OrderBy(gear => gear.RingTeeth));
            Assert.All(
                tries.Values,
                tried =>
                    Assert.Equal(
                        ("noise front-rub", true, "only when cold"),
                        (
                            string.Join(' ', tried.Said.Symptoms),
                            tried.Said.IsAvoided,
                            tried.Said.Note
                        )
                    )
            );
            Assert.Equal("in the van", Assert.Single(work.Changes).Note);
            Assert.True(new Recheck(work).Holds("units-paired"));
            Assert.Contains(work.Runs[0].Exceptions, cause => cause is not null);
        }
    }

    [Fact]
    public async Task TakeBack_PutsTheFactOutOfForce()
    {
        var device = new PretendDevice(shop);
        var (id, _, run) = await BegunAsync(device);
        await AddAsync(device, id, JobEntry.Step(Done(run, "battery-out")));
        var change = await AddAsync(device, id, JobEntry.Change("chain-taken-off", ""));
        await device.Shelf.TakeFactBackAsync(
            new(Guid.Parse(id)),
            new(Guid.Parse(change)),
            "by mistake"
        );

        await device.Shelf.OpenAsync(id);

        Assert.Empty(device.Shelf.WorkOf(id).Changes);
        Assert.NotNull(device.Shelf.WorkOf(id).Runs[0].Results[0]);
        Assert.Equal(0, device.Shelf.NotUnderstoodIn(id));
    }

    [Fact]
    public async Task Spec_FiguresChanged_PutInDoubtWhatWasMadeFromThem()
    {
        var device = new PretendDevice(shop);
        var (id, _, run) = await BegunAsync(device);
        await AddAsync(device, id, JobEntry.Step(Done(run, "seat")));
        await AddAsync(device, id, JobEntry.Step(Done(run, "hanger")));
        Assert.Empty(new Recheck(device.Shelf.WorkOf(id)).Marks);
        var history = (await device.Shelf.OpenAsync(id))!;

        await device.Shelf.AddAsync(
            id,
            history.To(history.Sheet.With("hanger.offset", "[10, -30]"), "another hanger")!
        );

        var mark = Assert.Single(new Recheck(device.Shelf.WorkOf(id)).Marks);
        Assert.Equal(["hanger"], Assert.IsType<FiguresChanged>(mark.Reasons[0].Cause!.Fact).Parts);
    }

    [Fact]
    public void Body_IsCanonical()
    {
        Assert.Equal(
            """{"outcome":"as-expected","run":"r","step":"pair"}""",
            Text(JobEntry.Step(Done("r", "pair") with { Outcome = StepOutcome.AsExpected }))
        );
        Assert.Equal("""{"job":"j","stage":"set-up"}""", Text(JobEntry.Stage("j", JobStage.SetUp)));
        Assert.Equal("""{"change":"knock"}""", Text(JobEntry.Change("knock", "")));
    }

    [Fact]
    public void Procedures_OfTheDemo_FitIntoAnEntry() =>
        Assert.All(
            ProcedureShelf.All,
            procedure =>
                Assert.InRange(
                    JobEntry.Procedure(Guid.NewGuid().ToString(), procedure.Text).Body.Length,
                    1,
                    EntryLimits.BodyBytes
                )
        );

    private static string Text(EntryDraft draft) => Encoding.UTF8.GetString(draft.Body.Span);

    private static StepDone Done(string run, string step) =>
        new(new("", 0, ""), run, step, StepOutcome.Done);

    private static Task<string> AddAsync(PretendDevice device, string bike, EntryDraft fact) =>
        device.Shelf.AddFactAsync(new(Guid.Parse(bike)), fact);

    private static async Task<(string Bike, string Job, string Run)> BegunAsync(
        PretendDevice device
    )
    {
        var id = await device.Shelf.StartAsync(
            BikeHistory.Empty.To(DemoWorkshop.Sheet("demo-road-2x12-wireless"), "begun")!
        );
        var job = await AddAsync(device, id, JobEntry.Begin("Whole drivetrain"));
        var procedure = ProcedureShelf.All.Single(p => p.Id == "wireless-2x12-installation");
        return (id, job, await AddAsync(device, id, JobEntry.Procedure(job, procedure.Text)));
    }
}
