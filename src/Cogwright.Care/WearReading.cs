using System.Collections.Immutable;
using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>How the wear of a chain was measured.</summary>
public enum WearWay
{
    /// <summary>A rule or caliper along the chain, from a pin to the same side of another.</summary>
    Ruler,

    /// <summary>A gauge that pushes two rollers apart and reads percent.</summary>
    TwoPoint,

    /// <summary>A gauge that pushes two rollers the same way and reads percent.</summary>
    ThreePoint,

    /// <summary>A gauge with classes that pushes two rollers apart: it goes in or it does not.</summary>
    TwoPointClass,

    /// <summary>A gauge with classes that pushes two rollers the same way: it goes in or it does not.</summary>
    ThreePointClass,
}

/// <summary>What was read at one spot of a chain. Immutable.</summary>
public sealed record WearSpot
{
    /// <summary>Length from pin to pin under tension (mm); of <see cref="WearWay.Ruler"/> only.</summary>
    public double? LengthMm { get; init; }

    /// <summary>What the gauge read (%).</summary>
    public double? Percent { get; init; }

    /// <summary>The greatest class that went in (%), or null when none did.</summary>
    public double? GoesPercent { get; init; }

    /// <summary>The least class that did not go in (%), or null when all did.</summary>
    public double? StopsPercent { get; init; }
}

/// <summary>What was read on one chain on one day, at one or several spots. Immutable.</summary>
/// <param name="On">The day.</param>
/// <param name="Usage">What the bike's counter stood at then (km or hours), or null when nobody looked.</param>
/// <param name="Way">How it was measured.</param>
/// <param name="Pitches">Pitches measured over.</param>
/// <param name="Spots">The spots; at least one.</param>
public sealed record WearReading(
    DateOnly On,
    double? Usage,
    WearWay Way,
    int Pitches,
    ImmutableArray<WearSpot> Spots
)
{
    /// <summary>Reading a rule along a chain at arm's length (mm), standard uncertainty. From memory.</summary>
    public const double RulerMm = 0.25;

    /// <summary>Reading a percent gauge or the edge of a class (%), standard uncertainty. From memory.</summary>
    public const double GaugePercent = 0.03;

    /// <summary>Most spots of one reading.</summary>
    public const int MostSpots = 20;

    /// <summary>What it keeps for life.</summary>
    public string Id { get; init; } = "";

    /// <summary>Standard uncertainty of reading one spot: mm of a rule, % of a gauge; null: as usual for the way.</summary>
    public double? StandardUncertainty { get; init; }

    /// <summary>The rollers' play, or null when it is assumed.</summary>
    public RollerPlay? Play { get; init; }

    /// <summary>Whether the way takes the rollers' play for wear.</summary>
    public bool TakesPlayForWear => Way is WearWay.TwoPoint or WearWay.TwoPointClass;

    /// <summary>The play that is reckoned with.</summary>
    public RollerPlay ReckonedPlay => Play ?? RollerPlay.Assumed;

    /// <summary>The elongation at each spot.</summary>
    /// <exception cref="ArgumentException">A spot lacks what the way needs, or a number is out of range.</exception>
    public ImmutableArray<Elongation> AtSpots() => [.. Spots.Select(At)];

    /// <summary>The elongation of the chain.</summary>
    /// <exception cref="ArgumentException">As for <see cref="AtSpots"/>.</exception>
    public Elongation Elongation() => Care.Elongation.Combine(AtSpots());

    private Elongation At(WearSpot spot)
    {
        var newMm = ChainPitch.LengthMm(Pitches);
        if (Way == WearWay.Ruler)
        {
            var lengthMm = spot.LengthMm ?? throw Lacks("demand.length");
            return Care.Elongation.Of(
                (lengthMm / newMm - 1) * 100,
                (StandardUncertainty ?? RulerMm) / newMm * 100
            );
        }
        var play = ReckonedPlay;
        var own = Quadrature.Combine(
            StandardUncertainty ?? GaugePercent,
            // Two rollers stand for all: their mean, or half their difference, scatters by s/√2 either way.
            play.ScatterMm
                / Math.Sqrt(2)
                / newMm
                * 100
        );
        var shift = TakesPlayForWear ? play.Mm / newMm * 100 : 0;
        var shared = TakesPlayForWear ? play.StandardUncertaintyMm / newMm * 100 : 0;
        var with = TakesPlayForWear ? "twoPoint" : "";
        if (Way is WearWay.TwoPoint or WearWay.ThreePoint)
        {
            var percent = spot.Percent ?? throw Lacks("demand.percent");
            return Care.Elongation.Of(percent - shift, own, shared, with);
        }
        if (spot.GoesPercent is null && spot.StopsPercent is null)
        {
            throw Lacks("demand.classes");
        }
        var upper = spot.StopsPercent - shift;
        // No chain becomes shorter than new: below the least class lies what is between new and that class.
        var lower = spot.GoesPercent - shift ?? Math.Min(0, upper!.Value - 0.05);
        return Care.Elongation.Between(lower, upper, own, shared, with);
    }

    private static ArgumentException Lacks(string key) => new(Texts.Get(key));
}
