namespace Cogwright.Web.Quick;

/// <summary>What somebody has typed on the short path so far, right or wrong. Immutable.</summary>
internal sealed record QuickEntry
{
    /// <summary>The rear end does not move against the frame.</summary>
    internal const string Rigid = "rigid";

    /// <summary>The rear end is suspended: the chain must reach where the axle stands farthest from the bottom bracket.</summary>
    internal const string Suspended = "suspended";

    /// <summary>Id of the <see cref="BikeKind"/>; empty when none is chosen.</summary>
    public string Kind { get; init; } = "";

    /// <summary><see cref="Rigid"/> or <see cref="Suspended"/>; empty when nobody said it yet. A single-speed has no need of it.</summary>
    public string Rear { get; init; } = "";

    /// <summary>Teeth of the largest ring.</summary>
    public string Ring1 { get; init; } = "";

    /// <summary>Teeth of the next ring, or empty.</summary>
    public string Ring2 { get; init; } = "";

    /// <summary>Teeth of the third ring, or empty.</summary>
    public string Ring3 { get; init; } = "";

    /// <summary>Teeth of the smallest cog.</summary>
    public string Smallest { get; init; } = "";

    /// <summary>Teeth of the largest cog.</summary>
    public string Largest { get; init; } = "";

    /// <summary>Number of cogs.</summary>
    public string Count { get; init; } = "";

    /// <summary>Whether every cog is named in <see cref="Cogs"/>; else the ones between the ends are filled in.</summary>
    public bool IsListed { get; init; }

    /// <summary>Every cog, when they are listed.</summary>
    public string Cogs { get; init; } = "";

    /// <summary>Chainstay off the tape, or empty; of a suspended rear end where it is longest, and needed.</summary>
    public string Chainstay { get; init; } = "";

    /// <summary>Class of the rear derailleur, or empty for the usual one of the kind.</summary>
    public string Derailleur { get; init; } = "";

    /// <summary>What shifts: as in a spec.</summary>
    public string Actuation { get; init; } = "cable";

    /// <summary>What the bike is called, or empty.</summary>
    public string Name { get; init; } = "";
}
