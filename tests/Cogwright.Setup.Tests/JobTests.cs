using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using static Cogwright.Setup.Tests.JobsOnPaper;

namespace Cogwright.Setup.Tests;

/// <summary>The work on a bike as a fold over its facts.</summary>
public sealed class JobTests
{
    [Fact]
    public void All_StepsDoneInOrder_NothingIsLeft()
    {
        var work = Folded(AllDone);
        var review = new JobReview(work);

        Assert.Equal("", Marks(work));
        Assert.Empty(review.OpenOf("job"));
        Assert.Empty(review.OpenTorquesOf("job"));
        Assert.Empty(review.RoughOf("job"));
        Assert.Null(review.NextOf("job"));
        Assert.Equal(new StepPlace(0, 8), review.LastVerifiedOf("job"));
        Assert.All(work.Runs[0].Results, result => Assert.Empty(result!.DoneWithout));
    }

    [Fact]
    public void NextOf_Begun_GoesThroughTheStepsThatAreNotBlocked()
    {
        var review = new JobReview(Folded(Begun));

        Assert.Equal(new StepPlace(0, 0), review.NextOf("job"));
        Assert.Equal(StepStanding.Blocked, review.StandingOf(new(0, 1)));
        var block = Assert.Single(review.BlocksOf(new(0, 1)));
        Assert.Equal(MechanismConditions.WheelSeated, block.Condition);
        Assert.Equal(new StepPlace(0, 0), block.Maker);
        Assert.Equal([Fasteners.RearAxle], review.OpenTorquesOf("job"));
    }

    [Fact]
    public void BlocksOf_PoweredShift_NeedsProofAndHanger_ThoughTheProcedureDoesNotSaySo()
    {
        var review = new JobReview(Folded(Begun));

        Assert.Equal(
            [MechanismConditions.HangerRead, MechanismConditions.InboardStopProven],
            review.BlocksOf(new(0, 6)).Select(block => block.Condition).Order()
        );
    }

    [Fact]
    public void Apply_ReadingOutside_MakesNothingTrue()
    {
        var facts = Begun
            .Add(Done("seat"))
            .Add(Done("hanger") with { Outcome = StepOutcome.Outside });
        var review = new JobReview(Folded(facts));

        Assert.Equal(StepStanding.NotGood, review.StandingOf(new(0, 1)));
        Assert.False(review.Recheck.Holds(MechanismConditions.HangerRead));
        Assert.Equal(new StepPlace(0, 1), review.NextOf("job"));
    }

    [Fact]
    public void Apply_ProofThatFails_OutweighsTheOneThatHeld()
    {
        var proven = Begun.AddRange(
            "seat hanger cut join prove".Split(' ').Select(step => Done(step))
        );
        var failed = proven.Add(Done("prove") with { Outcome = StepOutcome.NotAsExpected });

        Assert.False(new Recheck(Folded(failed)).Holds(MechanismConditions.InboardStopProven));
        Assert.True(
            new Recheck(Folded(failed.Add(Done("prove")))).Holds(
                MechanismConditions.InboardStopProven
            )
        );
    }

    [Fact]
    public void Apply_AnotherJobBegun_TakesNothingOfHowTheBikeStoodForGranted()
    {
        var work = Folded(AllDone.Add(new JobBegun(From("later"), "Chain")));

        Assert.All(
            MechanismConditions.Names,
            condition => Assert.False(new Recheck(work).Holds(condition))
        );
        Assert.Equal("", Marks(work));
    }

    [Fact]
    public void OpenOf_WhatALaterJobSpoils_StandsBeforeItsHandover_WhicheverJobSetIt()
    {
        var work = Folded(
            AllDone
                .Add(new JobClosed(From("x"), "job"))
                .Add(new JobBegun(From("later"), "Other wheel"))
                .Add(Change("rear-wheel-replaced"))
        );
        var review = new JobReview(work);

        Assert.Contains(new StepPlace(0, 7), review.OpenOf("later"));
        Assert.Equal(new StepPlace(0, 0), review.NextOf("later"));
    }

    [Fact]
    public void Apply_GapSet_VoidsTheProofOfTheStop()
    {
        var upToProof = Begun.AddRange(
            "seat hanger cut join prove".Split(' ').Select(step => Done(step))
        );

        Assert.True(new Recheck(Folded(upToProof)).Holds(MechanismConditions.InboardStopProven));
        var review = new JobReview(Folded(upToProof.Add(Done("gap"))));
        Assert.False(review.Recheck.Holds(MechanismConditions.InboardStopProven));
        Assert.Equal(StepStanding.Blocked, review.StandingOf(new(0, 6)));
    }

    [Fact]
    public void Apply_DoneWhileBlocked_IsKeptAndTold()
    {
        var work = Folded(Begun.Add(Done("hanger")));

        Assert.Equal([MechanismConditions.WheelSeated], work.Runs[0].Results[1]!.DoneWithout);
    }

    [Fact]
    public void Marks_Knock_VoidsWhatItTouchesAndNothingElse()
    {
        var work = Folded(AllDone.Add(Change("knock")));

        Assert.Equal(
            "hanger Redo, gap Redo, index Redo, prove-last Redo, stand-test Look",
            Marks(work)
        );
        // The proof is brought about before the index is: a powered shift needs it.
        Assert.Equal("hanger gap prove index prove-last stand-test", Way(work));
    }

    [Fact]
    public void Marks_LookThatHolds_SavesWhatWasMadeFromIt()
    {
        var doubted = AllDone.Add(Change("sag-changed"));

        Assert.Equal(
            "gap Look, index Waits, prove-last Waits, stand-test Look",
            Marks(Folded(doubted))
        );
        Assert.Equal("gap stand-test", Way(Folded(doubted)));
        Assert.Equal("stand-test Look", Marks(Folded(doubted.Add(Done("gap", held: true)))));
        Assert.Equal(
            "index Redo, prove-last Redo, stand-test Look",
            Marks(Folded(doubted.Add(Done("gap"))))
        );
    }

    [Fact]
    public void Marks_FiguresOfAPart_PutInDoubtWhatWasMadeFromIt()
    {
        var work = Folded(AllDone.Add(new FiguresChanged(From("spec"), ["cassette"])));

        Assert.Equal(
            "cut Look, join Waits, gap Waits, index Waits, prove-last Waits, stand-test Waits",
            Marks(work)
        );
        Assert.Equal("cut", Way(work));
    }

    [Fact]
    public void ChainOf_TellsTheWayBackToWhatHappened()
    {
        var work = Folded(AllDone.Add(Change("chain-length-changed")));
        var review = new JobReview(work);
        var test = Assert.Single(review.Recheck.Marks, mark => mark is { Run: 0, Step: 8 });

        var chain = review.ChainOf(test with { Reasons = [test.Reasons[^1]] });

        Assert.Equal(
            "chain-length-changed",
            Assert.IsType<ChangeMade>(chain[^1].Cause!.Fact).Change
        );
        Assert.True(chain.Length > 1);
    }

    [Fact]
    public void Exception_HoldsForWhatWasKnown()
    {
        var excepted = AllDone
            .Add(Change("sag-changed"))
            .Add(Done("gap", held: true))
            .Add(new ResultExcepted(From("x"), "run", "stand-test", "The rider tests it himself."));
        var review = new JobReview(Folded(excepted));

        Assert.Equal(StepStanding.Excepted, review.StandingOf(new(0, 8)));
        Assert.Empty(review.OpenOf("job"));
        var later = new JobReview(Folded(excepted.Add(Change("inboard-stop-turned"))));
        Assert.Equal(StepStanding.Recheck, later.StandingOf(new(0, 8)));
        Assert.Contains(new StepPlace(0, 8), later.OpenOf("job"));
    }

    [Fact]
    public void Exception_EndsWhenWhatItRestsOnIsVoidedLater()
    {
        var excepted = AllDone
            .Add(Change("sag-changed"))
            .Add(new ResultExcepted(From("x"), "run", "gap", "Read with the old shock."));

        Assert.Equal(StepStanding.Excepted, new JobReview(Folded(excepted)).StandingOf(new(0, 5)));
        // The chain's length is not the gap's own subject; the gap rests on it.
        var later = new JobReview(
            Folded(excepted.Add(new FiguresChanged(From("spec"), ["cassette"])))
        );
        Assert.Equal(StepStanding.Recheck, later.StandingOf(new(0, 5)));
    }

    [Fact]
    public void Apply_ReadingThatWasBadAndIsGood_IsAnotherOne_ThoughNothingIsSaidToBeTurned()
    {
        var proven = Begun.AddRange(
            "seat hanger cut join prove".Split(' ').Select(step => Done(step))
        );
        var bent = proven.Add(Done("hanger", held: true) with { Outcome = StepOutcome.Outside });
        var straight = bent.Add(Done("hanger", held: true));

        // The stop was proven on a hanger that stood otherwise.
        Assert.False(new Recheck(Folded(straight)).Holds(MechanismConditions.InboardStopProven));
        Assert.True(new Recheck(Folded(straight)).Holds(MechanismConditions.HangerRead));
        // Read twice alike, nothing has moved.
        Assert.Equal("", Marks(Folded(AllDone.Add(Done("hanger", held: true)))));
    }

    [Fact]
    public void OpenTorquesOf_FastenerOfAnEarlierJob_IsOpenUntilThisOneHasTightenedIt()
    {
        var again = AllDone
            .Add(new JobBegun(From("later"), "Again"))
            .Add(new ProcedureBegun(From("run 2"), "later", SetUp));

        Assert.Equal([Fasteners.RearAxle], new JobReview(Folded(again)).OpenTorquesOf("later"));
        Assert.Null(new JobReview(Folded(again)).LastVerifiedOf("later"));
    }

    [Fact]
    public void Apply_ExceptionWithoutReason_IsNoException()
    {
        var work = Folded(Begun.Add(new ResultExcepted(From("x"), "run", "gap", " ")));

        Assert.Single(work.Unplaced);
        Assert.Contains(new StepPlace(0, 5), new JobReview(work).OpenOf("job"));
    }

    [Fact]
    public void Apply_LaterProcedure_HasTheLastWordOnWhatItSets()
    {
        var other = new Procedure
        {
            Title = "Gap alone",
            Steps =
            [
                Step("gap-again") with
                {
                    Adjusts = ["body-angle"],
                    State = StepState.Final,
                    Check = new() { Quantity = TargetNames.Gap },
                },
            ],
        };
        var facts = AllDone
            .Add(new JobBegun(From("later"), "Gap"))
            .Add(new ProcedureBegun(From("run 2"), "later", other))
            .Add(new StepDone(From("g"), "run 2", "gap-again", StepOutcome.Within));
        var work = Folded(facts);
        var review = new JobReview(work);

        Assert.Equal(StepStanding.Superseded, review.StandingOf(new(0, 5)));
        Assert.Equal("index Redo, prove-last Redo, stand-test Look", Marks(work));
    }

    [Fact]
    public void Apply_ConditionSaidByTheMechanic_HoldsUntilVoided()
    {
        var said = Begun.Add(
            new ConditionSaid(From("c"), MechanismConditions.InboardStopProven, true)
        );

        Assert.True(new Recheck(Folded(said)).Holds(MechanismConditions.InboardStopProven));
        var recheck = new Recheck(Folded(said.Add(Change("knock"))));
        Assert.False(recheck.Holds(MechanismConditions.InboardStopProven));
        Assert.Equal(
            "knock",
            Assert
                .IsType<ChangeMade>(
                    recheck.WhyLapsed(MechanismConditions.InboardStopProven)!.Cause!.Fact
                )
                .Change
        );
    }

    [Fact]
    public void Apply_FactOfSomethingUnknown_IsKept()
    {
        ImmutableList<JobFact> facts =
        [
            new StepDone(From("a"), "nowhere", "gap", StepOutcome.Done),
            new ChangeMade(From("b"), "of a later version", ""),
            new StageReached(From("c"), "nowhere", JobStage.Test),
        ];
        var work = Folded(facts);

        Assert.Equal(facts, work.Unplaced);
        Assert.Equal(3, work.Facts);
    }

    [Fact]
    public void Apply_Intake_KeepsWhatIsNotNamed()
    {
        var facts = Begun
            .Add(Noted(("findings", "A crack?"), (IntakeFields.Inspection, IntakeFields.NoGo)))
            .Add(Noted(("findings", ""), ("complaint", "It slips")))
            .Add(new StageReached(From("s"), "job", JobStage.Handover))
            .Add(new JobClosed(From("z"), "job"));
        var job = Folded(facts).Job("job")!;

        Assert.Equal(["complaint", "inspection"], job.Intake.Keys);
        Assert.Equal(JobStage.Aftercare, job.Stage);
        Assert.True(job.IsClosed);
    }

    [Fact]
    public void All_EveryChange_HasWordsAndNamesThatExist()
    {
        Assert.All(
            BikeChanges.All,
            change =>
            {
                Assert.NotEmpty(change.About);
                Assert.All(change.Parts, part => Assert.Contains(part, ProcedureWords.Parts));
                Assert.All(
                    change.Redo.Concat(change.Look),
                    subject =>
                    {
                        var (kind, name) = (subject.Split(':')[0], subject.Split(':')[1]);
                        Assert.True(
                            kind switch
                            {
                                "adjuster" => ProcedureWords.Adjusters.Contains(name),
                                "condition" => MechanismConditions.Names.Contains(name),
                                "torque" => Fasteners.All.Contains(name),
                                _ => kind == "quantity",
                            },
                            subject
                        );
                    }
                );
            }
        );
    }

    private static IntakeNoted Noted(params (string Field, string Answer)[] answers) =>
        new(
            From("i"),
            "job",
            answers.ToImmutableSortedDictionary(
                answer => answer.Field,
                answer => answer.Answer,
                StringComparer.Ordinal
            )
        );
}
