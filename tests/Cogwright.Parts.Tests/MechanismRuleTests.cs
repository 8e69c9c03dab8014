using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files;

namespace Cogwright.Parts.Tests;

/// <summary>What the mechanism says of parts, one thing changed at a time.</summary>
public sealed class MechanismRuleTests
{
    private const string Rigid = """
        name: Invented
        frame: {class: trail}
        hanger: {class: interchangeable}
        rings: [32]
        cogs: {teeth: 10-12-14-16-18-21-24-28-33-39-45-51, hubSpacing: 148}
        rearDerailleur: {class: trail-long}
        """;

    private const string Suspended = """
        name: Invented
        frame:
          class: trail
          chainstay: 438
          bbDrop: 32
          suspension:
            kind: four-bar
            lowerLink: {frame: [-20, 64], rear: [-385, 42]}
            upperLink: {frame: [-50, 330], rear: [-120, 290]}
            axleOn: coupler
            travel: 140
            travelMeans: vertical-at-wheel
            sag: "30 %"
        hanger: {class: interchangeable}
        rings: [32]
        cogs: {teeth: 10-12-14-16-18-21-24-28-33-39-45-51, hubSpacing: 148}
        rearDerailleur: {class: trail-long}
        """;

    [Theory]
    [InlineData(Rigid)]
    [InlineData(Suspended)]
    public void Chain_AtTheShortestSafeLength_Yes_AndOneInchShorter_NoThatNobodyMayAccept(
        string text
    )
    {
        var spec = Spec(text);
        var shortest = ChainChooser.Choose(spec).Numbers.ShortestSafe!.Value;

        Assert.Equal(Compatibility.Yes, Chain(spec, shortest).Answer);
        var shorter = Chain(spec, shortest - 2);
        Assert.Equal(Compatibility.No, shorter.Answer);
        Assert.False(shorter.MayBeAccepted);
        Assert.Equal(AnswerView.Side, shorter.View);
    }

    /// <summary>Where gaps are set every gear is taut; at the longest position one is not. A rear end that moves is asked all over its travel.</summary>
    [Fact]
    public void Chain_ShortOnlyElsewhereInTheTravel_IsNoAllTheSame()
    {
        var spec = Spec(Suspended);
        var shortest = ChainChooser.Choose(spec).Numbers.ShortestSafe!.Value;
        var atSag = Enumerable
            .Range(1, 8)
            .Select(less => shortest - less)
            .TakeWhile(pitches =>
                GearTableSolver.Solve(spec, pitches).Gears.All(g => g.State != GearState.Short)
            )
            .ToList();

        Assert.NotEmpty(atSag);
        Assert.All(atSag, pitches => Assert.Equal(Compatibility.No, Chain(spec, pitches).Answer));
    }

    [Fact]
    public void Chain_LongerThanTheLongestSafe_SaysWhatLengthItMustHave()
    {
        var spec = Spec(Rigid);
        var numbers = ChainChooser.Choose(spec).Numbers;

        var answer = Chain(spec, numbers.LongestSafe!.Value + 2);

        Assert.Equal(Compatibility.YesWith, answer.Answer);
        Assert.Contains($"{numbers.Recommended}", answer.WhatToDo, StringComparison.Ordinal);
    }

    [Fact]
    public void Boxed_ChainSoldTooShort_SaysByHowMuch()
    {
        var spec = Spec(Rigid);
        var needed = ChainChooser.Choose(spec).Numbers.Recommended!.Value;
        var build = new Build(
            Invented
                .Of(PartKind.Chain, "chain")
                .With(PartFields.BoxedPitches, Invented.Number(needed - 2))
        );

        var answer = CompatibilityReport
            .Of(build, spec)
            .Answers.Single(a => a.RuleId == "mechanism-boxed");

        Assert.Equal(Compatibility.No, answer.Answer);
        Assert.Contains("2 too few", answer.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Boxed_ChainSoldTooShort_IsNothingThatAnybodyMayAccept() =>
        Assert.False(
            CompatibilityReport
                .Of(
                    new(
                        Invented
                            .Of(PartKind.Chain, "chain")
                            .With(PartFields.BoxedPitches, Invented.Number(60))
                    ),
                    Spec(Rigid)
                )
                .Answers.Single(a => a.RuleId == "mechanism-boxed")
                .MayBeAccepted
        );

    /// <summary>What was accepted was this much too little room, with these parts: not more, and not with others.</summary>
    [Fact]
    public void Deviation_OfTheMechanism_LapsesWithAnotherFigureAndWithAnotherHanger()
    {
        var spec = Spec(Rigid);
        var build = new Build(Invented.Of(PartKind.Hanger, "hanger-a"));
        var tooMuch = Asking(spec, 40);
        var no = Gap(build, tooMuch);
        Assert.Equal(Compatibility.No, no.Answer);
        var deviation = new Deviation("mechanism-gap", no.Ground, "tried", "head mechanic");

        Assert.Equal(deviation, Gap(build, tooMuch, deviation).Accepted);
        Assert.Null(Gap(build, Asking(spec, 41), deviation).Accepted);
        Assert.Null(
            Gap(new(Invented.Of(PartKind.Hanger, "hanger-b")), tooMuch, deviation).Accepted
        );
    }

    /// <summary>A screw with few turns left cannot mend what one with many can.</summary>
    [Fact]
    public void Gap_ScrewWithoutTurnsLeft_IsNotMendedByTurningIt()
    {
        var spec = Spec(Rigid);
        var screw = new Adjuster
        {
            Name = "screw",
            Moves = Moves.BodyAngle,
            ThreadPitchMm = 0.7,
            LeverRadiusMm = 13,
        };
        var asItIs = GearTableSolver
            .Solve(spec, ChainChooser.Choose(spec).Numbers.Recommended!.Value)
            .Gears.Min(g =>
                Math.Min(g.GapMm, double.IsNaN(g.GapToNextMm) ? g.GapMm : g.GapToNextMm)
            );
        var wanted = Asking(spec, asItIs + 0.5);

        Assert.Equal(Compatibility.YesWith, Gap(new(), With(wanted, screw)).Answer);
        Assert.Equal(
            Compatibility.No,
            Gap(new(), With(wanted, screw with { TurnsLeftIn = 0, TurnsLeftOut = 0 })).Answer
        );
    }

    private static DrivetrainSpec With(DrivetrainSpec spec, Adjuster screw) =>
        spec with
        {
            RearDerailleur = spec.RearDerailleur! with { BodyAngleScrew = screw },
        };

    private static DrivetrainSpec Asking(DrivetrainSpec spec, double leastGapMm) =>
        spec with
        {
            RearDerailleur = spec.RearDerailleur! with { LeastGapMm = leastGapMm },
        };

    private static RuleAnswer Gap(
        Build build,
        DrivetrainSpec spec,
        params ImmutableArray<Deviation> deviations
    ) =>
        CompatibilityReport
            .Of(build, spec, deviations)
            .Answers.Single(answer => answer.RuleId == "mechanism-gap");

    [Fact]
    public void Spokes_NothingMeasured_IsCannotSayAndNeverYes() =>
        Assert.Equal(
            Compatibility.CannotSay,
            CompatibilityReport
                .Of(new(), Spec(Rigid))
                .Answers.Single(a => a.RuleId == "mechanism-spokes")
                .Answer
        );

    private static RuleAnswer Chain(DrivetrainSpec spec, int pitches) =>
        CompatibilityReport
            .Of(new(), spec with { Chain = spec.Chain with { Pitches = pitches } })
            .Answers.Single(answer => answer.RuleId == "mechanism-chain");

    private static DrivetrainSpec Spec(string text) =>
        SpecReader.Read(text, "a.yaml").Spec!.Drivetrain;
}
