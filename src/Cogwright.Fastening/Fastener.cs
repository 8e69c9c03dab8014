using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>Where on the bike a fastener is reached, in the order of a walk round it: forward along the drive side, back along the other.</summary>
public enum BikeStation
{
    /// <summary>Rear axle, hub and hanger.</summary>
    RearEnd,

    /// <summary>Rear derailleur and its cable.</summary>
    RearDerailleur,

    /// <summary>Rings and crank of the drive side.</summary>
    DriveSideCrank,

    /// <summary>Seat tube: front derailleur and its cable.</summary>
    SeatTube,

    /// <summary>Bottom bracket.</summary>
    BottomBracket,

    /// <summary>Bar and front wheel.</summary>
    FrontEnd,

    /// <summary>Crank of the other side.</summary>
    OtherSideCrank,
}

/// <summary>The trade's range for one kind of a fastener. Common practice; the part's own figure wins. Immutable.</summary>
/// <param name="Kind">Which kind, by one of <see cref="FastenerKinds"/>.</param>
/// <param name="Range">The range.</param>
public sealed record TradeRange(string Kind, TorqueRange Range)
{
    /// <summary>What the kind is called on a screen.</summary>
    public string Title => Texts.Get($"kind.{Kind}");
}

/// <summary>Where one fastener, or one of two, is reached. Immutable.</summary>
/// <param name="Station">Where on the bike.</param>
/// <param name="Bolts">How many bolts there are as a rule, 1 or more.</param>
/// <param name="IsLeftHand">Whether its thread is left-handed: it tightens anticlockwise.</param>
public sealed record FastenerPlace(BikeStation Station, int Bolts = 1, bool IsLeftHand = false);

/// <summary>A fastener of a bike as the trade knows it. Immutable.</summary>
public sealed record Fastener
{
    /// <summary>Its name; it is stable, since files use it.</summary>
    public required string Id { get; init; }

    /// <summary>Where it is reached; more than one place where the two sides differ.</summary>
    public required ImmutableArray<FastenerPlace> Places { get; init; }

    /// <summary>The trade's ranges by kind, the usual kind first; empty when the trade has none.</summary>
    public required ImmutableArray<TradeRange> Ranges { get; init; }

    /// <summary>Its thread as a rule (common practice), or null where bikes differ too much.</summary>
    public ScrewThread? Thread { get; init; }

    /// <summary>How its thread is treated as a rule (common practice); the part's own instruction wins.</summary>
    public required ThreadTreatment Treatment { get; init; }

    /// <summary>Whether somebody can fall when it comes loose or breaks: the tool must then be sure.</summary>
    public bool IsSafetyCritical { get; init; }

    /// <summary>
    /// Whether what was set rests on it, so that a walk round at the end only looks whether it is tight: turned anew it moves
    /// hanger, cassette or pulley, and the settings with them.
    /// </summary>
    public bool SettingsRestOnIt { get; init; }

    /// <summary>What it is called on a screen.</summary>
    public string Title => Texts.Get($"fastener.{Id}");

    /// <summary>
    /// The hazard that stands before it, with signal word, consequence and avoidance; null where there is none, and for what a set-up
    /// tightens: there it comes with the job's target, which knows the bike.
    /// </summary>
    public string? Caution => Texts.Find($"fastener.{Id}.caution");

    /// <summary>The trade's range of the usual kind, or null.</summary>
    public TorqueRange? UsualRange => Ranges.IsEmpty ? null : Ranges[0].Range;

    /// <summary>The trade's range of a kind, or null when it has none for it.</summary>
    /// <param name="kind">One of <see cref="FastenerKinds"/>.</param>
    public TorqueRange? RangeOf(string kind) =>
        Ranges.FirstOrDefault(range => range.Kind == kind)?.Range;
}
