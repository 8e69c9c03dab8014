using Cogwright.Drivetrain;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Builds the front derailleur of a spec, and takes it apart again.</summary>
internal static class FrontBinder
{
    private const string Path = "frontDerailleur.";

    internal static FrontDerailleur? Bind(Leaves leaves) =>
        leaves.HasGroup("frontDerailleur")
            ? new()
            {
                RearXMm = leaves.Number(Path + "xRear"),
                FrontXMm = leaves.Number(Path + "xFront"),
                InnerPlate = Plate(leaves, "innerPlate"),
                OuterPlate = Plate(leaves, "outerPlate"),
                LinkLengthMm = leaves.Number(Path + "linkLength"),
                LinkAngleRad = leaves.Number(Path + "linkAngle"),
                HeightMm = leaves.Number(Path + "height"),
                BridgeBelowMm = leaves.NumberOrNull(Path + "bridgeBelow"),
                OutboardStopMm = leaves.NumberOrNull(Path + "outboardStop"),
                InboardStopMm = leaves.NumberOrNull(Path + "inboardStop"),
                Positions =
                [
                    .. Entries(leaves, "positions")
                        .Select(p => new CagePosition(
                            leaves.Whole(p + "ring"),
                            leaves.Number(p + "lateral")
                        )),
                ],
                Trims =
                [
                    .. Entries(leaves, "trims")
                        .Select(p => new CageTrim(
                            leaves.Whole(p + "ring"),
                            leaves.Number(p + "by")
                        )),
                ],
                CableRatio = leaves.NumberOrNull(Path + "cableRatio"),
                WantedOuterGap = Range(leaves, "outerGap"),
                WantedInnerGap = Range(leaves, "innerGap"),
                WantedHeight = Range(leaves, "height"),
            }
            : null;

    internal static void Unbind(FrontDerailleur? front, Leaves leaves, Action<string, object?> set)
    {
        if (front is null)
        {
            return;
        }
        set(Path + "xRear", front.RearXMm);
        set(Path + "xFront", front.FrontXMm);
        foreach (
            var (name, plate) in new[]
            {
                ("innerPlate", front.InnerPlate),
                ("outerPlate", front.OuterPlate),
            }
        )
        {
            set($"{Path}{name}.faceRear", plate.FaceAtRearMm);
            set($"{Path}{name}.faceFront", plate.FaceAtFrontMm);
            set($"{Path}{name}.thickness", plate.ThicknessMm);
        }
        set(Path + "linkLength", front.LinkLengthMm);
        set(Path + "linkAngle", front.LinkAngleRad);
        set(Path + "height", front.HeightMm);
        set(Path + "bridgeBelow", front.BridgeBelowMm);
        set(Path + "outboardStop", front.OutboardStopMm);
        set(Path + "inboardStop", front.InboardStopMm);
        leaves.SetCount(Path + "positions", front.Positions.Length);
        for (var i = 0; i < front.Positions.Length; i++)
        {
            set($"{Path}positions[{i}].ring", front.Positions[i].RingTeeth);
            set($"{Path}positions[{i}].lateral", front.Positions[i].LateralMm);
        }
        leaves.SetCount(Path + "trims", front.Trims.Length);
        for (var i = 0; i < front.Trims.Length; i++)
        {
            set($"{Path}trims[{i}].ring", front.Trims[i].RingTeeth);
            set($"{Path}trims[{i}].by", front.Trims[i].ByMm);
        }
        set(Path + "cableRatio", front.CableRatio);
        foreach (
            var (name, range) in new[]
            {
                ("outerGap", front.WantedOuterGap),
                ("innerGap", front.WantedInnerGap),
                ("height", front.WantedHeight),
            }
        )
        {
            set($"{Path}wanted.{name}.lower", range?.LowerMm);
            set($"{Path}wanted.{name}.upper", range?.UpperMm);
        }
    }

    private static IEnumerable<string> Entries(Leaves leaves, string list) =>
        Enumerable.Range(0, leaves.Count(Path + list)).Select(i => $"{Path}{list}[{i}].");

    private static CagePlate Plate(Leaves leaves, string name) =>
        new(
            leaves.Number($"{Path}{name}.faceRear"),
            leaves.Number($"{Path}{name}.faceFront"),
            leaves.Number($"{Path}{name}.thickness")
        );

    private static SettingRange? Range(Leaves leaves, string name) =>
        leaves.HasGroup($"{Path}wanted.{name}")
            ? new(
                leaves.Number($"{Path}wanted.{name}.lower"),
                leaves.Number($"{Path}wanted.{name}.upper")
            )
            : null;
}
