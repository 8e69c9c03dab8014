using Cogwright.Setup.Jobs;

namespace Cogwright.Files.Tests;

/// <summary>The demo workshop's procedures carried out on paper.</summary>
public sealed class DemoJobTests
{
    /// <summary>The procedures.</summary>
    public static TheoryData<string> Files => [.. DemoProcedures.Names];

    [Theory]
    [MemberData(nameof(Files))]
    public void NextOf_FollowedWithEveryStepWell_EndsWithAllGood(string name)
    {
        var (work, taken) = Walk(Begun(name));

        Assert.Equal("", Marks(work));
        Assert.Empty(new JobReview(work).OpenOf("job"));
        Assert.Empty(new JobReview(work).OpenTorquesOf("job"));
        Assert.Empty(new JobReview(work).RoughOf("job"));
        // In the order of the file, each once: nothing is done twice when nothing goes wrong.
        Assert.Equal(work.Runs[0].Procedure.Steps.Select(step => step.Id), taken);
        Assert.All(work.Runs[0].Results, result => Assert.Empty(result!.DoneWithout));
    }

    /// <summary>
    /// After each thing that can happen, the way back ends with all good, whatever the procedure, and is never blocked but by what
    /// the mechanic brings about.
    /// </summary>
    [Theory]
    [MemberData(nameof(Files))]
    public void WayBack_AfterEveryChange_EndsWithAllGood(string name)
    {
        var (done, _) = Walk(Begun(name));
        foreach (var change in BikeChanges.All)
        {
            var work = done.Then(new ChangeMade(From("c"), change.Name, ""));
            foreach (var step in WayBack.Of(work))
            {
                foreach (var need in step.Needs)
                {
                    work = work.Then(new ConditionSaid(From("said"), need, true));
                }
                Assert.Empty(new JobReview(work).BlocksOf(step.Place));
                work = work.Then(
                    Done(work, step.Place) with
                    {
                        Held = step.Mark is not { Level: RecheckLevel.Redo },
                    }
                );
            }
            Assert.Equal("", Marks(work));
        }
    }

    /// <summary>
    /// Knocked in the middle of it, after any of its steps: whoever does the next step again and again comes to the end.
    /// </summary>
    [Theory]
    [MemberData(nameof(Files))]
    public void NextOf_FollowedAfterAKnockInTheMiddle_Ends(string name)
    {
        var begun = Begun(name);
        for (var steps = 1; steps < begun.Runs[0].Results.Length; steps++)
        {
            var work = begun;
            for (var i = 0; i < steps; i++)
            {
                work = Next(work, new JobReview(work).NextOf("job")!.Value);
            }
            work = work.Then(new ChangeMade(From("c"), "knock", ""));
            for (var left = 4 * work.Runs[0].Results.Length; ; left--)
            {
                var review = new JobReview(work);
                if (review.NextOf("job") is { } place)
                {
                    Assert.True(left > 0, $"after {steps} steps: {IdOf(work, place)} once more");
                    work = Next(work, place);
                }
                else if (review.FirstBlockedOf("job") is { } blocked)
                {
                    // What nothing in the procedure brings about, and only that, the mechanic does and says.
                    var need = review.BlocksOf(blocked).First(block => block.Maker is null);
                    Assert.True(left > 0, $"after {steps} steps: {need.Condition} once more");
                    work = work.Then(new ConditionSaid(From("said"), need.Condition, true));
                }
                else
                {
                    break;
                }
            }
            Assert.Empty(new JobReview(work).OpenOf("job"));
        }

        static BikeWork Next(BikeWork work, StepPlace place) =>
            work.Then(
                Done(work, place) with
                {
                    Held =
                        work.Runs[place.Run].Results[place.Step] is not null
                        && new Recheck(work).MarkOf(place.Run, place.Step)
                            is not { Level: RecheckLevel.Redo },
                }
            );

        static string IdOf(BikeWork work, StepPlace place) =>
            work.Runs[place.Run].Procedure.Steps[place.Step].Id;
    }

    /// <summary>
    /// "If this changes, redo or look at that": the table of the trade (common practice), written down here step by step for the
    /// demo procedures. A step that is not named stays good, but for the tests and the torque walk-round.
    /// </summary>
    [Theory]
    [InlineData("wireless-2x12-installation", "battery-exchanged", "power!")]
    [InlineData(
        "wireless-2x12-installation",
        "body-angle-turned",
        "gap! offset-final! inboard-final! prove-last!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "cassette-replaced-alike",
        "lockring! count-again! cut! gap! offset-final inboard-final! prove-last!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "chain-replaced",
        "count-again! cut! load-joint! offset-final front-inner front-outer"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "crank-replaced",
        "front-height! front-angle! front-mount! front-inner! front-outer!"
    )]
    [InlineData("wireless-2x12-installation", "damper-changed", "offset-final")]
    [InlineData("wireless-2x12-installation", "firmware-changed", "power offset-final")]
    [InlineData(
        "wireless-2x12-installation",
        "frame-end-replaced",
        "seat! hanger-screws! hanger! count-again cut gap! offset-final! outboard! inboard-final! prove-last! brakes!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "front-derailleur-moved",
        "front-height! front-angle! front-mount! front-inner! front-outer!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "hanger-aligned",
        "hanger-screws hanger! count-again cut gap! offset-final! outboard! inboard-final! prove-last!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "hanger-of-other-kind",
        "hanger-screws! hanger! mount! count-again! cut! gap! offset-final! outboard! inboard-final! prove-last!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "inboard-stop-turned",
        "offset-final inboard-final! prove-last!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "knock",
        "hanger-screws hanger! mount pair gap! offset-final! outboard! inboard-final! prove-last! brakes"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "large-ring-replaced",
        "front-height! front-angle! front-mount! count-again! cut! front-outer!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "rear-derailleur-replaced",
        "mount! pair! count-again cut gap! offset-final! outboard! inboard-final! prove-last!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "rear-wheel-replaced",
        "seat! hanger gap offset-final! outboard! inboard-final! prove-last! brakes"
    )]
    [InlineData("wireless-2x12-installation", "sag-changed", "gap")]
    [InlineData(
        "wireless-2x12-installation",
        "small-ring-replaced",
        "front-height count-again cut front-inner!"
    )]
    [InlineData("wireless-2x12-installation", "tyre-changed", "")]
    [InlineData(
        "wireless-2x12-installation",
        "unit-replaced-or-paired-again",
        "pair! offset-final! outboard! inboard-final! prove-last!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "wheel-reseated",
        "seat! offset-final inboard-final prove-last brakes"
    )]
    [InlineData("wireless-2x12-installation", "wheel-trued", "brakes")]
    [InlineData("cable-3x9-set-up", "axle-part-fitted", "seat! index inboard-final prove-last")]
    [InlineData("cable-3x9-set-up", "brake-touched", "brakes!")]
    [InlineData("cable-3x9-set-up", "cage-replaced", "count-again! cut! gap! index")]
    [InlineData(
        "cable-3x9-set-up",
        "cassette-of-other-spacing",
        "lockring! mount! count-again! cut! load-joint outboard! anchor-again! gap! index! inboard-final! prove-last!"
    )]
    [InlineData(
        "cable-3x9-set-up",
        "cassette-spacer-changed",
        "lockring! outboard! gap index! inboard-final! prove-last!"
    )]
    [InlineData("cable-3x9-set-up", "chain-length-changed", "count-again! cut! load-joint! gap!")]
    [InlineData(
        "cable-3x9-set-up",
        "chain-of-other-width",
        "count-again! cut! load-joint! index front-inboard! front-outboard!"
    )]
    [InlineData("cable-3x9-set-up", "chain-taken-off", "load-joint!")]
    [InlineData("cable-3x9-set-up", "controls-moved", "anchor-again! index! front-cable! brakes")]
    [InlineData(
        "cable-3x9-set-up",
        "frame-repaired",
        "seat! hanger-screws! hanger! mount! count-again! cut! outboard! anchor-again! gap! index! inboard-final! front-height! front-angle! front-mount! front-inboard! front-outboard! prove-last! brakes"
    )]
    [InlineData(
        "cable-3x9-set-up",
        "front-cable-renewed",
        "front-inboard front-cable! front-outboard"
    )]
    [InlineData(
        "cable-3x9-set-up",
        "front-derailleur-moved",
        "front-height! front-angle! front-mount! front-inboard! front-cable! front-outboard!"
    )]
    [InlineData(
        "cable-3x9-set-up",
        "front-derailleur-replaced",
        "front-height! front-angle! front-mount! front-inboard! front-cable! front-outboard!"
    )]
    [InlineData("cable-3x9-set-up", "front-inboard-stop-turned", "front-inboard!")]
    [InlineData(
        "cable-3x9-set-up",
        "front-shifter-replaced",
        "front-inboard! front-cable! front-outboard!"
    )]
    [InlineData(
        "cable-3x9-set-up",
        "hanger-replaced",
        "hanger-screws! hanger! mount! count-again cut outboard! gap! index! inboard-final! prove-last!"
    )]
    [InlineData(
        "cable-3x9-set-up",
        "hub-overhauled",
        "lockring! hanger outboard inboard-final prove-last"
    )]
    [InlineData("cable-3x9-set-up", "outboard-stop-turned", "outboard! anchor-again! index!")]
    [InlineData("cable-3x9-set-up", "pulleys-of-other-size", "count-again! cut! gap! index")]
    [InlineData("cable-3x9-set-up", "pulleys-renewed", "gap index")]
    [InlineData("cable-3x9-set-up", "rear-cable-renewed", "anchor-again! index!")]
    [InlineData(
        "cable-3x9-set-up",
        "rear-shifter-replaced",
        "anchor-again! index! outboard inboard-final prove-last"
    )]
    [InlineData(
        "cable-3x9-set-up",
        "wheel-found-loose",
        "seat! hanger! outboard! gap! index! inboard-final! prove-last! brakes"
    )]
    [InlineData("full-suspension-1x12-set-up", "damper-changed", "offset-final damper-on")]
    [InlineData("full-suspension-1x12-set-up", "motor-replaced", "battery-out! count-again! cut!")]
    [InlineData("full-suspension-1x12-set-up", "sag-changed", "gap")]
    [InlineData("full-suspension-1x12-set-up", "shock-changed", "count-again! cut! gap!")]
    [InlineData("full-suspension-1x12-set-up", "single-ring-replaced", "count-again! cut! gap")]
    public void Marks_AfterAChange_AreThoseOfTheTable(string name, string change, string expected)
    {
        var (done, _) = Walk(Begun(name));
        var work = done.Then(new ChangeMade(From("c"), change, ""));
        string[] tests = ["every-gear", "loaded", "ride", "torques", "walk-round"];

        var found = new Recheck(work)
            .Marks.Where(mark => mark.Level != RecheckLevel.Waits)
            .Select(mark => (work.Runs[0].Procedure.Steps[mark.Step].Id, mark.Level))
            .Where(each => !tests.Contains(each.Id))
            .Select(each => each.Id + (each.Level == RecheckLevel.Redo ? "!" : ""));

        Assert.Equal(
            expected
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Order(StringComparer.Ordinal),
            found.Order(StringComparer.Ordinal)
        );
    }

    private static FactSource From(string id) => new(id, 0, "");

    private static BikeWork Begun(string name) =>
        new JobFold().All([
            new JobBegun(From("job"), name),
            new ProcedureBegun(From("run"), "job", DemoProcedures.Of(name)),
        ]);

    private static StepDone Done(BikeWork work, StepPlace place) =>
        new(
            From("d"),
            "run",
            work.Runs[place.Run].Procedure.Steps[place.Step].Id,
            StepOutcome.Done
        );

    private static (BikeWork Work, List<string> Taken) Walk(BikeWork work)
    {
        var taken = new List<string>();
        while (new JobReview(work).NextOf("job") is { } next && taken.Count < 200)
        {
            var held =
                new Recheck(work).MarkOf(next.Run, next.Step) is not { Level: RecheckLevel.Redo };
            work = work.Then(Done(work, next) with { Held = held });
            taken.Add(work.Runs[next.Run].Procedure.Steps[next.Step].Id);
        }
        return (work, taken);
    }

    private static string Marks(BikeWork work) =>
        string.Join(
            ", ",
            new Recheck(work).Marks.Select(mark =>
                $"{work.Runs[mark.Run].Procedure.Steps[mark.Step].Id} {mark.Level}"
            )
        );
}
