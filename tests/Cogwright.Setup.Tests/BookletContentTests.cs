using Cogwright.Fastening;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Setup.Tests;

/// <summary>What the booklet of a procedure says of one bike: figures worked out, what rests on what, what has no answer.</summary>
public sealed class BookletContentTests
{
    private static readonly Procedure Work = new()
    {
        Title = "Set up",
        Skill = "Can read a caliper.",
        Tools = [new("caliper", "Digital caliper")],
        StartsWith = ["bike-held"],
        HandsOver = ["gap"],
        Steps =
        [
            new()
            {
                Id = "seat",
                Action = "Tighten the axle",
                Part = "rearAxle",
                Makes = [MechanismConditions.WheelSeated],
                Torque = new()
                {
                    Fastener = Fasteners.RearAxle,
                    Least = Read("rearAxle.least"),
                    Most = Read("rearAxle.most"),
                    ToolClass = "setting-wrench",
                    Thread = "greased",
                },
            },
            new()
            {
                Id = "rough",
                Action = "Turn the screw by eye",
                Part = "rearDerailleur",
                BlockedUntil =
                [
                    "bike-held",
                    MechanismConditions.WheelSeated,
                    MechanismConditions.ChainOn,
                ],
                Adjusts = ["body-angle", "barrel-adjuster"],
                State = StepState.Rough,
                Check = new() { Quantity = "charge", Least = Read("50 %") },
            },
            new()
            {
                Id = "gap",
                Action = "Set the gap",
                Part = "rearDerailleur",
                Hazards =
                [
                    new()
                    {
                        Signal = SignalWord.Warning,
                        Harm = Harm.Serious,
                        Nature = "A turning chain draws fingers in.",
                        Consequence = "It cuts them off.",
                        Avoidance = "Keep them away.",
                        About = "shift",
                    },
                ],
                Uses = ["caliper"],
                Adjusts = ["body-angle"],
                State = StepState.Final,
                Check = new()
                {
                    Quantity = TargetNames.Gap,
                    Ring = Read("gapRing"),
                    Cog = Read("gapCog"),
                    Least = Read("gapLeast"),
                    Most = Read("gapMost"),
                    Result = "gap",
                },
            },
            new()
            {
                Id = "shift",
                Action = "Shift to the largest cog",
                Part = "rearDerailleur",
                Check = new() { Quantity = "shift", Cog = Read("largestCog") },
            },
            new()
            {
                Id = "cable",
                Action = "Anchor the cable",
                Part = "cable",
                Torque = new()
                {
                    Fastener = Fasteners.RearCable,
                    Least = Read("rearCable.least"),
                    Most = Read("rearCable.most"),
                },
            },
        ],
    };

    private static BookletContent Of(WorkSpec work) =>
        BookletContent.Make(Work, Bikes.Catalogue(Bikes.Double), work);

    private static Expression Read(string text) => ExpressionParser.Read(text).Expression!;

    [Fact]
    public void Figures_AreThoseOfTheBikesTargets()
    {
        var targets = Bikes.Targets(Bikes.Double, Bikes.CableDouble);
        var steps = Of(Bikes.CableDouble).Steps;

        var gap = steps[2].Check!.Target!;
        var wanted = targets.Single(target => target.Id == TargetNames.Gap);
        Assert.Equal((wanted.Lower, wanted.Upper, "mm"), (gap.Lower, gap.Upper, gap.Unit));
        Assert.Equal(wanted.Gear, gap.Gear);
        Assert.Equal(wanted.Source, gap.Source);
        Assert.True(steps[2].Check!.GoesOnRecord);
        var axle = steps[0].Torque!;
        var tight = targets.Single(target => target.Id == TargetNames.Torque(Fasteners.RearAxle));
        Assert.Equal((tight.Lower, tight.Upper), (axle.Target.Lower, axle.Target.Upper));
        Assert.Equal(tight.Note, axle.Target.Note);
        Assert.Equal("torque wrench set to the torque; thread greased", axle.Treatment);
        Assert.Empty(Of(Bikes.CableDouble).WithoutFigure);
    }

    [Fact]
    public void Share_IsWrittenAsItWas()
    {
        var charge = Of(Bikes.CableDouble).Steps[1].Check!.Target!;
        Assert.Equal((50, "%"), (charge.Lower, charge.Unit));
        Assert.Null(charge.Upper);
    }

    [Theory]
    [InlineData(20, StepOutcome.Outside)]
    [InlineData(80, StepOutcome.Within)]
    public void Share_IsReadAsItIsWritten(double percent, StepOutcome outcome)
    {
        var catalogue = Bikes.Catalogue(Bikes.Double);
        var review = new StepReview(
            catalogue,
            Bikes.CableDouble,
            Bikes.Targets(Bikes.Double, Bikes.CableDouble)
        );
        var check = Work.Steps[1].Check!;

        Assert.Equal((50, "%"), (review.AimOf(check).Lower, review.AimOf(check).Unit));
        Assert.Equal(outcome, review.Judge(check, new(percent, 1)).Outcome);
    }

    [Fact]
    public void Conditions_NameTheStepThatMakesThemSo()
    {
        var hold = Of(Bikes.CableDouble).Steps[1].MustHold;
        Assert.EndsWith("(from the start)", hold[0], StringComparison.Ordinal);
        Assert.EndsWith("(step 1)", hold[1], StringComparison.Ordinal);
        Assert.EndsWith("(no step before makes it so: look)", hold[2], StringComparison.Ordinal);
    }

    [Fact]
    public void RoughSetting_NamesTheStepThatSetsItForGood()
    {
        var steps = Of(Bikes.CableDouble).Steps;
        Assert.Equal(2, steps[1].Leaves.Length);
        Assert.Contains("body-angle screw. Step 3", steps[1].Leaves[0], StringComparison.Ordinal);
        Assert.Contains("barrel adjuster. No step", steps[1].Leaves[1], StringComparison.Ordinal);
        Assert.Equal(["Leaves set for good: body-angle screw."], steps[2].Leaves);
        Assert.Empty(steps[0].Leaves);
    }

    [Fact]
    public void Hazard_OfAnotherStep_NamesIt() =>
        Assert.Equal(
            "For step 4: A turning chain draws fingers in. It cuts them off.",
            Assert.Single(Of(Bikes.CableDouble).Steps[2].Hazards).Danger
        );

    [Fact]
    public void Cog_WithoutRing_IsToldInWords()
    {
        var check = Of(Bikes.CableDouble).Steps[3].Check!;
        Assert.Null(check.Target);
        Assert.Equal("Checked with the chain on the 34-tooth cog.", check.Where);
    }

    [Fact]
    public void FastenerThatTheBikeHasNot_IsAFaultAndNoFigure()
    {
        var content = Of(Bikes.MotorDouble);
        var cable = content.Steps[4].Torque!;
        Assert.Equal((null, null), (cable.Target.Lower, cable.Target.Upper));
        Assert.NotEmpty(cable.Faults);
        Assert.All(content.WithoutFigure, each => Assert.Equal(5, each.Step));
        Assert.Equal(cable.Faults.Distinct(), content.WithoutFigure.Select(each => each.Fault));
    }

    [Fact]
    public void Words_StandForEveryNameThatAProcedureMayUse()
    {
        Assert.All(ProcedureWords.Parts, name => Assert.NotEqual("", StepWords.Part(name)));
        Assert.All(
            ProcedureWords.Adjusters,
            name => Assert.NotEqual("", StepWords.Adjusters([name]))
        );
        Assert.All(
            MechanismConditions.Names,
            name => Assert.NotEqual("", StepWords.Condition(name))
        );
        Assert.All(Fasteners.All, name => Assert.NotEqual("", StepWords.Fastener(name)));
        Assert.All(
            [.. ProcedureWords.ToolClasses, null],
            name => Assert.NotEqual("", StepWords.ToolClass(name))
        );
        Assert.All(
            [.. ProcedureWords.ThreadTreatments, null],
            name => Assert.NotEqual("", StepWords.Thread(name))
        );
        Assert.All(
            Enum.GetValues<SignalWord>(),
            signal => Assert.Equal(signal.ToString().ToUpperInvariant(), StepWords.Signal(signal))
        );
    }
}
