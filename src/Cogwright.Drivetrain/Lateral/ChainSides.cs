namespace Cogwright.Drivetrain;

/// <summary>The sides of chain and cogs, by the spec's figures or those of common practice.</summary>
public static class ChainSides
{
    /// <summary>Width of the chain (mm): the spec's, else that of its number of cogs; null when there are more than anybody makes.</summary>
    public static double? WidthMm(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return spec.Lateral?.ChainWidthMm ?? LateralPractice.ChainWidthMm(spec.Cogs.Teeth.Length);
    }

    /// <summary>Thickness of the cogs (mm).</summary>
    public static double CogThicknessMm(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return spec.Lateral?.Cassette?.CogThicknessMm
            ?? LateralPractice.CogThicknessMm(spec.Cogs.Teeth.Length);
    }
}
