using System.Collections.Immutable;
using Cogwright.Facts.Records;
using Cogwright.Files;
using Cogwright.Log;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts.Tests;

/// <summary>The record of a job from the entries of a log: what closed it is what it says.</summary>
public sealed class JobRecordTests
{
    private const string Procedure = """
        format: 1
        title: Set the gap
        steps:
          - id: gap
            action: Set the gap
            part: rearDerailleur
            check:
              quantity: gap
              convention: Tooth tip to tooth tip
              target: 6 mm
              tolerance: 1 mm
        """;

    private static readonly DeviceId Stand = new(new("00000000-0000-4000-8000-00000000000b"));

    // Before the stand's in every order of devices: what it did unseen would come first.
    private static readonly DeviceId Tablet = new(new("00000000-0000-4000-8000-00000000000a"));

    [Fact]
    public void Of_EntriesOfAnotherDeviceUnseenAtTheClosing_ChangeNothingOfIt()
    {
        var bike = new Bike();
        var unseen = new Bike(bike.Log);
        bike.Add(Stand, Done(bike.Run, 6.1));
        bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));
        var before = JobRecord.Of(bike.Log, bike.Job, new())!;
        bike.Log.Add(unseen.Add(Tablet, Done(bike.Run, 9)));
        var after = JobRecord.Of(bike.Log, bike.Job, new())!;

        Assert.Equal(
            before.Content.Lines(),
            after.Content.Lines().Where(line => line.Place != "late")
        );
        Assert.Contains("9 mm", Assert.Single(after.Content.Late), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_KnockToldByADeviceThatDidNotKnowOfTheClosing_StandsUnderWhatCameLater()
    {
        var bike = new Bike();
        var unseen = new Bike(bike.Log);
        bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));
        bike.Log.Add(unseen.Add(Tablet, JobEntry.Change("knock", "fell off the stand")));

        Assert.Contains(
            "fell off the stand",
            Assert.Single(JobRecord.Of(bike.Log, bike.Job, new())!.Content.Late),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Of_ClosedAnewAfterAnAmendment_StillHasTheAmendment()
    {
        var bike = new Bike();
        var close = bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));
        bike.Add(Stand, JobEntry.Amend(bike.Job, "AB", "The hanger was seen to be cracked."));
        bike.Add(Stand, JobEntry.TakeBack(close.Id, "too early"));
        var open = JobRecord.Of(bike.Log, bike.Job, new())!;
        bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 21)));
        var closed = JobRecord.Of(bike.Log, bike.Job, new())!;

        Assert.Contains(
            "cracked",
            Assert.Single(open.Content.Amendments),
            StringComparison.Ordinal
        );
        Assert.Equal(open.Content.Amendments, closed.Content.Amendments);
    }

    [Fact]
    public void Of_AnotherJobAfterwards_DoesNotShowInTheFirst()
    {
        var bike = new Bike();
        bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));
        var before = JobRecord.Of(bike.Log, bike.Job, new())!;
        bike.Add(Stand, JobEntry.Begin("Second"));
        bike.Add(Stand, JobEntry.Change("knock", "fell over"));

        Assert.Equal(
            before.Content.Lines(),
            JobRecord.Of(bike.Log, bike.Job, new())!.Content.Lines()
        );
    }

    [Fact]
    public void Of_ClosingTakenBack_IsOpenAgain()
    {
        var bike = new Bike();
        var close = bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));
        bike.Add(Stand, JobEntry.TakeBack(close.Id, "too early"));

        Assert.False(JobRecord.Of(bike.Log, bike.Job, new())!.Content.IsClosed);
    }

    [Theory]
    [InlineData("gearsNotUsed: [50/34, 34/11]")]
    [InlineData("gearsNotUsed:\n  - {ring: 50, cog: 34}\n  - {ring: 34, cog: 11}")]
    [InlineData("gearsNotUsed:\n  - 50 / 34\n  - 34/11")]
    public void Of_GearsThatTheSpecDoesNotUse_NamesThemToTheRider(string yaml)
    {
        var sheet = SpecSheet.Read(yaml, "bike.yaml").Sheet!;
        var bike = new Bike();
        bike.Add(
            Stand,
            SpecEntry.Draft(
                new(
                    "Gears",
                    sheet.Values.ToImmutableSortedDictionary(v => v.Key, v => (string?)v.Value)
                )
            )
        );

        var know = JobRecord.Of(bike.Log, bike.Job, new())!.Content.Know;

        Assert.True(
            know.Any(line => line.Contains("50 / 34, 34 / 11", StringComparison.Ordinal)),
            string.Join("; ", sheet.Values) + " " + string.Join("; ", know)
        );
    }

    /// <summary>
    /// Which parts a library had, no log tells; the rings and cogs that the spec says itself, it does, so that a gear which nobody
    /// tried is named.
    /// </summary>
    [Fact]
    public void GearsOf_ASpecThatNamesParts_AreThoseThatItSaysItself()
    {
        const string yaml = """
            name: Grey tourer
            parts: {chain: of-the-shop}
            frame: {class: touring}
            hanger: {class: mountain}
            rings: [44]
            cogs: {teeth: 11-13-15, hubSpacing: 135}
            rearDerailleur: {class: touring-long}
            """;

        Assert.Equal(
            [new(44, 11), new(44, 13), new(44, 15)],
            JobRecord.GearsOf(SpecSheet.Read(yaml, "bike.yaml").Sheet!)
        );
    }

    [Fact]
    public void Of_NoSuchJob_IsNull() =>
        Assert.Null(JobRecord.Of(new Bike().Log, Guid.Empty.ToString(), new()));

    [Fact]
    public void Code_ClosedJob_HoldsAddressAndTheFirstSignsOfTheClosingsHash()
    {
        var bike = new Bike();
        var close = bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));

        Assert.Equal(
            $"https://shop.example/bike/{bike.Log.Id}/record/{bike.Job}#{close.Hash.ToString()[..16]}",
            JobRecord.Of(bike.Log, bike.Job, new() { Address = "https://shop.example" })!.Code
        );
    }

    [Fact]
    public void Step_WhatWasAskedFor_ComesBackAsItWasWritten()
    {
        var bike = new Bike();
        var entry = bike.Add(Stand, Done(bike.Run, 6.1));
        var done = Assert.IsType<StepDone>(JobEntry.Read(entry));

        Assert.Equal((5, 6, 7, "mm"), (done.Lower, done.Aim, done.Upper, done.Unit));
        Assert.True(done.SaysWhatWasAsked);
    }

    [Fact]
    public void Amend_WithoutText_IsNoFact()
    {
        var bike = new Bike();

        Assert.Null(JobEntry.Read(bike.Add(Stand, JobEntry.Amend(bike.Job, "AB", " "))));
        Assert.Equal(
            "text",
            Assert
                .IsType<JobAmended>(
                    JobEntry.Read(bike.Add(Stand, JobEntry.Amend(bike.Job, "AB", "text")))
                )
                .Text
        );
    }

    [Fact]
    public void File_WrittenAndRead_IsTheSame()
    {
        var bike = new Bike();
        bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));
        var record = JobRecord.Of(bike.Log, bike.Job, new())!;
        var file = RecordFile.Of(
            record,
            new() { OffsetMinutes = -90 },
            ImmutableSortedDictionary<string, ReadOnlyMemory<byte>>.Empty,
            "letter"
        );
        var read = RecordFile.Read(file.Write())!;

        Assert.Equal(file.Write(), read.Write());
        Assert.Equal(record.Content.Lines(), read.Printed);
        Assert.Null(RecordFile.Read("{\"format\":\"cogwright-record\",\"version\":2}"u8.ToArray()));
        Assert.Null(RecordFile.Read("no JSON"u8.ToArray()));
    }

    [Fact]
    public void PassportOf_TwoJobs_GathersThemWithTheLastReading()
    {
        var bike = new Bike();
        bike.Add(Stand, Done(bike.Run, 6.1));
        bike.Add(Stand, JobEntry.Change("knock", "fell over"));
        bike.Add(Stand, Done(bike.Run, 6.4));
        bike.Add(Stand, JobEntry.Close(bike.Job, new DateOnly(2026, 4, 20)));
        bike.Add(Stand, JobEntry.Begin("Second"));
        var passport = JobRecord.PassportOf(bike.Log, new());

        Assert.Equal("Grey tourer", passport.BikeName);
        Assert.Equal(["Second", "First"], passport.Jobs.Select(job => job.Title));
        Assert.StartsWith("6.4 mm", Assert.Single(passport.Last).Came, StringComparison.Ordinal);
        Assert.Contains("fell over", Assert.Single(passport.Happened), StringComparison.Ordinal);
    }

    private static EntryDraft Done(string run, double value) =>
        JobEntry.Step(
            new(new("", 0, ""), run, "gap", StepOutcome.Within)
            {
                Value = value,
                Unit = "mm",
                Lower = 5,
                Aim = 6,
                Upper = 7,
            }
        );

    /// <summary>A bike with a job and a procedure begun; or a device's own copy of such a log.</summary>
    private sealed class Bike
    {
        private static int made;

        internal Bike()
        {
            Add(
                Stand,
                SpecEntry.Draft(
                    new(
                        "New bike",
                        ImmutableSortedDictionary<string, string?>.Empty.Add("name", "Grey tourer")
                    )
                )
            );
            Job = Add(Stand, JobEntry.Begin("First")).Id.ToString();
            Run = Add(Stand, JobEntry.Procedure(Job, Procedure)).Id.ToString();
        }

        internal Bike(EntryLog log) => Log.Merge(log.Ordered);

        internal EntryLog Log { get; } = new(new(new("00000000-0000-4000-8000-000000000001")));

        internal string Job { get; } = "";

        internal string Run { get; } = "";

        internal Entry Add(DeviceId device, EntryDraft draft)
        {
            var stamp = new EntryStamp(
                EntryStamp
                    .Next(
                        null,
                        new DateTime(2026, 3, 14).Ticks + (++made * TimeSpan.TicksPerMinute),
                        new byte[EntryId.RandomBytes]
                    )
                    .Id,
                new DateTime(2026, 3, 14).Ticks
            );
            var entry = Log.Prepare(device, stamp, draft with { Author = "device:1" }).Value!;
            Log.Add(entry);
            return entry;
        }
    }
}
