using System.Collections.Immutable;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using CsCheck;
using static Cogwright.Setup.Tests.JobsOnPaper;

namespace Cogwright.Setup.Tests;

/// <summary>What is true of any procedures and any course of events.</summary>
public sealed class RecheckTests
{
    // The order in which one adjuster can spoil another: steps that set them come in this order, as a lint asks of procedures.
    private static readonly string[] InOrder =
    [
        "hanger",
        "chain-length",
        "outboard-stop",
        "rear-cable",
        "body-angle",
        "barrel-adjuster",
        "inboard-stop",
        "front-height",
        "front-inboard-stop",
    ];

    private static readonly string[] Conditions =
    [
        MechanismConditions.WheelSeated,
        MechanismConditions.HangerRead,
        "chain-on",
        "front-cage-inboard",
        "front-cage-outboard",
    ];

    private static readonly string[] Parts = ["cassette", "hanger", "rings", "chain"];

    /// <summary>Procedures of up to nine steps that depend on earlier ones and need what earlier ones make.</summary>
    private static readonly Gen<Procedure> AnyProcedure = Gen.Int[2, 9]
        .SelectMany(count => Gen.Int[0, 999_999].Array[count * 8])
        .Select(numbers => Of(numbers));

    private static readonly Gen<ImmutableList<JobFact>> AnyCourse = Gen.Select(
            AnyProcedure.Array[1, 3],
            Gen.Int[0, 999_999].Array[0, 40]
        )
        .Select((procedures, numbers) => Course(procedures, numbers));

    [Fact]
    public void Marks_AnyCourse_AreThoseOfTheTwinThatReadsAllFacts() =>
        AnyCourse.Sample(
            facts =>
            {
                var work = Folded(facts);
                var found = string.Join(
                    ", ",
                    new Recheck(work).Marks.Select(mark =>
                        $"{work.Runs[mark.Run].Id}/{work.Runs[mark.Run].Procedure.Steps[mark.Step].Id} {mark.Level}"
                    )
                );
                Assert.Equal(new RecheckTwin(facts).Marks(), found);
            },
            iter: 400
        );

    /// <summary>The way back, walked as it says, blocks nowhere and ends with all good.</summary>
    [Fact]
    public void WayBack_AnyCourse_LeadsThereAndIsNeverBlocked() =>
        AnyCourse.Sample(
            facts =>
            {
                var fold = new JobFold();
                var work = fold.All(facts);
                foreach (var step in WayBack.Of(work))
                {
                    work = Walk(fold, work, step, step.Mark is not { Level: RecheckLevel.Redo });
                }
                Assert.Equal("", Marks(work));
            },
            iter: 400
        );

    /// <summary>When every look finds that something must be turned, asking anew leads there all the same.</summary>
    [Fact]
    public void WayBack_EverythingTurned_LeadsThereInTheEnd() =>
        AnyCourse.Sample(
            facts =>
            {
                var fold = new JobFold();
                var work = fold.All(facts);
                for (var left = 200; WayBack.Of(work) is [var step, ..]; left--)
                {
                    Assert.True(left > 0, "The way back has no end.");
                    work = Walk(fold, work, step, held: step.Mark is null);
                }
                Assert.Equal("", Marks(work));
            },
            iter: 200
        );

    /// <summary>Nothing is on the way that is neither marked nor makes what a later step on it needs.</summary>
    [Fact]
    public void WayBack_AnyCourse_HasNothingInVain() =>
        AnyCourse.Sample(
            facts =>
            {
                var work = Folded(facts);
                var way = WayBack.Of(work);
                for (var i = 0; i < way.Length; i++)
                {
                    var makes = StepOf(work, way[i]).Makes;
                    Assert.True(
                        way[i].Mark is not null
                            || way.Skip(i + 1)
                                .Any(later => Needs(StepOf(work, later)).Intersect(makes).Any()),
                        $"step {i} of {way.Length}"
                    );
                }
            },
            iter: 300
        );

    private static BikeWork Walk(JobFold fold, BikeWork work, WayBackStep step, bool held)
    {
        foreach (var need in step.Needs)
        {
            work = fold.Apply(work, new ConditionSaid(From("said"), need, true));
        }
        Assert.Empty(new JobReview(work).BlocksOf(step.Place));
        var run = work.Runs[step.Place.Run];
        return fold.Apply(
            work,
            new StepDone(
                From("again"),
                run.Id,
                run.Procedure.Steps[step.Place.Step].Id,
                StepOutcome.Done
            )
            {
                Held = held,
            }
        );
    }

    private static ProcedureStep StepOf(BikeWork work, WayBackStep step) =>
        work.Runs[step.Place.Run].Procedure.Steps[step.Place.Step];

    private static IEnumerable<string> Needs(ProcedureStep step) =>
        step.BlockedUntil.Concat(step.Acts.SelectMany(act => StepActs.Find(act)!.Needs));

    private static Procedure Of(int[] numbers)
    {
        var steps = ImmutableArray.CreateBuilder<ProcedureStep>();
        var made = new List<string>();
        var adjusted = 0;
        for (var i = 0; i * 8 < numbers.Length; i++)
        {
            var n = numbers.AsSpan(i * 8, 8);
            var step = Step("s" + i);
            if (n[0] % 3 > 0 && adjusted < InOrder.Length)
            {
                adjusted += n[0] % 2;
                if (adjusted < InOrder.Length)
                {
                    step = step with
                    {
                        Adjusts = [InOrder[adjusted]],
                        State = n[0] % 5 == 0 ? StepState.Rough : StepState.Final,
                    };
                }
            }
            // How the mechanism stands is brought about by steps that set nothing, but for the proof of a stop: a step that
            // is needed for another and voids it would ask for the two for ever.
            if (step.Adjusts is ["inboard-stop"])
            {
                step = step with { Makes = [MechanismConditions.InboardStopProven] };
            }
            else if (step.Adjusts.IsEmpty && n[1] % 2 == 0)
            {
                step = step with { Makes = [Conditions[n[1] % Conditions.Length]] };
            }
            if (made.Count > 0 && n[2] % 2 == 0)
            {
                // Nor does a step void what it waits for itself.
                step = step with
                {
                    BlockedUntil =
                    [
                        .. new[] { made[n[2] % made.Count] }.Where(condition =>
                            !step
                                .Adjusts.SelectMany(adjuster => BikeChanges.Turned(adjuster).Redo)
                                .Contains(Subjects.Condition(condition))
                        ),
                    ],
                };
            }
            if (i > 0 && n[3] % 3 > 0)
            {
                step = step with
                {
                    DependsOn = new()
                    {
                        Steps = [steps[n[3] % i].Id],
                        Parts = n[4] % 2 == 0 ? [Parts[n[4] % Parts.Length]] : [],
                        Adjusters = adjusted > 0 && n[5] % 3 == 0 ? [InOrder[n[5] % adjusted]] : [],
                        Readings = n[6] % 2 == 0 ? ["r" + (n[6] % i)] : [],
                    },
                };
            }
            if (n[7] % 2 == 0)
            {
                step = step with
                {
                    Check = new() { Quantity = "q" + i, Result = "r" + i },
                };
            }
            made.AddRange(step.Makes);
            steps.Add(step);
        }
        return new() { Title = "Any", Steps = steps.ToImmutable() };
    }

    private static ImmutableList<JobFact> Course(Procedure[] procedures, int[] numbers)
    {
        var facts = ImmutableList.CreateBuilder<JobFact>();
        var next = 0;
        facts.Add(new JobBegun(From("job"), "Any"));
        for (var r = 0; r < procedures.Length; r++)
        {
            facts.Add(new ProcedureBegun(From("run" + r), "job", procedures[r]));
            facts.AddRange(
                procedures[r].Steps.Select(step => (JobFact)Any("run" + r, step.Id, false))
            );
        }
        foreach (var n in numbers)
        {
            var run = n % procedures.Length;
            var steps = procedures[run].Steps;
            facts.Add(
                (n / 7 % 4) switch
                {
                    0 => new ChangeMade(
                        From($"c{next++}"),
                        BikeChanges.All[n % BikeChanges.All.Length].Name,
                        ""
                    ),
                    1 => new FiguresChanged(From($"f{next++}"), [Parts[n % Parts.Length]]),
                    _ => Any("run" + run, steps[n / 3 % steps.Length].Id, n % 5 < 2),
                }
            );
        }
        return facts.ToImmutable();

        StepDone Any(string run, string step, bool held) =>
            new(
                From($"d{next++}"),
                run,
                step,
                next % 7 == 0 ? StepOutcome.NotAsExpected : StepOutcome.Done
            )
            {
                Held = held,
            };
    }
}
