namespace Cogwright.Fastening;

/// <summary>Names of the fasteners that a spec may give a torque for.</summary>
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

    /// <summary>All names, in the order of the walk-round.</summary>
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
