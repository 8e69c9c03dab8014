using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>What a suspended rear end and an idler cannot be.</content>
public static partial class SpecCheck
{
    /// <summary>Most travel at the wheel, and of a shock, taken seriously (mm).</summary>
    private const double MostTravelMm = 400;

    /// <summary>A link shorter than this is a slip (mm).</summary>
    private const double ShortestLinkMm = 5;

    /// <summary>How far a tabulated path may differ from the other figures of the frame (mm): two readings of a tape.</summary>
    private const double PathAgreesMm = 2;

    private static void CheckRearEnd(
        DrivetrainSpec spec,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (spec.Idler is { } idler)
        {
            Offset(problems, "idler.centre", idler.CentreMm, 1500);
            Teeth(problems, "idler.teeth", idler.Teeth);
            Range(problems, "idler.lateral", idler.LateralMm ?? 0, -200, 200);
            if (spec.RearDerailleur is null)
            {
                problems.Add(new("idler", Texts.Get("check.idlerNeedsDerailleur")));
            }
        }
        if (spec.Frame.Suspension is not { } suspension)
        {
            return;
        }
        const string path = "frame.suspension";
        if (spec.RearDerailleur is null)
        {
            problems.Add(new(path, Texts.Get("check.suspensionNeedsDerailleur")));
        }
        var before = problems.Count;
        Range(problems, $"{path}.travel", suspension.TravelMm, 1, MostTravelMm);
        if (suspension.SagFraction is { } sag && !(sag is >= 0 and <= 1))
        {
            problems.Add(new($"{path}.sag", Texts.Get("check.sag", sag, sag * 100)));
        }
        if (problems.Count > before || !(spec.Frame.Axle.Length > 0))
        {
            return;
        }
        switch (suspension.Linkage)
        {
            case TabulatedPath table:
                CheckTable(spec.Frame, suspension, table, problems);
                break;
            case FourBar fourBar:
                CheckFourBar(fourBar, problems);
                break;
            case SinglePivot pivot:
                Offset(problems, $"{path}.pivot", pivot.PivotMm, 1500);
                CheckLink(problems, $"{path}.pivot", pivot.PivotMm, spec.Frame.Axle);
                break;
        }
        CheckShock(suspension, problems);
        if (problems.Count == before && suspension.Linkage is not TabulatedPath)
        {
            CheckRange(spec.Frame, suspension, problems);
        }
    }

    private static void CheckTable(
        Frame frame,
        Suspension suspension,
        TabulatedPath table,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        const string path = "frame.suspension.path";
        var points = table.Points;
        if (points.IsDefault || points.Length < 2)
        {
            problems.Add(new(path, Texts.Get("check.pathPoints")));
            return;
        }
        var before = problems.Count;
        for (var i = 0; i < points.Length; i++)
        {
            Range(problems, $"{path}[{i}].travel", points[i].TravelMm, 0, MostTravelMm);
            Range(problems, $"{path}[{i}].x", points[i].AxleMm.X, -2000, 0);
            Range(problems, $"{path}[{i}].y", points[i].AxleMm.Y, -1000, 1000);
            AngleWithin(problems, $"{path}[{i}].rotation", points[i].RotationRad, 90);
        }
        if (problems.Count > before)
        {
            return;
        }
        if (points[0].TravelMm != 0)
        {
            problems.Add(
                new($"{path}[0].travel", Texts.Get("check.pathStart", points[0].TravelMm))
            );
        }
        for (var i = 1; i < points.Length; i++)
        {
            if (!(points[i].TravelMm > points[i - 1].TravelMm))
            {
                problems.Add(
                    new(
                        $"{path}[{i}].travel",
                        Texts.Get("check.pathOrder", points[i].TravelMm, points[i - 1].TravelMm)
                    )
                );
            }
            var risen = points[i].AxleMm.Y - points[0].AxleMm.Y;
            if (
                suspension.TravelMeans == TravelMeaning.VerticalAtWheel
                && Math.Abs(risen - points[i].TravelMm) > PathAgreesMm
            )
            {
                problems.Add(
                    new(
                        $"{path}[{i}].y",
                        Texts.Get("check.pathVertical", points[i].TravelMm, risen)
                    )
                );
            }
        }
        if (points[^1].TravelMm < suspension.TravelMm)
        {
            problems.Add(
                new(
                    "frame.suspension.travel",
                    Texts.Get("check.pathEnd", points[^1].TravelMm, suspension.TravelMm)
                )
            );
        }
        var (first, axle) = (points[0].AxleMm, frame.Axle);
        if ((first - axle).Length > PathAgreesMm)
        {
            problems.Add(
                new(
                    $"{path}[0].x",
                    Texts.Get("check.pathAxle", first.X, first.Y, axle.X, axle.Y, PathAgreesMm)
                )
            );
        }
    }

    private static void CheckFourBar(FourBar fourBar, ImmutableArray<SpecProblem>.Builder problems)
    {
        const string path = "frame.suspension";
        Offset(problems, $"{path}.lowerLink.frame", fourBar.LowerFrameMm, 1500);
        Offset(problems, $"{path}.lowerLink.rear", fourBar.LowerRearMm, 1500);
        Offset(problems, $"{path}.upperLink.frame", fourBar.UpperFrameMm, 1500);
        Offset(problems, $"{path}.upperLink.rear", fourBar.UpperRearMm, 1500);
        CheckLink(problems, $"{path}.lowerLink", fourBar.LowerFrameMm, fourBar.LowerRearMm);
        CheckLink(problems, $"{path}.upperLink", fourBar.UpperFrameMm, fourBar.UpperRearMm);
        CheckLink(problems, $"{path}.upperLink.rear", fourBar.LowerRearMm, fourBar.UpperRearMm);
        if (fourBar.Carries is not (LinkageMember.Coupler or LinkageMember.LowerLink))
        {
            problems.Add(new($"{path}.axleOn", Texts.Get("check.linkCarries")));
        }
    }

    private static void CheckLink(
        ImmutableArray<SpecProblem>.Builder problems,
        string path,
        Point from,
        Point to
    )
    {
        var length = (to - from).Length;
        if (!(length >= ShortestLinkMm))
        {
            problems.Add(new(path, Texts.Get("check.linkLength", length)));
        }
    }

    private static void CheckShock(
        Suspension suspension,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        const string path = "frame.suspension.shock";
        var isStroke = suspension.TravelMeans == TravelMeaning.ShockStroke;
        if (suspension.Shock is not { } shock)
        {
            if (isStroke && suspension.Linkage is not TabulatedPath)
            {
                problems.Add(new(path, Texts.Get("check.shockNeeded")));
            }
            return;
        }
        Offset(problems, $"{path}.frame", shock.FrameEyeMm, 1500);
        Offset(problems, $"{path}.member", shock.MemberEyeMm, 1500);
        var length = (shock.MemberEyeMm - shock.FrameEyeMm).Length;
        if (isStroke && !(suspension.TravelMm < length))
        {
            problems.Add(new("frame.suspension.travel", Texts.Get("check.stroke", length)));
        }
        if (suspension.Linkage is SinglePivot && shock.On != LinkageMember.LowerLink)
        {
            problems.Add(new($"{path}.on", Texts.Get("check.shockOn")));
        }
    }

    /// <summary>The linkage is led through its whole travel; the link that stops it is named.</summary>
    private static void CheckRange(
        Frame frame,
        Suspension suspension,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        const string path = "frame.suspension";
        var motion = LinkageMotion.Of(frame, suspension);
        var range = LinkageRange.Of(motion, suspension.TravelMm);
        switch (range.End)
        {
            case LinkageEnd.Opens:
                var fourBar = (FourBar)suspension.Linkage;
                var coupler = (fourBar.UpperRearMm - fourBar.LowerRearMm).Length;
                var upper = (fourBar.UpperRearMm - fourBar.UpperFrameMm).Length;
                problems.Add(
                    new(
                        $"{path}.upperLink",
                        Texts.Get(
                            "check.linkOpens",
                            range.TravelMm,
                            motion.LoopSpanMm(range.FullTurnRad),
                            Math.Abs(coupler - upper),
                            coupler + upper
                        )
                    )
                );
                break;
            case LinkageEnd.TurnsBack:
                problems.Add(
                    suspension.Linkage is FourBar
                        ? new($"{path}.lowerLink", Texts.Get("check.linkTurnsBack", range.TravelMm))
                        : new($"{path}.pivot", Texts.Get("check.armTurnsBack", range.TravelMm))
                );
                break;
            case LinkageEnd.ShockLengthens:
                problems.Add(new($"{path}.shock", Texts.Get("check.shockLengthens")));
                break;
        }
    }

    /// <summary>Over the whole travel the idler stands free of every ring and cog, and the chain lies on it.</summary>
    private static void CheckIdlerOverTravel(
        DrivetrainSpec spec,
        ImmutableArray<SpecProblem>.Builder problems
    )
    {
        if (spec.Idler is not { } idler)
        {
            return;
        }
        var rearEnd = RearEnd.Of(spec.Frame);
        // A rigid frame has one position only.
        var steps = rearEnd.TravelMm == 0 ? 0 : 10;
        var radius = Sprocket.PitchRadiusMm(idler.Teeth);
        for (var i = 0; i <= steps; i++)
        {
            var travel = i == 0 ? 0 : i * rearEnd.TravelMm / steps;
            var place = RearPlace.At(spec, rearEnd, Math.Min(travel, rearEnd.TravelMm));
            var at = place.Idler!.Value.Centre;
            foreach (var ring in spec.Rings)
            {
                if (Meets(travel, "check.ring", ring.Teeth, at.Length))
                {
                    return;
                }
                foreach (var cog in spec.Cogs.Teeth)
                {
                    if (Meets(travel, "check.cog", cog, (at - place.Pose.Axle).Length))
                    {
                        return;
                    }
                    var run = UpperRun.Of(
                        place.Pose.Axle,
                        SprocketSize.Of(cog, Sprocket.PitchMm),
                        SprocketSize.Of(ring.Teeth, Sprocket.PitchMm),
                        place.Idler,
                        Sprocket.PitchMm
                    );
                    if (run.HasLeftIdler)
                    {
                        problems.Add(
                            new(
                                "idler.centre",
                                Texts.Get("check.idlerOff", travel, cog, ring.Teeth)
                            )
                        );
                        return;
                    }
                }
            }
        }

        bool Meets(double travel, string key, int teeth, double apart)
        {
            var least = radius + Sprocket.PitchRadiusMm(teeth);
            if (apart > least)
            {
                return false;
            }
            problems.Add(
                new(
                    "idler.centre",
                    Texts.Get(
                        "check.idlerAway",
                        travel,
                        idler.Teeth,
                        Texts.Get(key),
                        teeth,
                        apart,
                        least
                    )
                )
            );
            return true;
        }
    }
}
