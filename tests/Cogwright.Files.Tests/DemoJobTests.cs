using Cogwright.Setup.Jobs;

namespace Cogwright.Files.Tests;

/// <summary>The demo workshop's procedures carried out on paper.</summary>
public sealed class DemoJobTests
{
    /// <summary>The procedures.</summary>
    public static TheoryData<string> Files =>
        [
            .. Directory
                .EnumerateFiles(Repository.PathOf("demo/procedures"), "*.yaml")
                .Select(file => Path.GetFileNameWithoutExtension(file))
                .Order(StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(Files))]
    public void NextOf_FollowedWithEveryStepWell_EndsWithAllGood(string name)
    {
        var (work, taken) = Walk(Begun(name));

        Assert.Equal(
            work.Runs[0]
                .Procedure.Steps.Select(step => step.Id)
                .Aggregate("", (a, b) => a + " " + b),
            string.Join("", taken.Select(t => " " + t))
        );
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
                    work = work.Then(new ConditionSet(From("said"), need, true));
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
    /// "If this changes, redo or look at that": the table of the trade (common practice), written down here step by step for the
    /// demo procedures. A step that is not named stays good, but for the tests and the torque walk-round.
    /// </summary>
    [Theory]
    [InlineData(
        "wireless-2x12-installation",
        "hanger-aligned",
        "hanger! gap! offset-final! outboard! inboard-final!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "hanger-of-other-kind",
        "hanger! mount! hanger-screws! cut! gap! offset-final! outboard! inboard-final!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "rear-wheel-replaced",
        "seat! outboard! offset-final! inboard-final! gap hanger"
    )]
    [InlineData("wireless-2x12-installation", "wheel-reseated", "seat! offset-final inboard-final")]
    [InlineData(
        "wireless-2x12-installation",
        "cassette-replaced-alike",
        "lockring! gap! cut! inboard-final! offset-final"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "rear-derailleur-replaced",
        "mount! pair! gap! offset-final! outboard! inboard-final! cut"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "chain-replaced",
        "cut! load-joint! front-inner front-outer offset-final"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "body-angle-turned",
        "gap! offset-final! inboard-final!"
    )]
    [InlineData("wireless-2x12-installation", "inboard-stop-turned", "inboard-final! offset-final")]
    [InlineData(
        "wireless-2x12-installation",
        "large-ring-replaced",
        "front-height! front-angle! front-mount! front-outer! cut!"
    )]
    [InlineData("wireless-2x12-installation", "small-ring-replaced", "front-inner! cut")]
    [InlineData(
        "wireless-2x12-installation",
        "crank-replaced",
        "front-height! front-angle! front-mount! front-inner! front-outer!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "front-derailleur-moved",
        "front-height! front-angle! front-mount! front-inner! front-outer!"
    )]
    [InlineData(
        "wireless-2x12-installation",
        "unit-replaced-or-paired-again",
        "pair! offset-final! outboard! inboard-final!"
    )]
    [InlineData("wireless-2x12-installation", "battery-exchanged", "power!")]
    [InlineData(
        "wireless-2x12-installation",
        "knock",
        "hanger! gap! offset-final! outboard! inboard-final! mount pair brakes"
    )]
    [InlineData("wireless-2x12-installation", "tyre-changed", "")]
    [InlineData("wireless-2x12-installation", "wheel-trued", "brakes")]
    [InlineData("wireless-2x12-installation", "sag-changed", "gap")]
    [InlineData("wireless-2x12-installation", "damper-changed", "offset-final")]
    [InlineData("wireless-2x12-installation", "firmware-changed", "offset-final power")]
    [InlineData(
        "wireless-2x12-installation",
        "frame-end-replaced",
        "seat! hanger! gap! offset-final! outboard! inboard-final! brakes! cut"
    )]
    [InlineData("cable-3x9-set-up", "controls-moved", "x")]
    [InlineData("cable-3x9-set-up", "rear-shifter-replaced", "x")]
    [InlineData("cable-3x9-set-up", "front-cable-renewed", "x")]
    [InlineData("cable-3x9-set-up", "front-inboard-stop-turned", "x")]
    [InlineData("cable-3x9-set-up", "cage-replaced", "x")]
    [InlineData("cable-3x9-set-up", "pulleys-of-other-size", "x")]
    [InlineData("cable-3x9-set-up", "pulleys-renewed", "x")]
    [InlineData("cable-3x9-set-up", "cassette-of-other-spacing", "x")]
    [InlineData("cable-3x9-set-up", "cassette-spacer-changed", "x")]
    [InlineData("cable-3x9-set-up", "hub-overhauled", "x")]
    [InlineData("cable-3x9-set-up", "axle-part-fitted", "x")]
    [InlineData("cable-3x9-set-up", "wheel-found-loose", "x")]
    [InlineData("cable-3x9-set-up", "chain-of-other-width", "x")]
    [InlineData("cable-3x9-set-up", "chain-length-changed", "x")]
    [InlineData("cable-3x9-set-up", "chain-taken-off", "x")]
    [InlineData("cable-3x9-set-up", "brake-touched", "x")]
    [InlineData("cable-3x9-set-up", "frame-repaired", "x")]
    [InlineData("cable-3x9-set-up", "hanger-replaced", "x")]
    [InlineData("full-suspension-1x12-set-up", "shock-changed", "x")]
    [InlineData("full-suspension-1x12-set-up", "sag-changed", "x")]
    [InlineData("full-suspension-1x12-set-up", "single-ring-replaced", "x")]
    [InlineData("full-suspension-1x12-set-up", "motor-replaced", "x")]
    [InlineData("full-suspension-1x12-set-up", "damper-changed", "x")]
    [InlineData("cable-3x9-set-up", "rear-cable-renewed", "")]
    [InlineData("cable-3x9-set-up", "outboard-stop-turned", "")]
    public void Marks_AfterAChange_AreThoseOfTheTable(string name, string change, string expected)
    {
        var (done, _) = Walk(Begun(name));
        var work = done.Then(new ChangeMade(From("c"), change, ""));
        string[] tests = ["every-gear", "ride", "torques", "walk-round"];

        var found = new Recheck(work)
            .Marks.Where(mark => mark.Level != RecheckLevel.Waits)
            .Select(mark => (work.Runs[0].Procedure.Steps[mark.Step].Id, mark.Level))
            .Where(each => !tests.Contains(each.Id))
            .Select(each => each.Id + (each.Level == RecheckLevel.Redo ? "!" : ""));

        System.IO.File.AppendAllText(
            "/tmp/h/table.txt",
            $"{name} {change}: {string.Join(' ', found)}\n"
        );
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
            new ProcedureBegun(
                From("run"),
                "job",
                ProcedureReader
                    .Read(Repository.Text($"demo/procedures/{name}.yaml"), name)
                    .Procedure!
            ),
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
