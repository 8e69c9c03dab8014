using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <content>What is asked about a sprung mount and a damper.</content>
public sealed partial class QuantityCatalogue
{
    /// <summary>Whether the body of the rear derailleur turns about its bolt against a spring, so that the gap follows the chain's length.</summary>
    public bool IsSprung => spec.RearDerailleur?.Sprung is not null;

    /// <summary>Whether the cage has a damper, on or off.</summary>
    public bool HasDamper => spec.RearDerailleur?.Cage.HasDamper ?? false;

    /// <summary>The gap with a chain two pitches longer (mm), or null without sprung mount or without gap there.</summary>
    /// <param name="gear">The gear that is asked about.</param>
    public double? GapTwoPitchesLongerMm((int RingTeeth, int CogTeeth) gear) =>
        IsSprung
        && table is not null
        && GearTableSolver
            .Solve(spec, table.Pitches + 2, table.BodyAngleRad, table.TravelMm)
            .Find(new(gear.RingTeeth, gear.CogTeeth))
            is { HasPose: true } longer
            ? longer.GapMm
            : null;

    /// <summary>
    /// Between what the damper lets the gap be (mm): after the cage was drawn forward, and after it returned; null
    /// without sprung mount or with the damper off.
    /// </summary>
    /// <param name="gear">The gear that is asked about.</param>
    public (double ForwardMm, double ReturningMm)? GapBandMm((int RingTeeth, int CogTeeth) gear) =>
        IsSprung
        && table?.Find(new(gear.RingTeeth, gear.CogTeeth)) is { } result
        && DamperBand.Of(table, result) is { } band
        && double.IsFinite(band.GapForwardMm)
        && double.IsFinite(band.GapReturningMm)
            ? (band.GapForwardMm, band.GapReturningMm)
            : null;
}
