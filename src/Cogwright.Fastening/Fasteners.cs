namespace Cogwright.Fastening;

/// <summary>Names of the fasteners. They are stable: files use them.</summary>
public static class Fasteners
{
    /// <summary>Rear axle.</summary>
    public const string RearAxle = "rearAxle";

    /// <summary>Cassette lockring.</summary>
    public const string Lockring = "lockring";

    /// <summary>Hanger screws.</summary>
    public const string HangerScrews = "hangerScrews";

    /// <summary>Rear derailleur mounting bolt.</summary>
    public const string RearMount = "rearMount";

    /// <summary>Rear cable anchor.</summary>
    public const string RearCable = "rearCable";

    /// <summary>Pulley bolts.</summary>
    public const string Pulleys = "pulleys";

    /// <summary>Front derailleur clamp or mount.</summary>
    public const string FrontMount = "frontMount";

    /// <summary>Front cable anchor.</summary>
    public const string FrontCable = "frontCable";

    /// <summary>Shifter or lever clamp.</summary>
    public const string ShifterClamp = "shifterClamp";

    /// <summary>Chainring bolts.</summary>
    public const string RingBolts = "ringBolts";

    /// <summary>Crank pinch bolts.</summary>
    public const string CrankPinch = "crankPinch";

    /// <summary>Pedals.</summary>
    public const string Pedals = "pedals";

    /// <summary>Crank bolt of a square or splined axle.</summary>
    public const string CrankBolt = "crankBolt";

    /// <summary>Cap that sets the bearings' preload of a crank with pinch bolts.</summary>
    public const string CrankPreload = "crankPreload";

    /// <summary>Bottom bracket cups.</summary>
    public const string BracketCups = "bracketCups";

    /// <summary>Bolts of a disc brake caliper.</summary>
    public const string BrakeCaliper = "brakeCaliper";

    /// <summary>Bolts of a brake rotor.</summary>
    public const string BrakeRotor = "brakeRotor";

    /// <summary>The names that specs and procedures use: those that a set-up of a drivetrain tightens.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        RearAxle,
        HangerScrews,
        Lockring,
        RearMount,
        Pulleys,
        RearCable,
        ShifterClamp,
        FrontMount,
        FrontCable,
        RingBolts,
        CrankPinch,
        Pedals,
    ];
}
