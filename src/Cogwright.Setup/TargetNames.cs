using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Names of the targets that a program asks for; they are stable. A torque's name is <see cref="Torque"/> of its fastener.</summary>
public static class TargetNames
{
    /// <summary>Pulley-to-cog gap.</summary>
    public const string Gap = QuantityNames.Gap;

    /// <summary>Chain length.</summary>
    public const string ChainPitches = QuantityNames.ChainPitches;

    /// <summary>Path straight round the largest ring and cog.</summary>
    public const string DirectPath = QuantityNames.DirectPath;

    /// <summary>Difference at the rim between opposite clock positions.</summary>
    public const string HangerStraight = "hanger-straight";

    /// <summary>Inboard stop proven by hand.</summary>
    public const string InboardStopProven = "inboard-stop-proven";

    /// <summary>Front cage above the tallest teeth.</summary>
    public const string FrontHeight = QuantityNames.FrontHeight;

    /// <summary>Chain to outer plate, large ring and smallest cog.</summary>
    public const string FrontOuterGap = QuantityNames.FrontOuterGap;

    /// <summary>Chain to inner plate, small ring and largest cog.</summary>
    public const string FrontInnerGap = QuantityNames.FrontInnerGap;

    /// <summary>Up-and-down play of the chain of a drive without derailleur.</summary>
    public const string ChainPlay = "chain-play";

    /// <summary>The cage's damper off, while gap and chain are measured.</summary>
    public const string DamperOff = "damper-off";

    /// <summary>The cage's damper on again, before the test ride.</summary>
    public const string DamperOn = "damper-on";

    /// <summary>Name of the torque target of a fastener in the walk-round.</summary>
    public static string Torque(string fastener) => $"torque-{fastener}";

    /// <summary>Name of the torque target of a fastener where it is first tightened.</summary>
    public static string FirstTorque(string fastener) => $"tighten-{fastener}";
}
