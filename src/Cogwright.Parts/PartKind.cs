namespace Cogwright.Parts;

/// <summary>What a part is. A bike has at most one of each kind, adapters apart.</summary>
public enum PartKind
{
    /// <summary>The frame with its dropouts, shell and tubes.</summary>
    Frame,

    /// <summary>The tab that carries the rear derailleur, where it can be exchanged.</summary>
    Hanger,

    /// <summary>The rear wheel with hub and hub driver.</summary>
    RearWheel,

    /// <summary>The rear cogs.</summary>
    Cassette,

    /// <summary>The chain.</summary>
    Chain,

    /// <summary>The bottom bracket's bearings.</summary>
    BottomBracket,

    /// <summary>The crank with its spindle, or a motor's with its ring mount.</summary>
    Crank,

    /// <summary>The chainrings, as a set.</summary>
    Rings,

    /// <summary>The rear derailleur.</summary>
    RearDerailleur,

    /// <summary>The pulley cage, where it can be exchanged.</summary>
    Cage,

    /// <summary>The front derailleur.</summary>
    FrontDerailleur,

    /// <summary>What shifts the rear derailleur.</summary>
    RearShifter,

    /// <summary>What shifts the front derailleur.</summary>
    FrontShifter,

    /// <summary>Something that lets two interfaces meet which do not by themselves, such as a spacer.</summary>
    Adapter,
}
