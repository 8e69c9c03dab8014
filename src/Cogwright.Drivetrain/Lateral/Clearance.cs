using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What is told of a clearance to the spokes or the frame, the costliest first.</summary>
public enum ClearanceKind
{
    /// <summary>Cage to spokes with the chain on the largest cog.</summary>
    CageOnLargestCog,

    /// <summary>Cage to spokes with the derailleur pushed inboard to its stop.</summary>
    CageAtInboardStop,

    /// <summary>The less of the two with the hanger's tilt as it was read.</summary>
    CageTilted,

    /// <summary>The less of the two after a knock on the hanger, the tilt included.</summary>
    CageKnocked,

    /// <summary>Chain on the largest cog to spokes.</summary>
    ChainOnLargestCog,

    /// <summary>Chain on the smallest cog to the frame.</summary>
    ChainOnSmallestCog,
}

/// <summary>What a clearance means.</summary>
public enum ClearanceVerdict
{
    /// <summary>At least the room it should have.</summary>
    Clear,

    /// <summary>Less than it should have.</summary>
    Close,

    /// <summary>None: parts touch.</summary>
    Touches,

    /// <summary>Not known, because something was not measured. This is not "clear".</summary>
    CannotSay,
}

/// <summary>One clearance. Immutable.</summary>
public sealed record Clearance
{
    /// <summary>Between what, and when.</summary>
    public required ClearanceKind Kind { get; init; }

    /// <summary>What it means.</summary>
    public required ClearanceVerdict Verdict { get; init; }

    /// <summary>The room (mm; negative when parts overlap), or null when it cannot be said.</summary>
    public double? Mm { get; init; }

    /// <summary>The least it should be (mm).</summary>
    public required double LeastMm { get; init; }

    /// <summary>The gear in which it is least, or null.</summary>
    public Gear? Gear { get; init; }

    /// <summary>Whether it is a measured distance, not one computed from hub and rim.</summary>
    public bool IsMeasured { get; init; }

    /// <summary>Whether it is not known because the cage was moved after the distance had been measured: measure again.</summary>
    public bool IsStale { get; init; }

    /// <summary>Where in the side view it is least (mm), or null when only the distance is known.</summary>
    public Point? At { get; init; }

    /// <summary>Lateral position of the derailleur's, or the chain's, face there (mm), or null when only the distance is known.</summary>
    public double? FaceLateralMm { get; init; }

    /// <summary>Fields of the spec that are missing to say more; alternatives are joined by " | ".</summary>
    public ImmutableArray<string> Missing { get; init; } = [];

    /// <summary>Fields it was computed from that nobody measured.</summary>
    public ImmutableArray<string> Assumed { get; init; } = [];
}

/// <summary>All that is told of the bike sideways before anything else. Immutable.</summary>
/// <param name="All">The clearances, the costliest first.</param>
/// <param name="Inboard">The inboard stop's reach, or null when unknown.</param>
/// <param name="Outboard">The outboard stop's reach, or null when unknown.</param>
/// <param name="Knock">The knock that was asked about.</param>
/// <param name="Tilt">The hanger's tilt that was asked about, or null when none was read.</param>
public sealed record ClearanceReport(
    ImmutableArray<Clearance> All,
    StopReach? Inboard,
    StopReach? Outboard,
    Knock Knock,
    HangerTilt? Tilt
)
{
    /// <summary>
    /// The knock that would bring the cage to the spokes (mm inward at the guide pulley), or null when it cannot be said.
    /// Searched for each time it is asked for: most who read a report do not.
    /// </summary>
    public double? KnockToSpokesMm => Cage?.KnockToSpokesMm(Tilt ?? default);

    /// <summary>The cage that the report is of, or null without derailleur.</summary>
    internal CageToSpokes? Cage { get; init; }

    /// <summary>Whether the derailleur sits on the axle: no hanger to bend, no stop screws.</summary>
    public bool IsOnAxle { get; init; }

    /// <summary>
    /// Whether anything touches or has too little room, or a stop is loose, as the bike stands. A knock that has not
    /// happened does not count, nor does what cannot be said.
    /// </summary>
    public bool AnyFound =>
        All.Any(clearance =>
            clearance.Kind != ClearanceKind.CageKnocked
            && clearance.Verdict is ClearanceVerdict.Touches or ClearanceVerdict.Close
        )
        || Inboard is { IsLoose: true }
        || Outboard is { IsLoose: true };

    /// <summary>
    /// The one to tell where only one is told: what touches or is too close as the bike stands, then what cannot be said of
    /// the spokes, then what a knock would do, then the least room to the spokes beyond what it should be.
    /// </summary>
    public Clearance? Worst =>
        All.OrderBy(Rank)
            .ThenBy(c => (c.Mm - c.LeastMm) ?? double.NegativeInfinity)
            .FirstOrDefault();

    /// <summary>Whether something of the room to the spokes is not known, because it was not measured.</summary>
    public bool SpokesUnknown =>
        All.Any(c =>
            c.Verdict == ClearanceVerdict.CannotSay && c.Kind != ClearanceKind.ChainOnSmallestCog
        );

    private static int Rank(Clearance clearance) =>
        (clearance.Verdict, clearance.Kind) switch
        {
            // The frame's unknown room is no question of the spokes, and a knock has not happened.
            (ClearanceVerdict.CannotSay, ClearanceKind.ChainOnSmallestCog) => 6,
            (ClearanceVerdict.Touches, ClearanceKind.CageKnocked) => 3,
            (ClearanceVerdict.Close, ClearanceKind.CageKnocked) => 4,
            (ClearanceVerdict.Touches, _) => 0,
            (ClearanceVerdict.Close, _) => 1,
            (ClearanceVerdict.CannotSay, _) => 2,
            (_, ClearanceKind.ChainOnSmallestCog or ClearanceKind.CageKnocked) => 6,
            _ => 5,
        };

    /// <summary>The clearance of that kind, or null.</summary>
    public Clearance? Find(ClearanceKind kind) => All.FirstOrDefault(c => c.Kind == kind);
}
