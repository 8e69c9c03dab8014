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
