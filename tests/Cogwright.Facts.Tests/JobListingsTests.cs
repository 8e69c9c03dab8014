using System.Collections.Immutable;
using System.Text;
using Cogwright.Care;
using Cogwright.Log;
using Cogwright.Parts;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts.Tests;

public sealed class JobListingsTests
{
    private const long Morning = 639_000_000_000_000_000;

    private readonly JobListings bike = new(new(new Guid("018f0000-0000-7000-8000-0000000000b1")));
    private EntryId? last;
    private long ticks = Morning;

    [Fact]
    public void Listing_OfAJob_TellsItsBikeWhoHasItAndWhatItWaitsFor()
    {
        var job = Begin("Gears");

        Assert.Equal(JobWaits.Hands, Job.Waits);
        Write(JobEntry.Hands(job, "AB", "axle is stiff"));
        Assert.Equal(
            ("Linie", "Gears", "AB", JobWaits.Work),
            (Job.Bike, Job.Title, Job.InHandsOf, Job.Waits)
        );
        Write(JobEntry.Intake(job, IntakeFields.Inspection, IntakeFields.NoGo));
        Assert.Equal(JobWaits.NoGo, Job.Waits);
        Write(JobEntry.Intake(job, IntakeFields.Kind, "gears"));
        Assert.Equal("gears", Job.Kind);
        Write(JobEntry.Stage(job, JobStage.Test));
        Assert.Equal(JobStage.Test, Job.Stage);
    }

    [Fact]
    public void Texts_HoldWhatTheShopWrote_AndNotWhatWasTakenBack()
    {
        var job = Begin("Gears");
        Write(LabelEntry.Draft(new(PartKind.Chain, null, "SN-77", "inner face")));
        var slip = Write(JobEntry.Change("fall", "in the van"));
        Write(JobEntry.Exception("nowhere", "step", "of another run"));
        Write(JobEntry.Comeback(job, "", "other", "rattles again"));
        Assert.Contains("in the van", Job.Texts);

        Write(JobEntry.TakeBack(slip.Id, "another bike"));
        Write(JobEntry.Close(job, null));
        Write(JobEntry.Amend(job, "AB", "the ring was glued"));

        Assert.Empty(
            (
                (string[])
                    [
                        "Linie",
                        "Gears",
                        "SN-77",
                        "inner face",
                        "rattles again",
                        "AB",
                        "the ring was glued",
                    ]
            ).Except(Job.Texts)
        );
        Assert.DoesNotContain("in the van", Job.Texts);
        Assert.DoesNotContain("of another run", Job.Texts);
    }

    [Fact]
    public void Comeback_SaidAndTakenBack_IsOneAndThenNone()
    {
        var job = Begin("Gears again");
        Write(JobEntry.Comeback(job, "earlier", "part-fault", ""));
        Assert.Equal(("part-fault", "earlier"), (Job.Cause, Job.ComebackOf));

        Write(JobEntry.Comeback(job, "", "", ""));

        Assert.Equal(("", ""), (Job.Cause, Job.ComebackOf));
    }

    [Fact]
    public void Comeback_AsABody_IsTheCanonicalJsonOfTheManual() =>
        Assert.Equal(
            """{"cause":"part-fault","job":"j","note":"n","of":"e"}""",
            Encoding.UTF8.GetString(JobEntry.Comeback("j", "e", "part-fault", "n").Body.Span)
        );

    /// <summary>Worked out by hand: gaps of 10, 30, 31 and −5 minutes.</summary>
    [Fact]
    public void Times_OfGaps_CountAsWorkUpToAPause_AtTheStageBeforeThem()
    {
        var job = Begin("Gears");
        After(10);
        Write(JobEntry.Stage(job, JobStage.SetUp));
        After(30);
        Write(JobEntry.Stage(job, JobStage.Test));
        After(31);
        Write(JobEntry.Hands(job, "AB", ""));
        After(-5);
        Write(JobEntry.Hands(job, "CD", ""));

        Assert.Equal(10 * 60, Job.StageSeconds[(int)JobStage.Intake]);
        Assert.Equal(30 * 60, Job.StageSeconds[(int)JobStage.SetUp]);
        Assert.Equal(0, Job.StageSeconds[(int)JobStage.Test]);
        Assert.Equal(31 * 60, Job.PauseSeconds);
        Assert.Equal(Morning + TimeSpan.FromMinutes(71).Ticks, Job.LastTicks);
    }

    [Fact]
    public void Log_OfABikeWithoutAJob_IsTheBikeAlone_AndTheShopsOwnIsNothing()
    {
        Name();
        Assert.Equal(("", "Linie"), (Job.Job, Job.Bike));

        var shop = new JobListings(ShopLog.Id);
        shop.Log.Add(Made(shop.Log, ProcedureEntry.Draft(new("", "title: kwezil", false))));
        Assert.Empty(shop.Jobs(CareTable.CommonPractice));
        Assert.Empty(new JobListings(bike.Log.Id).Jobs(CareTable.CommonPractice));
    }

    /// <summary>Pads of 1.6 mm, limit 0.5 mm: nothing; of 0.3 mm: due on the day they were measured, and beside the jobs.</summary>
    [Fact]
    public void Wear_ThatMakesSomethingDue_IsToldOfTheBike_AndByTheShopsLimits()
    {
        var day = new DateOnly(2026, 3, 2);
        Begin("Gears");
        Write(CareEntry.Draft(new CarePart(CareKind.Pad, CarePlace.Rear, day) { Value = 1.6 }));
        Assert.Single(bike.Jobs(CareTable.CommonPractice));

        Write(
            CareEntry.Draft(
                new CarePart(CareKind.CoinCell, CarePlace.Left, day.AddDays(1)) { IsNew = true }
            )
        );
        Write(CareEntry.Draft(new CarePart(CareKind.Pad, CarePlace.Rear, day) { Value = 0.3 }));
        var told = bike.Jobs(CareTable.CommonPractice);

        Assert.Equal(("Gears", null), (told[0].Title, told[0].Due));
        Assert.Equal(
            ("", "Linie", CareKind.Pad, day),
            (told[1].Job, told[1].Bike, told[1].Due!.Value, told[1].DueOn!.Value)
        );
        Assert.Empty(told[1].Texts);
        var own = CareTable.CommonPractice with
        {
            Own = CareTable.CommonPractice.Own.SetItem(CareTerm.Pad.Name, 0.1),
        };
        Assert.Equal(CareKind.CoinCell, bike.Jobs(own)[1].Due);
    }

    /// <summary>The first check of one handover, entered with the wear and agreed at the closing of the job.</summary>
    [Fact]
    public void FirstCheck_OfOneHandover_IsToldOnce_AndNoMoreOnceItWasDone()
    {
        var day = DateOnly.FromDateTime(new DateTime(Morning, DateTimeKind.Utc));
        var job = Begin("Gears");
        Write(CareEntry.Draft(new CarePart(CareKind.FirstCheck, CarePlace.Bike, day)));
        Assert.Equal(CareKind.FirstCheck, bike.Jobs(CareTable.CommonPractice)[1].Due);

        Write(JobEntry.Close(job, day.AddDays(30)));
        Assert.Equal((CareKind.FirstCheck, day.AddDays(30)), (Job.Due!.Value, Job.DueOn!.Value));

        Write(JobEntry.Check(job, "good"));
        Assert.Null(Job.Due);
        // The bike goes out again on the day of the check.
        Write(CareEntry.Draft(new CarePart(CareKind.FirstCheck, CarePlace.Bike, day.AddDays(1))));
        Assert.Equal(CareKind.FirstCheck, bike.Jobs(CareTable.CommonPractice)[1].Due);
    }

    /// <summary>Worked out by hand: 350 km in 31 days; the recheck after 100 km is due 8.9 days after the tightening.</summary>
    [Fact]
    public void FirstCheck_ThatAJobTells_StillTellsWhatTheCounterStoodAt()
    {
        var day = DateOnly.FromDateTime(new DateTime(Morning, DateTimeKind.Utc));
        var job = Begin("Gears");
        Write(
            CareEntry.Draft(
                new CarePart(CareKind.Fasteners, CarePlace.Bike, day.AddDays(-31)) { Usage = 0 }
            )
        );
        Write(
            CareEntry.Draft(new CarePart(CareKind.FirstCheck, CarePlace.Bike, day) { Usage = 350 })
        );
        Write(JobEntry.Close(job, day.AddDays(30)));

        var told = bike.Jobs(CareTable.CommonPractice);

        Assert.Equal(
            (CareKind.Fasteners, day.AddDays(-23)),
            (told[1].Due!.Value, told[1].DueOn!.Value)
        );
    }

    private JobListing Job => Assert.Single(bike.Jobs(CareTable.CommonPractice));

    private void After(int minutes) => ticks += TimeSpan.FromMinutes(minutes).Ticks;

    private string Begin(string title)
    {
        Name();
        return Write(JobEntry.Begin(title)).Id.ToString();
    }

    private void Name() =>
        Write(
            SpecEntry.Draft(
                new(
                    "named",
                    ImmutableSortedDictionary
                        .Create<string, string?>(StringComparer.Ordinal)
                        .Add("name", "Linie")
                )
            )
        );

    private Entry Write(EntryDraft draft)
    {
        var entry = Made(bike.Log, draft);
        bike.Log.Add(entry);
        return entry;
    }

    private Entry Made(EntryLog log, EntryDraft draft)
    {
        var stamp = EntryStamp.Next(last, ticks, new byte[EntryId.RandomBytes]);
        last = stamp.Id;
        return log.Prepare(
            new DeviceId(new Guid("018f0000-0000-7000-8000-0000000000d1")),
            stamp,
            draft with
            {
                Author = "device:1",
            }
        ).Value!;
    }
}
