using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>What cannot be of the lateral figures.</content>
public static partial class SpecCheck
{
    private static void CheckLateral(
        DrivetrainSpec spec,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (spec.Lateral is not { } lateral)
        {
            return;
        }
        Maybe(problems, "chain.width", lateral.ChainWidthMm, 3, 15);
        Maybe(problems, "crank.ringThickness", lateral.RingThicknessMm, 0.5, 10);
        Maybe(problems, "frame.dropoutFace", lateral.DropoutFaceMm, 20, 200);
        Maybe(problems, "rearDerailleur.cage.innerFace", lateral.CageInnerFaceMm, 1, 30);
        Maybe(problems, "rearDerailleur.cage.reach", lateral.CageReachMm, 1, 60);
        if (lateral.Cassette is { } cassette)
        {
            Maybe(problems, "cogs.recess", cassette.RecessMm, 0, 20);
            Maybe(problems, "cogs.locknutGap", cassette.LocknutGapMm, -5, 30);
            Maybe(problems, "cogs.thickness", cassette.CogThicknessMm, 0.5, 5);
            Maybe(problems, "cogs.stackWidth", cassette.StackWidthMm, 1, 100);
            Maybe(problems, "cogs.chainline", cassette.ChainlineMm, 0, 200);
        }
        if (lateral.Crank is { } crank)
        {
            Maybe(problems, "crank.chainline", crank.ChainlineMm, 0, 200);
            Maybe(problems, "crank.ringSpacing", crank.RingSpacingMm, 1, 30);
        }
        if (lateral.Spokes is { } spokes)
        {
            CheckSpokes(spokes, problems);
        }
    }

    private static void CheckSpokes(SpokeData spokes, ImmutableArray<SpecProblem>.Builder problems)
    {
        Maybe(problems, "wheel.flangeLateral", spokes.FlangeLateralMm, 0, 100);
        Maybe(problems, "wheel.flangeRadius", spokes.FlangeRadiusMm, 5, 150);
        Maybe(problems, "wheel.rimLateral", spokes.RimLateralMm, -60, 60);
        Maybe(problems, "wheel.rimRadius", spokes.RimRadiusMm, 80, 400);
        Maybe(problems, "wheel.spokeThickness", spokes.ThicknessMm, 0.5, 5);
        Maybe(problems, "wheel.cageToSpokes", spokes.CageToSpokesMm, -5, 60);
        Maybe(problems, "wheel.cogToSpokes", spokes.CogToSpokesMm, -5, 60);
        if (spokes.FlangeRadiusMm >= spokes.RimRadiusMm)
        {
            problems.Add(new("wheel.rimRadius", Texts.Get("check.rimInsideFlange")));
        }
        if (spokes.RimLateralMm > spokes.FlangeLateralMm)
        {
            problems.Add(new("wheel.rimLateral", Texts.Get("check.rimOutsideFlange")));
        }
    }

    private static void Maybe(
        ImmutableArray<SpecProblem>.Builder problems,
        string path,
        double? value,
        double least,
        double most
    )
    {
        if (value is { } given)
        {
            Range(problems, path, given, least, most);
        }
    }
}
