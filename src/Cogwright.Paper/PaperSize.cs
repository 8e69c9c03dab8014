namespace Cogwright.Paper;

/// <summary>The sheet that the printer holds.</summary>
public enum PaperSize
{
    /// <summary>ISO A4, 210 × 297 mm.</summary>
    A4,

    /// <summary>North American Letter, 215.9 × 279.4 mm (8.5 × 11 in).</summary>
    Letter,
}
