using System.Collections.Immutable;
using Cogwright.Setup.Jobs;
using static Cogwright.Setup.Tests.JobsOnPaper;

namespace Cogwright.Setup.Tests;

/// <summary>The test gear by gear, beside what the model expects.</summary>
public sealed class TestReviewTests
{
    private static readonly StepPlace Pass = new(0, 8);
    private static readonly TestGear Small = new(34, 11);
    private static readonly TestGear Middle = new(34, 19);
    private static readonly TestGear Large = new(34, 34);

    private static readonly ImmutableArray<ExpectedGear> Expected =
    [
        new(Small, [Symptoms.ChainSlack]),
        new(Middle, []),
        new(Large, [], IsBarred: true),
    ];

    [Fact]
    public void Of_NothingTried_LeavesEveryGearThatIsNotBarred()
    {
        var test = Of(AllButTheTest);

        Assert.Equal(
            [GearFinding.NotTried, GearFinding.NotTried, GearFinding.Barred],
            test.Gears.Select(gear => gear.Finding)
        );
        Assert.Equal(2, test.Left);
        Assert.Equal(Small, test.Next);
        Assert.Null(test.Outcome);
    }

    [Fact]
    public void Of_AllRunWell_TellsWhereTheModelSaidOtherwise()
    {
        var test = Of(AllButTheTest.Add(Tried([Small, Middle])));

        Assert.Equal(
            [GearFinding.BetterThanExpected, GearFinding.Good, GearFinding.Barred],
            test.Gears.Select(gear => gear.Finding)
        );
        Assert.Equal(StepOutcome.AsExpected, test.Outcome);
    }

    [Theory]
    [InlineData(Symptoms.ChainSlack, false, GearFinding.AsExpected, StepOutcome.NotAsExpected)]
    [InlineData(Symptoms.ChainSlack, true, GearFinding.AsExpected, StepOutcome.AsExpected)]
    [InlineData("noise", true, GearFinding.NotExpected, StepOutcome.AsExpected)]
    [InlineData("noise", false, GearFinding.NotExpected, StepOutcome.NotAsExpected)]
    // What throws a rider off is not a matter of telling the rider.
    [InlineData("past-inboard", true, GearFinding.NotExpected, StepOutcome.NotAsExpected)]
    // A code of a later version may be serious.
    [InlineData("from-tomorrow", true, GearFinding.NotExpected, StepOutcome.NotAsExpected)]
    public void Of_SomethingTheMatter_IsHeldBesideTheModel(
        string symptom,
        bool isAvoided,
        GearFinding finding,
        StepOutcome outcome
    )
    {
        var test = Of(
            AllButTheTest
                .Add(Tried([Small]) with { Symptoms = [symptom], IsAvoided = isAvoided })
                .Add(Tried([Middle]))
        );

        Assert.Equal(finding, test.Gears[0].Finding);
        Assert.Equal(outcome, test.Outcome);
    }

    [Fact]
    public void Of_SaidOnceMore_TheLastWordStands()
    {
        var test = Of(
            AllButTheTest
                .Add(Tried([Small, Middle]) with { Symptoms = ["noise"] })
                .Add(Tried([Small]))
        );

        Assert.Equal(GearFinding.BetterThanExpected, test.Gears[0].Finding);
        Assert.Equal(GearFinding.NotExpected, test.Gears[1].Finding);
    }

    [Fact]
    public void Of_KnockedBetweenTwoGears_TheFirstIsTriedAgainAndSaysWhy()
    {
        var test = Of(AllButTheTest.Add(Tried([Small])).Add(Change("knock")).Add(Tried([Middle])));

        Assert.Equal(GearFinding.Again, test.Gears[0].Finding);
        Assert.Equal("knock", Assert.IsType<ChangeMade>(test.Gears[0].Why!.Cause!.Fact).Change);
        Assert.Null(test.Outcome);
    }

    [Fact]
    public void Of_SettingTurnedAfterThePass_EveryGearIsTriedAgain()
    {
        var facts = AllDone.Insert(AllDone.Count - 1, Tried([Small, Middle])).Add(Done("index"));

        Assert.All(
            Of(facts).Gears.Where(gear => gear.Finding != GearFinding.Barred),
            gear => Assert.Equal(GearFinding.Again, gear.Finding)
        );
    }

    [Fact]
    public void Of_LookedAtAndHeld_NothingIsTriedAgain()
    {
        var facts = AllDone
            .Insert(AllDone.Count - 1, Tried([Small, Middle]))
            .Add(Done("index", held: true));

        Assert.Equal(0, Of(facts).Left);
    }

    [Fact]
    public void Of_StepThatIsNoPass_IsNone() =>
        Assert.Null(TestReview.Of(Folded(Begun), new(Folded(Begun)), new(0, 0), Expected));

    [Fact]
    public void Apply_TriedAtAStepThatIsNoPass_IsKeptUnplaced() =>
        Assert.Single(
            Folded(Begun.Add(new GearsTried(From("t"), "run", "seat", [Small]))).Unplaced
        );

    [Fact]
    public void AvoidedIn_NamesEachGearOnce_OfTheJobOnly()
    {
        var work = Folded(
            AllButTheTest
                .Add(Tried([Small]) with { Symptoms = ["noise"], IsAvoided = true })
                .Add(Tried([Middle]))
        );

        Assert.Equal([Small], TestReview.AvoidedIn(work, "job"));
        Assert.Empty(TestReview.AvoidedIn(work, "another"));
    }

    [Fact]
    public void Symptoms_EachHasASentenceAndACodeOfItsOwn()
    {
        Assert.Equal(Symptoms.All.Length, Symptoms.All.DistinctBy(one => one.Name).Count());
        Assert.All(Symptoms.All, one => Assert.EndsWith(".", one.About, StringComparison.Ordinal));
    }

    private static ImmutableList<JobFact> AllButTheTest => AllDone.RemoveAt(AllDone.Count - 1);

    private static GearsTried Tried(ImmutableArray<TestGear> gears) =>
        new(From("tried"), "run", "stand-test", gears);

    private static TestReview Of(IEnumerable<JobFact> facts)
    {
        var work = Folded(facts);
        return TestReview.Of(work, new(work), Pass, Expected)!;
    }
}
