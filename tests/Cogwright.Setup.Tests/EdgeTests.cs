using Cogwright.Parts;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Swap;

namespace Cogwright.Setup.Tests;

/// <summary>What must be set again is written down for adjusters and for parts; the two say the same.</summary>
public class EdgeTests
{
    /// <summary>Setting the adjuster is part of replacing the part, so that what the one spoils the other spoils too.</summary>
    [Theory]
    [InlineData("hanger", PartKind.Hanger)]
    [InlineData("hanger", PartKind.RearDerailleur)]
    [InlineData("body-angle", PartKind.Hanger)]
    [InlineData("body-angle", PartKind.RearDerailleur)]
    [InlineData("outboard-stop", PartKind.RearWheel)]
    [InlineData("outboard-stop", PartKind.RearShifter)]
    [InlineData("offset-step", PartKind.RearShifter)]
    [InlineData("offset-step", PartKind.RearWheel)]
    [InlineData("rear-cable", PartKind.RearShifter)]
    [InlineData("chain-length", PartKind.Chain)]
    [InlineData("chain-length", PartKind.Cage)]
    [InlineData("front-height", PartKind.FrontDerailleur)]
    [InlineData("front-height", PartKind.Rings)]
    [InlineData("front-angle", PartKind.FrontDerailleur)]
    public void WhatAnAdjusterSpoils_ThePartThatTurnsItSpoilsToo(string adjuster, PartKind part)
    {
        var edge = SwapEdges.Of(part, cogsAlike: true);
        var spoilt = AdjusterEdges.SetAgainAfter(adjuster).Select(StageOf).ToList();

        Assert.NotEmpty(spoilt);
        Assert.Empty(spoilt.Except([.. edge.Redo, .. edge.Look]));
    }

    /// <summary>A hanger is the same hanger, bent or replaced: stops, gap and index are set again in both lists.</summary>
    [Fact]
    public void Hanger_BentOrReplaced_SpoilsTheSame() =>
        Assert.Equal(
            AdjusterEdges.SetAgainAfter("hanger").Select(StageOf).Distinct().Order(),
            SwapEdges
                .Of(PartKind.Hanger, cogsAlike: true)
                .Redo.Except([WorkStage.Hanger, WorkStage.Mounting, WorkStage.IndexAgain])
                .Order()
        );

    private static WorkStage StageOf(string adjuster) =>
        adjuster switch
        {
            "inboard-stop" => WorkStage.InboardStop,
            "outboard-stop" => WorkStage.OutboardStop,
            "body-angle" => WorkStage.Gap,
            "barrel-adjuster" or "offset-step" => WorkStage.Index,
            "front-inboard-stop" or "front-outboard-stop" => WorkStage.Front,
            _ => throw new ArgumentOutOfRangeException(nameof(adjuster), adjuster, null),
        };
}
