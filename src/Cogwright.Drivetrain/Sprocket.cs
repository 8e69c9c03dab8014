namespace Cogwright.Drivetrain;

/// <summary>
/// Sprocket geometry after ISO 606 for the chain of cycles. All lengths in mm.
/// </summary>
/// <remarks>
/// Source of the formulas: ISO 606 (tooth form and tip limits), ASME B29.1 (pitch diameter).
/// Bicycle teeth are shaped: a tip that was not measured can lie 1 to 2 mm off.
/// </remarks>
public static class Sprocket
{
    /// <summary>Nominal pitch p of a cycle chain (mm): half an inch. Source: ISO 9633, ISO 606.</summary>
    public const double PitchMm = 12.7;

    /// <summary>Roller diameter d1 of a cycle chain (mm). Source: ISO 606 chain 081/082.</summary>
    public const double RollerDiameterMm = 7.75;

    /// <summary>Fewest teeth that the formulas are used for.</summary>
    public const int LeastTeeth = 5;

    /// <summary>Most teeth that a spec may name; more is taken for a slip of the pen.</summary>
    public const int MostTeeth = 200;

    /// <summary>Pitch radius r = p / (2 sin(π/z)) (mm).</summary>
    /// <param name="teeth">Number of teeth z, at least 2.</param>
    /// <param name="pitchMm">Pitch of the chain that lies on it (mm).</param>
    public static double PitchRadiusMm(int teeth, double pitchMm = PitchMm)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(teeth, 2);
        return pitchMm / (2 * Math.Sin(Math.PI / teeth));
    }

    /// <summary>Root diameter d − d1 (mm).</summary>
    public static double RootDiameterMm(int teeth) => (2 * PitchRadiusMm(teeth)) - RollerDiameterMm;

    /// <summary>Least tip diameter of ISO 606: d + p(1 − 1.6/z) − d1 (mm).</summary>
    public static double LeastTipDiameterMm(int teeth) =>
        (2 * PitchRadiusMm(teeth)) + (PitchMm * (1 - (1.6 / teeth))) - RollerDiameterMm;

    /// <summary>Greatest tip diameter of ISO 606: d + 1.25p − d1 (mm).</summary>
    public static double GreatestTipDiameterMm(int teeth) =>
        (2 * PitchRadiusMm(teeth)) + (1.25 * PitchMm) - RollerDiameterMm;

    /// <summary>Tip radius (mm): of the measured diameter, else of the mean of ISO 606's limits.</summary>
    public static double TipRadiusMm(int teeth, double? measuredDiameterMm = null) =>
        measuredDiameterMm is { } measured
            ? measured / 2
            : PitchRadiusMm(teeth)
                + (PitchMm * (1.125 - (0.8 / teeth)) / 2)
                - (RollerDiameterMm / 2);

    /// <summary>Half the spread of the tip radius between ISO 606's limits (mm), 0 when the tip was measured.</summary>
    public static double TipRadiusHalfSpreadMm(int teeth, double? measuredDiameterMm = null) =>
        measuredDiameterMm is null ? PitchMm * (0.25 + (1.6 / teeth)) / 4 : 0;

    /// <summary>Chordal variation of the chain's speed as a fraction: 1 − cos(π/z).</summary>
    public static double ChordalVariation(int teeth) => 1 - Math.Cos(Math.PI / teeth);
}
