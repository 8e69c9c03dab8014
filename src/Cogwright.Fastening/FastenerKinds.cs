namespace Cogwright.Fastening;

/// <summary>Kinds of a fastener where the trade's range differs by kind. The names are stable.</summary>
public static class FastenerKinds
{
    /// <summary>The usual kind, where there are others.</summary>
    public const string Usual = "usual";

    /// <summary>A through axle.</summary>
    public const string ThroughAxle = "throughAxle";

    /// <summary>A quick-release lever: torque at the lever.</summary>
    public const string QuickRelease = "quickRelease";

    /// <summary>An axle that clamps the rear derailleur.</summary>
    public const string ClampsDerailleur = "clampsDerailleur";

    /// <summary>Small hanger screws.</summary>
    public const string SmallScrews = "smallScrews";

    /// <summary>A threaded nut that holds the hanger.</summary>
    public const string ThreadedNut = "threadedNut";

    /// <summary>One large bolt that holds the hanger.</summary>
    public const string LargeBolt = "largeBolt";

    /// <summary>A mount on the line of the axle.</summary>
    public const string Coaxial = "coaxial";

    /// <summary>What another maker asks for.</summary>
    public const string OtherMaker = "otherMaker";

    /// <summary>A shifter on a flat bar.</summary>
    public const string FlatBar = "flatBar";

    /// <summary>A lever on a drop bar.</summary>
    public const string DropBar = "dropBar";

    /// <summary>On a light frame.</summary>
    public const string LightFrame = "lightFrame";

    /// <summary>Of steel.</summary>
    public const string Steel = "steel";

    /// <summary>Of aluminium.</summary>
    public const string Aluminium = "aluminium";

    /// <summary>A ring held by three small bolts on the crank itself.</summary>
    public const string ThreeBolts = "threeBolts";

    /// <summary>A ring held by a lockring.</summary>
    public const string RingLockring = "ringLockring";

    /// <summary>A bottom bracket whose bearings sit in outer cups.</summary>
    public const string OuterCups = "outerCups";

    /// <summary>A bottom bracket of one piece.</summary>
    public const string Cartridge = "cartridge";

    /// <summary>A rotor on six bolts.</summary>
    public const string SixBolts = "sixBolts";

    /// <summary>A rotor with one lockring.</summary>
    public const string RotorLockring = "rotorLockring";
}
