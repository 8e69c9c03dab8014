namespace Cogwright.Web.GearTables;

/// <summary>The shape that a cell of the gear table shows; each has words of its own beside it.</summary>
public enum GearMark
{
    /// <summary>Taut, nothing to look at.</summary>
    Taut,

    /// <summary>Taut, with something worth a look.</summary>
    LookAt,

    /// <summary>The chain rubs.</summary>
    Rubs,

    /// <summary>The chain hangs.</summary>
    Slack,

    /// <summary>The chain is too short.</summary>
    Short,

    /// <summary>The guide pulley meets the cog.</summary>
    Clash,

    /// <summary>The cog is not reached.</summary>
    Unreachable,
}
