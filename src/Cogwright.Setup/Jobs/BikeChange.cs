using System.Collections.Immutable;

namespace Cogwright.Setup.Jobs;

/// <summary>Something that can happen to a bike, and what no longer holds then. Immutable.</summary>
/// <param name="Name">Its name in entries.</param>
/// <param name="Group">Where it stands in the list of what can happen.</param>
/// <param name="Parts">Kinds of part that it is about (<see cref="Procedures.ProcedureWords.Parts"/>).</param>
/// <param name="Redo">Subjects whose results no longer hold (<see cref="Subjects"/>).</param>
/// <param name="Look">Subjects whose results may still hold: they are looked at or read again.</param>
public sealed record BikeChange(
    string Name,
    BikeChangeGroup Group,
    ImmutableArray<string> Parts,
    ImmutableArray<string> Redo,
    ImmutableArray<string> Look
)
{
    /// <summary>What happened, in a mechanic's words.</summary>
    public string About => Texts.Get("change." + Name);
}

/// <summary>Where a change stands in the list of what can happen.</summary>
public enum BikeChangeGroup
{
    /// <summary>Falls, knocks, repairs of the frame.</summary>
    Frame,

    /// <summary>Wheel, axle, hub, cassette.</summary>
    Wheel,

    /// <summary>Rear derailleur, hanger, chain.</summary>
    Rear,

    /// <summary>Rings, crank, front derailleur.</summary>
    Front,

    /// <summary>Shifters, cables, motors.</summary>
    Controls,
}
