using System.Globalization;

namespace Cogwright.Fastening;

/// <summary>
/// A thread with the 60° basic profile of ISO 68-1; inch threads of the same profile (UN) are given by their size in mm.
/// Sizes by ISO 724, root by the rounded profile of ISO 898-1. Immutable.
/// </summary>
public sealed record ScrewThread
{
    /// <summary>Least diameter (mm).</summary>
    public const double LeastDiameterMm = 1;

    /// <summary>Greatest diameter (mm): a bottom bracket's shell is below it.</summary>
    public const double MostDiameterMm = 60;

    // Height of the fundamental triangle by pitch: √3/2 (ISO 68-1).
    private static readonly double Height = Math.Sqrt(3) / 2;

    // ISO 261, first choice and the sizes that bicycles have.
    private static readonly (double Diameter, double Pitch)[] Coarse =
    [
        (2, 0.4),
        (2.5, 0.45),
        (3, 0.5),
        (3.5, 0.6),
        (4, 0.7),
        (5, 0.8),
        (6, 1),
        (8, 1.25),
        (10, 1.5),
        (12, 1.75),
        (14, 2),
        (16, 2),
    ];

    /// <summary>A thread.</summary>
    /// <param name="diameterMm">d: nominal diameter (mm), 1 to 60.</param>
    /// <param name="pitchMm">P: pitch (mm), from 0.2 mm to a quarter of the diameter.</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public ScrewThread(double diameterMm, double pitchMm)
    {
        DiameterMm = Demand.Length(diameterMm, LeastDiameterMm, MostDiameterMm, nameof(diameterMm));
        PitchMm = Demand.Length(pitchMm, 0.2, diameterMm / 4, nameof(pitchMm));
    }

    /// <summary>d: nominal diameter (mm).</summary>
    public double DiameterMm { get; }

    /// <summary>P: pitch (mm).</summary>
    public double PitchMm { get; }

    /// <summary>How an inch thread is written; null for a metric one.</summary>
    public string? InchName { get; private init; }

    /// <summary>d₂: pitch diameter (mm), d − 2·3/8·H.</summary>
    public double PitchDiameterMm => DiameterMm - (0.75 * Height * PitchMm);

    /// <summary>D₁: minor diameter of the internal thread (mm), d − 2·5/8·H.</summary>
    public double NutMinorDiameterMm => DiameterMm - (1.25 * Height * PitchMm);

    /// <summary>d₃: root diameter of the bolt (mm), D₁ − H/6.</summary>
    public double RootDiameterMm => NutMinorDiameterMm - (Height * PitchMm / 6);

    /// <summary>d_s: diameter of the stress area (mm), (d₂ + d₃)/2.</summary>
    public double StressDiameterMm => (PitchDiameterMm + RootDiameterMm) / 2;

    /// <summary>A_s: stress area (mm²), π/4·((d₂ + d₃)/2)². Source: ISO 898-1.</summary>
    public double StressAreaMm2 => Math.PI / 4 * StressDiameterMm * StressDiameterMm;

    /// <summary>Whether the pitch is that of the coarse series (ISO 261).</summary>
    public bool IsCoarse => CoarsePitchMm(DiameterMm) == PitchMm;

    /// <summary>The coarse thread of that diameter (ISO 261), such as M5.</summary>
    /// <param name="diameterMm">2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 12, 14 or 16 mm.</param>
    /// <exception cref="ArgumentException">No coarse thread of that diameter is known here.</exception>
    public static ScrewThread OfCoarse(double diameterMm) =>
        CoarsePitchMm(diameterMm) is { } pitch
            ? new(diameterMm, pitch)
            : throw new ArgumentException(
                Texts.Get("thread.noCoarse", diameterMm),
                nameof(diameterMm)
            );

    /// <summary>An inch thread of the same profile, such as 9/16 in with 20 threads per inch.</summary>
    /// <param name="numerator">Numerator of the nominal diameter (in), above 0.</param>
    /// <param name="denominator">Its denominator, above 0.</param>
    /// <param name="threadsPerInch">Threads per inch, above 0.</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public static ScrewThread OfInch(int numerator, int denominator, int threadsPerInch) =>
        new(25.4 * numerator / denominator, 25.4 / threadsPerInch)
        {
            InchName = $"{numerator}/{denominator} in × {threadsPerInch}",
        };

    /// <summary>Reads M5, M10x1 or M10×1.25, with a point or a comma; null when it is not written so or cannot be.</summary>
    public static ScrewThread? Parse(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var text = written.Trim();
        if (text.Length < 2 || text[0] is not ('M' or 'm'))
        {
            return null;
        }
        var parts = text[1..].Split('x', 'X', '×');
        if (parts.Length > 2 || Number(parts[0]) is not { } diameter)
        {
            return null;
        }
        var pitch = parts.Length == 1 ? CoarsePitchMm(diameter) : Number(parts[1]);
        return
            diameter is >= LeastDiameterMm and <= MostDiameterMm
            && pitch >= 0.2
            && pitch <= diameter / 4
            ? new(diameter, pitch.Value)
            : null;
    }

    /// <summary>As it is written: M10×1, M5 for a coarse thread, 9/16 in × 20 for an inch thread.</summary>
    public override string ToString() =>
        InchName is { } name ? name
        : IsCoarse ? string.Create(CultureInfo.InvariantCulture, $"M{DiameterMm:0.###}")
        : string.Create(CultureInfo.InvariantCulture, $"M{DiameterMm:0.###}×{PitchMm:0.###}");

    private static double? CoarsePitchMm(double diameterMm)
    {
        foreach (var (diameter, pitch) in Coarse)
        {
            if (diameter == diameterMm)
            {
                return pitch;
            }
        }
        return null;
    }

    private static double? Number(string text) =>
        double.TryParse(
            text.Trim().Replace(',', '.'),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var value
        )
            ? value
            : null;
}
