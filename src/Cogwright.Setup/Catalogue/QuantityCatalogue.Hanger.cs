using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <content>How the hanger stands, and what that does in every gear.</content>
public sealed partial class QuantityCatalogue
{
    /// <summary>Radius of the commonest rim where the gauge meets it (mm): half of 622 mm, ISO 5775.</summary>
    public const double UsualGaugeRadiusMm = 311;

    /// <summary>What one round of the hanger gauge says.</summary>
    public HangerFacts Hanger(ImmutableArray<ClockReading> readings)
    {
        var hanger = spec.Hanger;
        var radiusMm = hanger?.GaugeRadiusMm ?? UsualGaugeRadiusMm;
        var fit = Fit(readings);
        if (fit.Plane is not { } plane)
        {
            return new()
            {
                Kind =
                    fit.Status is HangerFitStatus.TooFew ? HangerKind.TooFew : HangerKind.TooClose,
            };
        }
        var bend = HangerBend.Of(plane);
        var effect = table is null ? null : HangerEffect.Of(table, plane);
        return new()
        {
            Kind = HangerKind.Read,
            LeanDeg = Degrees(plane.LeanRad),
            LeanUncertaintyDeg = Degrees(plane.LeanUncertaintyRad),
            ToeDeg = Degrees(plane.ToeRad),
            ToeUncertaintyDeg = Degrees(plane.ToeUncertaintyRad),
            TopLessBottomMm = plane.TopLessBottomMm,
            FrontLessRearMm = plane.FrontLessRearMm,
            GreatestDifferenceMm = plane.GreatestDifferenceMm,
            GreatestDifferenceUncertaintyMm = plane.GreatestDifferenceUncertaintyMm,
            PullClockHours = bend.PullOutboardHours,
            PullMm = bend.PullMm,
            ResidualsMm = plane.ResidualsMm,
            IsDoubtful = plane.IsDoubtful,
            GaugeRadiusMm = radiusMm,
            GaugeRadiusAssumed = hanger?.GaugeRadiusMm is null,
            Bending = hanger is null
                ? HangerBending.BendWithCare
                : HangerBends.Advice(hanger) switch
                {
                    BendAdvice.Bend => HangerBending.Bend,
                    BendAdvice.Replace => HangerBending.Replace,
                    BendAdvice.SpringsBack => HangerBending.SpringsBack,
                    _ => HangerBending.BendWithCare,
                },
            Bends = hanger?.Bends,
            RoomToSpokes = table is null || hanger is null ? [] : RoomWith(table, plane),
            IndexedAwayMm = effect?.IndexedAwayMm ?? 0,
            Gears =
            [
                .. (effect?.Gears ?? []).Select(gear => new HangerInGear(
                    gear.Gear.RingTeeth,
                    gear.Gear.CogTeeth,
                    gear.ShiftMm,
                    gear.LeftMm,
                    gear.GapChangeMm
                )),
            ],
        };
    }

    /// <summary>What the cage does beside the spokes with that tilt, and after a knock on top of it.</summary>
    private static ImmutableArray<string> RoomWith(GearTable table, HangerPlane plane)
    {
        var report = SpokeClearance.Of(table, new HangerTilt(plane.SlopeUp, plane.SlopeForward));
        return
        [
            .. report
                .All.Where(c => c.Kind is ClearanceKind.CageTilted or ClearanceKind.CageKnocked)
                .Select(c => LateralWords.Of(c, report).What),
        ];
    }

    private HangerFit Fit(ImmutableArray<ClockReading> readings) =>
        HangerPlane.Fit(
            [
                .. readings.Select(r => new RimReading(
                    r.ClockHours,
                    r.OutboardMm,
                    r.StandardUncertaintyMm
                )),
            ],
            spec.Hanger?.GaugeRadiusMm ?? UsualGaugeRadiusMm
        );

    private static double Degrees(double radians) => radians * 180 / Math.PI;
}
