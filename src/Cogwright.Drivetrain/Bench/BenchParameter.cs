namespace Cogwright.Drivetrain.Bench;

/// <summary>What is found from the bench. The body angle is not among them: see docs/theory/bench-geometry.md, gauges.</summary>
public enum BenchParameter
{
    /// <summary>Axle to bottom bracket (mm).</summary>
    Chainstay,

    /// <summary>Hanger bolt ahead of the axle (mm).</summary>
    HangerX,

    /// <summary>Hanger bolt above the axle (mm).</summary>
    HangerY,

    /// <summary>Upper pivot ahead of the hanger bolt, at body angle 0 (mm).</summary>
    UpperPivotX,

    /// <summary>Upper pivot above the hanger bolt, at body angle 0 (mm).</summary>
    UpperPivotY,

    /// <summary>Direction κ of the links at body angle 0 (rad).</summary>
    LinkAngle,

    /// <summary>Slant σ (rad).</summary>
    Slant,

    /// <summary>Lateral position of the guide pulley at swing 0 (mm).</summary>
    GuideLateralAtZero,

    /// <summary>Length L of the links (mm).</summary>
    LinkLength,

    /// <summary>Cage pivot to guide pulley (mm).</summary>
    GuideArm,

    /// <summary>Cage pivot to tension pulley (mm).</summary>
    TensionArm,

    /// <summary>Direction of the guide pulley from that of the tension pulley, about the cage pivot (rad).</summary>
    GuideAngle,

    /// <summary>The cage's rear stop (rad).</summary>
    RearStop,

    /// <summary>The cage's front stop (rad).</summary>
    FrontStop,

    /// <summary>Cog to cog (mm).</summary>
    CogSpacing,

    /// <summary>What the smallest cog measures over its tips beyond the mean of ISO 606's limits (mm of diameter).</summary>
    SmallestCogTip,

    /// <summary>The same of the largest cog (mm of diameter).</summary>
    LargestCogTip,

    /// <summary>The same of the guide pulley (mm of diameter).</summary>
    GuideTip,

    /// <summary>Body angle per clockwise turn of the body-angle screw (rad, signed).</summary>
    ScrewTurn,
}
