namespace Cogwright.Drivetrain.Bench;

/// <summary>The names of distances and parameters in files and in JSON. They stay.</summary>
public static class BenchNames
{
    /// <summary>Where a distance stands under <c>measured</c> in a spec file.</summary>
    public static string Path(BenchDistance distance) =>
        distance switch
        {
            BenchDistance.AxleToBottomBracket => "axleToBottomBracket",
            BenchDistance.AxleToHangerBolt => "axleToHangerBolt",
            BenchDistance.HangerBoltToBottomBracket => "hangerBoltToBottomBracket",
            BenchDistance.AcrossLinkPins => "acrossLinkPins",
            BenchDistance.PivotToGuide => "cage.pivotToGuide",
            BenchDistance.PivotToTension => "cage.pivotToTension",
            BenchDistance.GuideToTension => "cage.guideToTension",
            BenchDistance.SmallestCogTip => "tips.smallestCog",
            BenchDistance.LargestCogTip => "tips.largestCog",
            BenchDistance.GuideTip => "tips.guide",
            BenchDistance.TensionTip => "tips.tension",
            BenchDistance.EndCogSpacing => "endCogSpacing",
            BenchDistance.Chainline => "chainline",
            BenchDistance.PivotToAxle => "positions.pivotToAxle",
            BenchDistance.PivotToHangerBolt => "positions.pivotToHangerBolt",
            BenchDistance.PivotToBottomBracket => "positions.pivotToBottomBracket",
            BenchDistance.TensionToAxleAtRearStop => "tensionToAxle.rearStop",
            BenchDistance.TensionToAxleAtFrontStop => "tensionToAxle.frontStop",
            BenchDistance.PivotToAxleAfterScrew => "afterScrew.pivotToAxle",
            BenchDistance.Gap => "gaps.gap",
            _ => throw new ArgumentOutOfRangeException(nameof(distance)),
        };
}
