using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>What cannot be of the front derailleur.</content>
public static partial class SpecCheck
{
    private static void CheckFront(
        DrivetrainSpec spec,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        const string path = "frontDerailleur";
        if (spec.FrontDerailleur is not { } front)
        {
            return;
        }
        if (spec.Rings.Length < 2)
        {
            problems.Add(new(path, Texts.Get("check.frontRings")));
            return;
        }
        var sound = problems.Count;
        if (ChainSides.WidthMm(spec) is null)
        {
            problems.Add(
                new("chain.width", Texts.Get("check.frontChainWidth", spec.Cogs.Teeth.Length))
            );
        }
        Range(problems, $"{path}.xRear", front.RearXMm, -300, 100);
        Range(problems, $"{path}.xFront", front.FrontXMm, -200, 200);
        if (!(front.RearXMm < front.FrontXMm))
        {
            problems.Add(new($"{path}.xFront", Texts.Get("check.frontEnds")));
        }
        CheckPlate($"{path}.innerPlate", front.InnerPlate, problems);
        CheckPlate($"{path}.outerPlate", front.OuterPlate, problems);
        if (
            !(front.InnerPlate.FaceAtRearMm < front.OuterPlate.FaceAtRearMm)
            || !(front.InnerPlate.FaceAtFrontMm < front.OuterPlate.FaceAtFrontMm)
        )
        {
            problems.Add(new($"{path}.outerPlate", Texts.Get("check.frontPlates")));
        }
        Range(problems, $"{path}.linkLength", front.LinkLengthMm, 5, 200);
        AngleWithin(problems, $"{path}.linkAngle", front.LinkAngleRad, 180);
        Range(problems, $"{path}.height", front.HeightMm, -10, 30);
        if (front.BridgeBelowMm is { } bridge)
        {
            Range(problems, $"{path}.bridgeBelow", bridge, 0, 150);
        }
        if (front.CableRatio is { } ratio)
        {
            Range(problems, $"{path}.cableRatio", ratio, 0.2, 10);
        }
        CheckWanted($"{path}.wanted.outerGap", front.WantedOuterGap, problems);
        CheckWanted($"{path}.wanted.innerGap", front.WantedInnerGap, problems);
        CheckWanted($"{path}.wanted.height", front.WantedHeight, problems);
        CheckFrontLists(spec, front, problems);
        if (front.OutboardStopMm <= front.InboardStopMm)
        {
            problems.Add(new($"{path}.outboardStop", Texts.Get("check.frontStopOrder")));
        }
        if (problems.Count == sound)
        {
            CheckFrontReach(spec, front, problems);
        }
    }

    private static void CheckWanted(
        string path,
        SettingRange? range,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (range is null)
        {
            return;
        }
        Range(problems, $"{path}.lower", range.LowerMm, 0, 10);
        Range(problems, $"{path}.upper", range.UpperMm, 0, 10);
        if (!(range.LowerMm <= range.UpperMm))
        {
            problems.Add(new($"{path}.upper", Texts.Get("check.frontWanted")));
        }
    }

    private static void CheckPlate(
        string path,
        CagePlate plate,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        Range(problems, $"{path}.faceRear", plate.FaceAtRearMm, -50, 50);
        Range(problems, $"{path}.faceFront", plate.FaceAtFrontMm, -50, 50);
        Range(problems, $"{path}.thickness", plate.ThicknessMm, 0, 10);
    }

    private static void CheckFrontLists(
        DrivetrainSpec spec,
        FrontDerailleur front,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        var largest = spec.Rings.Max(ring => ring.Teeth);
        var smallest = spec.Rings.Min(ring => ring.Teeth);
        for (var i = 0; i < front.Positions.Length; i++)
        {
            var path = $"frontDerailleur.positions[{i}]";
            var teeth = front.Positions[i].RingTeeth;
            if (!spec.Rings.Any(ring => ring.Teeth == teeth))
            {
                problems.Add(new($"{path}.ring", Texts.Get("check.frontNoRing", teeth)));
            }
            else if (teeth == largest || teeth == smallest)
            {
                problems.Add(new($"{path}.ring", Texts.Get("check.frontPosition", teeth)));
            }
            else if (front.Positions.Take(i).Any(other => other.RingTeeth == teeth))
            {
                problems.Add(new($"{path}.ring", Texts.Get("check.frontPositionTwice", teeth)));
            }
            Range(problems, $"{path}.lateral", front.Positions[i].LateralMm, -200, 200);
        }
        for (var i = 0; i < front.Trims.Length; i++)
        {
            var path = $"frontDerailleur.trims[{i}]";
            if (!spec.Rings.Any(ring => ring.Teeth == front.Trims[i].RingTeeth))
            {
                problems.Add(
                    new($"{path}.ring", Texts.Get("check.frontNoRing", front.Trims[i].RingTeeth))
                );
            }
            Range(problems, $"{path}.by", front.Trims[i].ByMm, -20, 20);
        }
    }

    private static void CheckFrontReach(
        DrivetrainSpec spec,
        FrontDerailleur front,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        var swing = new CageSwing(spec, front);
        var pivot = swing.AboveRingMm - (front.LinkLengthMm * Math.Cos(front.LinkAngleRad));
        var given = new List<(string Path, double? LateralMm)>
        {
            ("frontDerailleur.outboardStop", front.OutboardStopMm),
            ("frontDerailleur.inboardStop", front.InboardStopMm),
        };
        for (var i = 0; i < front.Positions.Length; i++)
        {
            given.Add(($"frontDerailleur.positions[{i}].lateral", front.Positions[i].LateralMm));
        }
        foreach (var (path, place) in given)
        {
            if (place is { } lateral && swing.MmPerRad(lateral) is null)
            {
                problems.Add(
                    new(
                        path,
                        Texts.Get(
                            "check.frontReach",
                            front.LinkLengthMm,
                            lateral,
                            pivot - front.LinkLengthMm,
                            pivot + front.LinkLengthMm
                        )
                    )
                );
            }
        }
    }
}
