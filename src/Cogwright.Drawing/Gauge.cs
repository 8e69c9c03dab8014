namespace Cogwright.Drawing;

/// <summary>The quantity in hand: it is dimensioned where its gauge goes.</summary>
public enum Gauge
{
    /// <summary>Guide pulley to cog, tooth tip to tooth tip.</summary>
    Gap,

    /// <summary>Turn of the pulley cage about its pivot.</summary>
    CageAngle,

    /// <summary>Bottom-bracket axis to rear axle.</summary>
    Chainstay,

    /// <summary>Rear axle to hanger bolt.</summary>
    Hanger,
}
