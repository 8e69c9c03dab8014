namespace Cogwright.Setup.Catalogue;

/// <summary>Names of the quantities that the model offers. They are stable: files and readings use them.</summary>
public static class QuantityNames
{
    /// <summary>Pulley-to-cog gap, tooth tip to tooth tip (mm, per gear).</summary>
    public const string Gap = "gap";

    /// <summary>The same distance to the next larger cog (mm, per gear).</summary>
    public const string GapToNextCog = "gap-to-next-cog";

    /// <summary>Cage angle, anticlockwise from the drive side (°, per gear).</summary>
    public const string CageAngle = "cage-angle";

    /// <summary>Chain angle of the top run in plan (°, per gear).</summary>
    public const string ChainAngle = "chain-angle";

    /// <summary>Teeth of the cog in mesh (teeth, per gear).</summary>
    public const string CogTeethInMesh = "cog-teeth-in-mesh";

    /// <summary>Reserve before the chain is too short (mm of chain, per gear).</summary>
    public const string TightMargin = "tight-margin";

    /// <summary>Reserve before the chain hangs (mm of chain, per gear).</summary>
    public const string LooseMargin = "loose-margin";

    /// <summary>Free length of the top run (mm, per gear).</summary>
    public const string TopRun = "top-run";

    /// <summary>Recommended chain length (pitches).</summary>
    public const string ChainPitches = "chain-pitches";

    /// <summary>Path straight round the largest ring and the largest cog (pitches).</summary>
    public const string DirectPath = "direct-path";

    /// <summary>Chain to the front cage's outer plate, cage in the ring's own position (mm, per gear).</summary>
    public const string FrontOuterGap = "front-outer-gap";

    /// <summary>Chain to the front cage's inner plate, cage in the ring's own position (mm, per gear).</summary>
    public const string FrontInnerGap = "front-inner-gap";

    /// <summary>Front cage above the tallest teeth (mm).</summary>
    public const string FrontHeight = "front-height";

    /// <summary>Lateral distance between ring and cog of a drive without shifting (mm).</summary>
    public const string ChainlineOffset = "chainline-offset";
}

/// <summary>One quantity that the model offers, with what makes it comparable with a reading. Immutable.</summary>
/// <param name="Name">One of <see cref="QuantityNames"/>.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Convention">From what to what it is measured, where the chain lies, suspension state.</param>
/// <param name="Gear">The gear, or null when the quantity has none.</param>
/// <param name="Value">Its value in <paramref name="Unit"/>, always finite.</param>
/// <param name="TipUncertainty">Standard uncertainty from teeth whose tips were not measured, in <paramref name="Unit"/>; 0 when none.</param>
/// <param name="DependsOnAssumed">Whether it was computed from a value that nobody measured or stated.</param>
public sealed record Quantity(
    string Name,
    string Unit,
    string Convention,
    (int RingTeeth, int CogTeeth)? Gear,
    double Value,
    double TipUncertainty,
    bool DependsOnAssumed
);
