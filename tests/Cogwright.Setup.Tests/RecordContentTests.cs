using System.Collections.Immutable;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Records;
using static Cogwright.Setup.Tests.JobsOnPaper;

namespace Cogwright.Setup.Tests;

/// <summary>What the record of a job says.</summary>
public sealed class RecordContentTests
{
    private static readonly long Noon = new DateTime(2026, 3, 14, 12, 0, 0).Ticks;

    [Fact]
    public void Make_JobClosed_SaysWhatWasDoneAndThatNoGearIsToBeAvoided()
    {
        var record = RecordMaker.Make(
            SourceOf(
                AllDone
                    .Add(Tried(new(34, 11), new(34, 34)))
                    .Add(new JobClosed(At("close", Noon), "job"))
            ) with
            {
                Gears = [new(34, 11), new(34, 34)],
            }
        )!;

        Assert.True(record.IsClosed);
        Assert.Contains("handed over", record.Standing, StringComparison.Ordinal);
        Assert.StartsWith("Set up.", Assert.Single(record.Done), StringComparison.Ordinal);
        Assert.Contains(record.Know, text => text.StartsWith("No gear", StringComparison.Ordinal));
        Assert.DoesNotContain(
            record.Know,
            text => text.StartsWith("THE WORK", StringComparison.Ordinal)
        );
        Assert.Equal(5, record.Cautions.Length);
    }

    [Fact]
    public void Make_NoTestDone_DoesNotSayThatNoGearHasToBeAvoided()
    {
        var known = Made(Begun.Add(Done("seat"))).Know;

        Assert.DoesNotContain(known, text => text.StartsWith("No gear", StringComparison.Ordinal));
        Assert.Contains(
            known,
            text => text.StartsWith("Of gears that are not named", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Make_TestPutInDoubtByAKnock_DoesNotSayThatNoGearHasToBeAvoided() =>
        Assert.DoesNotContain(
            Made(AllDone.Add(Tried(new(34, 11), new(34, 34))).Add(Change("knock"))).Know,
            text => text.Contains("has to be avoided", StringComparison.Ordinal)
        );

    [Fact]
    public void Make_GearThatTheTestLeftOut_IsNamedAndNotCalledGood()
    {
        // Too short a chain for 50 / 34: the test passes by it.
        var known = Made(AllDone.Add(Tried(new(50, 11), new(34, 11), new(34, 34)))).Know;

        Assert.Contains(
            known,
            text => text.EndsWith("can be used: 50 / 34.", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            known,
            text => text.Contains("has to be avoided", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Make_GearOfTheSpecThatNobodyTried_IsNamed() =>
        Assert.Contains(
            RecordMaker
                .Make(
                    SourceOf(AllDone.Add(Tried(new TestGear(34, 11)))) with
                    {
                        Gears = [new(34, 11), new(34, 50), new(34, 51)],
                        GearsNotUsed = [new(34, 51)],
                    }
                )!
                .Know,
            text => text.EndsWith("can be used: 34 / 50.", StringComparison.Ordinal)
        );

    [Fact]
    public void Make_GearsOfTheSpecNotKnown_SpeaksOfThoseTriedAlone() =>
        Assert.Contains(
            Made(AllDone.Add(Tried(new(34, 11), new(34, 34)))).Know,
            text => text.StartsWith("None of the gears that were tried", StringComparison.Ordinal)
        );

    [Fact]
    public void Make_ClosedWithThingsOpen_SaysSoFirst()
    {
        var record = Made(Begun.Add(Done("seat")).Add(new JobClosed(At("close", Noon), "job")));

        Assert.StartsWith("IT WAS CLOSED WITH 8 THINGS", record.Know[0], StringComparison.Ordinal);
        Assert.DoesNotContain(
            Made(AllDone.Add(new JobClosed(At("close", Noon), "job"))).Know,
            text => text.StartsWith("IT WAS CLOSED", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("gears", "Kind of work: Gears alone")]
    [InlineData("of-a-later-version", "Kind of work: of-a-later-version")]
    public void Intake_KindOfWork_IsSaidInWords(string kind, string said) =>
        Assert.Equal(said, Assert.Single(Made(Begun.Add(Noted(IntakeFields.Kind, kind))).Intake));

    [Fact]
    public void Intake_EveryField_HasItsWords() =>
        Assert.All(
            IntakeFields.All,
            field => Assert.Single(Made(Begun.Add(Noted(field, "answer"))).Intake)
        );

    [Fact]
    public void Intake_EveryKindOfWork_HasItsTitle() =>
        Assert.All(WorkKinds.All, kind => Assert.NotEqual(kind.Name, WorkKinds.TitleOf(kind.Name)));

    [Fact]
    public void Make_JobOpen_SaysFirstThatTheBikeIsNotToBeRidden()
    {
        var record = Made(Begun.Add(Done("seat")));

        Assert.False(record.IsClosed);
        Assert.StartsWith("THE WORK IS NOT OVER", record.Know[0], StringComparison.Ordinal);
        Assert.Contains("1 of 9", Assert.Single(record.Done), StringComparison.Ordinal);
    }

    [Fact]
    public void Make_NoSuchJob_IsNull() =>
        Assert.Null(
            RecordMaker.Make(
                new()
                {
                    Work = Folded(Begun),
                    Job = "other",
                    BikeName = "",
                }
            )
        );

    [Fact]
    public void Readings_AimInTheEntry_IsWhatWasAskedThen_WhateverTheSpecSaysNow()
    {
        var record = Made(
            Begun.Add(Reading("a") with { Lower = 5, Upper = 7, Aim = 6 }),
            step => new(9, 8, 10, "mm", null, [])
        );

        Assert.Equal("5 to 7, aim 6 mm", Row(record).Asked);
    }

    [Fact]
    public void Readings_OlderEntryWithoutAim_FallsBackToTheSpecAndSaysSo()
    {
        var record = Made(Begun.Add(Reading("a")), step => new(9, 8, 10, "mm", null, []));

        Assert.Contains("8 to 10, aim 9 mm", Row(record).Asked, StringComparison.Ordinal);
        Assert.Contains(RecordMarks.AsNow, Row(record).Asked, StringComparison.Ordinal);
    }

    [Fact]
    public void Readings_NoAimAndNoSpec_SaysThatItWasNotKept() =>
        Assert.Contains(
            "was not kept",
            Row(Made(Begun.Add(Reading("a")))).Asked,
            StringComparison.Ordinal
        );

    [Fact]
    public void Readings_GaugeWithCalibration_NamesBothAndTheUncertainty()
    {
        var row = Row(
            Made(
                Begun.Add(
                    Reading("a") with
                    {
                        Uncertainty = 0.05,
                        Gauge = "Caliper 3",
                        Calibrated = new DateOnly(2026, 1, 2),
                    }
                )
            )
        );

        Assert.Equal("Caliper 3 (calibrated 2026-01-02)", row.With);
        Assert.Equal("6.1 mm, within (standard uncertainty 0.05 mm)", row.Came);
    }

    [Fact]
    public void Readings_GaugeWithoutCalibration_SaysThatItIsNotKnown() =>
        Assert.Equal(
            "Caliper 3 (calibration not known)",
            Row(Made(Begun.Add(Reading("a") with { Gauge = "Caliper 3" }))).With
        );

    [Fact]
    public void Again_StepSpoiltByAKnock_SaysWhatSpoiltIt()
    {
        var facts = AllDone
            .Add(Change("knock"))
            .Add(new StepDone(At("again", Noon), "run", "hanger", StepOutcome.Within));
        var record = Made(facts);

        var again = record.Again.Single(text =>
            text.StartsWith("Do hanger", StringComparison.Ordinal)
        );
        Assert.Contains(BikeChanges.Find("knock")!.About, again, StringComparison.Ordinal);
    }

    [Fact]
    public void Exceptions_AnsweredFor_NameTheReasonAndTheSignAtThatTime()
    {
        var facts = Begun
            .Add(new JobTaken(At("h1", 0), "job", "AB", ""))
            .Add(Done("hanger", "x") with { Outcome = StepOutcome.Outside })
            .Add(new ResultExcepted(At("e", Noon), "run", "hanger", "the customer wants it so"))
            .Add(new JobTaken(At("h2", 0), "job", "CD", ""));
        var record = Made(facts);

        var exception = Assert.Single(record.Exceptions);
        Assert.Contains("the customer wants it so (AB, ", exception, StringComparison.Ordinal);
        Assert.Contains(
            record.Know,
            text => text.Contains("the customer wants it so", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Exceptions_StepDoneAgainAfterwards_AreNoMore()
    {
        var facts = Begun
            .Add(Done("hanger", "x") with { Outcome = StepOutcome.Outside })
            .Add(new ResultExcepted(At("e", Noon), "run", "hanger", "so"))
            .Add(Done("hanger", "y"));

        Assert.Empty(Made(facts).Exceptions);
    }

    [Fact]
    public void Amendments_Given_StandUnderTheirOwnHeadingWithTimeAndSign()
    {
        var source = SourceOf(AllDone.Add(new JobClosed(At("close", Noon), "job")));
        var before = RecordMaker.Make(source)!;
        var after = RecordMaker.Make(
            source with
            {
                Amendments = [new(At("am", Noon), "job", "AB", "The serial number was misread.")],
            }
        )!;

        Assert.Equal(
            "2026-03-14 12:00, AB: The serial number was misread.",
            Assert.Single(after.Amendments)
        );
        Assert.Equal(before.Lines(), after.Lines().Where(line => line.Place != "amendments"));
    }

    [Theory]
    [InlineData(0, "2026-03-14 12:00", "UTC+00:00")]
    [InlineData(90, "2026-03-14 13:30", "UTC+01:30")]
    [InlineData(-480, "2026-03-14 04:00", "UTC−08:00")]
    public void Times_Offset_AreShownInItAndNamed(int minutes, string time, string clock)
    {
        var record = RecordMaker.Make(
            SourceOf(Begun.Add(new JobTaken(At("h", Noon), "job", "AB", ""))) with
            {
                OffsetMinutes = minutes,
            }
        )!;

        Assert.Equal(time + ": AB", Assert.Single(record.Hands));
        Assert.Contains(clock, record.Clock, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(long.MaxValue)]
    [InlineData(long.MinValue)]
    public void Times_ClockOfNoCalendar_IsShownAllTheSame(long ticks)
    {
        var record = Made(Begun.Add(new JobTaken(At("h", ticks / 2), "job", "AB", "")));

        Assert.EndsWith(": AB", Assert.Single(record.Hands), StringComparison.Ordinal);
    }

    [Fact]
    public void Lines_Record_HoldEveryTextOfIt()
    {
        var record = Made(AllDone);
        var lines = record.Lines().Select(line => line.Text).ToHashSet();

        Assert.All(record.Know, text => Assert.Contains(text, lines));
        Assert.All(record.Readings, row => Assert.Contains(row.ToString(), lines));
        Assert.All(record.Torques, row => Assert.Contains(row.ToString(), lines));
        Assert.All(record.Looks, row => Assert.Contains(row.ToString(), lines));
    }

    private static GearsTried Tried(params ReadOnlySpan<TestGear> gears) =>
        new(At("tried", Noon), "run", "stand-test", [.. gears]);

    private static IntakeNoted Noted(string field, string answer) =>
        new(
            At("intake", Noon),
            "job",
            ImmutableSortedDictionary<string, string>.Empty.Add(field, answer)
        );

    private static RecordRow Row(RecordContent record) => Assert.Single(record.Readings);

    private static StepDone Reading(string id) =>
        new(From(id), "run", "gap", StepOutcome.Within) { Value = 6.1, Unit = "mm" };

    private static FactSource At(string id, long ticks) => new(id, ticks, "device:1");

    private static RecordContent Made(
        IEnumerable<JobFact> facts,
        Func<ProcedureStep, StepAim?>? asNow = null
    ) => RecordMaker.Make(SourceOf(facts) with { AsNow = asNow })!;

    private static RecordSource SourceOf(IEnumerable<JobFact> facts)
    {
        var fold = new JobFold();
        var (work, notes) = (fold.Start, new RecordNotes());
        foreach (var fact in facts)
        {
            // The gap is one that is measured.
            var given = fact is ProcedureBegun begun
                ? begun with
                {
                    Procedure = begun.Procedure with
                    {
                        Steps =
                        [
                            .. begun.Procedure.Steps.Select(step =>
                                step.Id == "gap"
                                    ? step with
                                    {
                                        Check = step.Check! with
                                        {
                                            Target = Procedures
                                                .Expressions.ExpressionParser.Read("6 mm")
                                                .Expression,
                                        },
                                    }
                                    : step
                            ),
                        ],
                    },
                }
                : fact;
            notes = notes.With(work, given);
            work = fold.Apply(work, given);
        }
        return new()
        {
            Work = work,
            Notes = notes,
            Job = "job",
            BikeName = "Grey tourer",
        };
    }
}
