using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Suspension and idler: from the values of a file to the model, and back.</summary>
internal static class RearEndBinder
{
    private const string Group = "frame.suspension";

    /// <summary>Tells which fields the kind of rear end needs and which belong to another kind.</summary>
    internal static void CheckNeeded(Leaves leaves, ProblemList problems)
    {
        if (leaves.Text($"{Group}.kind") is not { } kind)
        {
            return;
        }
        foreach (
            var (name, of) in (ReadOnlySpan<(string, string)>)
                [
                    ("pivot", RearEndFields.SinglePivot),
                    ("lowerLink", RearEndFields.FourBar),
                    ("upperLink", RearEndFields.FourBar),
                    ("path", RearEndFields.Path),
                ]
        )
        {
            var path = $"{Group}.{name}";
            var stands = leaves.Has(path) || leaves.HasFailed(path) || leaves.HasGroup(path);
            if (stands == (of == kind))
            {
                continue;
            }
            leaves.SetFailed(path);
            problems.Error(
                leaves.NearestPlace(path),
                path,
                stands
                    ? Texts.Get("suspension.otherKind", name, of, kind)
                    : Texts.Get("suspension.missing", name, kind)
            );
        }
    }

    internal static Suspension? Suspension(Leaves leaves)
    {
        if (leaves.Text($"{Group}.kind") is not { } kind)
        {
            return null;
        }
        return new()
        {
            Linkage = kind switch
            {
                RearEndFields.SinglePivot => new SinglePivot(At(leaves, $"{Group}.pivot")),
                RearEndFields.FourBar => new FourBar(
                    At(leaves, $"{Group}.lowerLink.frame"),
                    At(leaves, $"{Group}.lowerLink.rear"),
                    At(leaves, $"{Group}.upperLink.frame"),
                    At(leaves, $"{Group}.upperLink.rear"),
                    Member(leaves, $"{Group}.axleOn") ?? LinkageMember.Coupler
                ),
                _ => new TabulatedPath(Rows(leaves)),
            },
            TravelMm = leaves.Number($"{Group}.travel"),
            TravelMeans = leaves.Text($"{Group}.travelMeans") is { } means
                ? (TravelMeaning)RearEndFields.TravelMeanings.IndexOf(means)
                : TravelMeaning.VerticalAtWheel,
            Shock = leaves.Has($"{Group}.shock.frame")
                ? new ShockEyes(
                    At(leaves, $"{Group}.shock.frame"),
                    At(leaves, $"{Group}.shock.member"),
                    Member(leaves, $"{Group}.shock.on") ?? LinkageMember.LowerLink
                )
                : null,
            SagFraction = leaves.NumberOrNull($"{Group}.sag"),
        };
    }

    internal static Idler? Idler(Leaves leaves) =>
        leaves.Has("idler.centre")
            ? new(
                At(leaves, "idler.centre"),
                leaves.Whole("idler.teeth"),
                leaves.Text("idler.on") is { } on
                    ? (IdlerMount)RearEndFields.Mounts.IndexOf(on)
                    : IdlerMount.Frame,
                leaves.Text("idler.chain") == RearEndFields.Sides[1],
                leaves.NumberOrNull("idler.lateral")
            )
            : null;

    /// <summary>The values of a file for this rear end.</summary>
    internal static void Set(Leaves leaves, DrivetrainSpec spec)
    {
        if (spec.Frame.Suspension is { } suspension)
        {
            SetSuspension(leaves, suspension);
        }
        if (spec.Idler is { } idler)
        {
            SpecLeaves.Set(leaves, "idler.centre", idler.CentreMm);
            SpecLeaves.Set(leaves, "idler.teeth", idler.Teeth);
            SpecLeaves.Set(leaves, "idler.on", RearEndFields.Mounts[(int)idler.On]);
            SpecLeaves.Set(leaves, "idler.chain", RearEndFields.Sides[idler.ChainUnder ? 1 : 0]);
            SpecLeaves.Set(leaves, "idler.lateral", idler.LateralMm);
        }
    }

    private static void SetSuspension(Leaves leaves, Suspension suspension)
    {
        switch (suspension.Linkage)
        {
            case SinglePivot single:
                SpecLeaves.Set(leaves, $"{Group}.kind", RearEndFields.SinglePivot);
                SpecLeaves.Set(leaves, $"{Group}.pivot", single.PivotMm);
                break;
            case FourBar links:
                SpecLeaves.Set(leaves, $"{Group}.kind", RearEndFields.FourBar);
                SpecLeaves.Set(leaves, $"{Group}.lowerLink.frame", links.LowerFrameMm);
                SpecLeaves.Set(leaves, $"{Group}.lowerLink.rear", links.LowerRearMm);
                SpecLeaves.Set(leaves, $"{Group}.upperLink.frame", links.UpperFrameMm);
                SpecLeaves.Set(leaves, $"{Group}.upperLink.rear", links.UpperRearMm);
                SpecLeaves.Set(
                    leaves,
                    $"{Group}.axleOn",
                    RearEndFields.Members[(int)links.Carries]
                );
                break;
            case TabulatedPath table:
                SpecLeaves.Set(leaves, $"{Group}.kind", RearEndFields.Path);
                leaves.SetCount($"{Group}.path", table.Points.Length);
                for (var i = 0; i < table.Points.Length; i++)
                {
                    var row = table.Points[i];
                    SpecLeaves.Set(leaves, $"{Group}.path[{i}].travel", row.TravelMm);
                    SpecLeaves.Set(leaves, $"{Group}.path[{i}].x", row.AxleMm.X);
                    SpecLeaves.Set(leaves, $"{Group}.path[{i}].y", row.AxleMm.Y);
                    SpecLeaves.Set(leaves, $"{Group}.path[{i}].rotation", row.RotationRad);
                }
                break;
        }
        SpecLeaves.Set(leaves, $"{Group}.travel", suspension.TravelMm);
        SpecLeaves.Set(
            leaves,
            $"{Group}.travelMeans",
            RearEndFields.TravelMeanings[(int)suspension.TravelMeans]
        );
        SpecLeaves.Set(leaves, $"{Group}.sag", suspension.SagFraction);
        if (suspension.Shock is { } shock)
        {
            SpecLeaves.Set(leaves, $"{Group}.shock.frame", shock.FrameEyeMm);
            SpecLeaves.Set(leaves, $"{Group}.shock.member", shock.MemberEyeMm);
            SpecLeaves.Set(leaves, $"{Group}.shock.on", RearEndFields.Members[(int)shock.On]);
        }
    }

    private static ImmutableArray<PathPoint> Rows(Leaves leaves) =>
        [
            .. Enumerable
                .Range(0, leaves.Count($"{Group}.path"))
                .Select(i => $"{Group}.path[{i}].")
                .Select(p => new PathPoint(
                    leaves.Number(p + "travel"),
                    new(leaves.Number(p + "x"), leaves.Number(p + "y")),
                    leaves.Number(p + "rotation")
                )),
        ];

    private static Point At(Leaves leaves, string path) => (Point)leaves.Find(path)!.Value;

    private static LinkageMember? Member(Leaves leaves, string path) =>
        leaves.Text(path) is { } name ? (LinkageMember)RearEndFields.Members.IndexOf(name) : null;
}
