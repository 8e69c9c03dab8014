using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>The rear end of a frame with suspension: its links, the path of the axle, and the idler.</summary>
internal static class RearEndDrawn
{
    private const double PivotRadiusMm = 6;
    internal const double IdlerBoltRadiusMm = 5;
    private const int PathSteps = 60;

    /// <summary>The path of the axle over the whole travel, faint, with a mark at full extension and full travel.</summary>
    internal static void Path(Sheet sheet, Mechanism mechanism)
    {
        var rearEnd = RearEnd.Of(mechanism.Spec.Frame);
        if (rearEnd.TravelMm == 0)
        {
            return;
        }
        var points = ImmutableArray.CreateBuilder<(double X, double Y)>(PathSteps + 1);
        for (var i = 0; i <= PathSteps; i++)
        {
            var travel = i == PathSteps ? rearEnd.TravelMm : i * rearEnd.TravelMm / PathSteps;
            var axle = rearEnd.At(travel).Axle;
            points.Add((axle.X, axle.Y));
        }
        sheet.Add(new Polyline(points.MoveToImmutable(), Stroke.Ghost));
        foreach (
            var end in (ReadOnlySpan<Point>)
                [rearEnd.Extended.Axle, rearEnd.At(rearEnd.TravelMm).Axle]
        )
        {
            sheet.Circle(end, PivotRadiusMm / 2, Stroke.Ghost);
        }
    }

    /// <summary>Swingarm, or links and coupler, with their pivots, where they stand at the travel drawn.</summary>
    internal static void Links(Sheet sheet, Mechanism mechanism)
    {
        foreach (var (from, to) in LinksOf(mechanism))
        {
            sheet.Line(from, to, Stroke.Faint);
        }
        switch (mechanism.Spec.Frame.Suspension?.Linkage)
        {
            case SinglePivot single:
                Pivots(sheet, single.PivotMm);
                break;
            case FourBar links:
                var (lower, upper) = RearEnd
                    .Of(mechanism.Spec.Frame)
                    .LinkEnds(links, mechanism.Table.AxlePose);
                Pivots(sheet, links.LowerFrameMm, links.UpperFrameMm, lower, upper);
                break;
        }
    }

    /// <summary>The lines of swingarm, links and coupler; as many at every travel.</summary>
    internal static ImmutableArray<(Point From, Point To)> LinksOf(Mechanism mechanism)
    {
        var frame = mechanism.Spec.Frame;
        var pose = mechanism.Table.AxlePose;
        switch (frame.Suspension?.Linkage)
        {
            case SinglePivot single:
                return [(single.PivotMm, pose.Axle)];
            case FourBar links:
                var (lower, upper) = RearEnd.Of(frame).LinkEnds(links, pose);
                return
                [
                    (links.LowerFrameMm, lower),
                    (links.UpperFrameMm, upper),
                    (lower, upper),
                    .. links.Carries == LinkageMember.Coupler
                        ? [(lower, pose.Axle), (upper, pose.Axle)]
                        : (ReadOnlySpan<(Point, Point)>)[(links.LowerFrameMm, pose.Axle)],
                ];
            default:
                return [];
        }
    }

    /// <summary>The idler with its teeth.</summary>
    internal static void Idler(Sheet sheet, Mechanism mechanism, ChainTrace? trace)
    {
        if (mechanism.Idler is { } idler)
        {
            Drawn.ToothedDisc(sheet, idler, trace?.GapAngleRad(1), IdlerBoltRadiusMm);
        }
    }

    private static void Pivots(Sheet sheet, params ReadOnlySpan<Point> pivots)
    {
        foreach (var pivot in pivots)
        {
            sheet.Circle(pivot, PivotRadiusMm, Stroke.Faint, filled: true);
        }
    }
}
