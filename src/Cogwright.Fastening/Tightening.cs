namespace Cogwright.Fastening;

/// <summary>
/// From torque to preload and back. Friction form of VDI 2230 and ISO 16047:
/// M_A = F·(P/2π + d₂·μ_G/(2·cos 30°) + D_Km·μ_K/2); short form T = K·d·F.
/// </summary>
public static class Tightening
{
    /// <summary>ν: share of the yield point up to which a bolt is tightened. Source: VDI 2230.</summary>
    public const double YieldShare = 0.9;

    // Flank angle of 30°: 1/(2·cos 30°); VDI prints 0.577 (or 0.58), and 0.159 (or 0.16) for 1/2π.
    private static readonly double PerFlank = 1 / Math.Sqrt(3);

    /// <summary>Torque in the thread for each newton of preload (mm): P/2π + 0.577·d₂·μ_G.</summary>
    /// <param name="thread">The thread.</param>
    /// <param name="threadFriction">μ_G.</param>
    public static double ThreadArmMm(ScrewThread thread, double threadFriction)
    {
        ArgumentNullException.ThrowIfNull(thread);
        return (thread.PitchMm / (2 * Math.PI))
            + (PerFlank * thread.PitchDiameterMm * threadFriction);
    }

    /// <summary>Torque for each newton of preload (mm): thread and head.</summary>
    /// <param name="thread">The thread.</param>
    /// <param name="head">Where the head presses.</param>
    /// <param name="threadFriction">μ_G.</param>
    /// <param name="headFriction">μ_K.</param>
    public static double ArmMm(
        ScrewThread thread,
        HeadBearing head,
        double threadFriction,
        double headFriction
    )
    {
        ArgumentNullException.ThrowIfNull(head);
        return ThreadArmMm(thread, threadFriction) + (head.FrictionDiameterMm / 2 * headFriction);
    }

    /// <summary>F: preload (N) that a torque makes.</summary>
    /// <param name="torqueNm">M_A (N·m).</param>
    /// <param name="thread">The thread.</param>
    /// <param name="head">Where the head presses.</param>
    /// <param name="friction">μ, in the thread and under the head.</param>
    /// <exception cref="ArgumentException">The torque is out of range.</exception>
    public static double PreloadN(
        double torqueNm,
        ScrewThread thread,
        HeadBearing head,
        double friction
    ) => 1000 * Demand.Torque(torqueNm, nameof(torqueNm)) / ArmMm(thread, head, friction, friction);

    /// <summary>M_A: torque (N·m) that makes a preload.</summary>
    /// <param name="preloadN">F (N).</param>
    /// <param name="thread">The thread.</param>
    /// <param name="head">Where the head presses.</param>
    /// <param name="friction">μ, in the thread and under the head.</param>
    public static double TorqueNm(
        double preloadN,
        ScrewThread thread,
        HeadBearing head,
        double friction
    ) => preloadN * ArmMm(thread, head, friction, friction) / 1000;

    /// <summary>
    /// Equivalent stress while tightening (MPa): tension F/A_s with the torsion of the thread's torque, whose share VDI 2230 takes
    /// with 1.5 (the shank yields across its whole section).
    /// </summary>
    /// <param name="preloadN">F (N).</param>
    /// <param name="thread">The thread.</param>
    /// <param name="threadFriction">μ_G.</param>
    public static double StressMPa(double preloadN, ScrewThread thread, double threadFriction)
    {
        ArgumentNullException.ThrowIfNull(thread);
        return preloadN / thread.StressAreaMm2 * TorsionFactor(thread, threadFriction);
    }

    /// <summary>F_M at ν of the yield point (N): what a bolt is tightened to at most. Source: VDI 2230.</summary>
    /// <param name="thread">The thread.</param>
    /// <param name="material">What the bolt is made of.</param>
    /// <param name="threadFriction">μ_G.</param>
    public static double GreatestPreloadN(
        ScrewThread thread,
        BoltMaterial material,
        double threadFriction
    )
    {
        ArgumentNullException.ThrowIfNull(thread);
        ArgumentNullException.ThrowIfNull(material);
        return thread.StressAreaMm2
            * YieldShare
            * material.At(thread.DiameterMm).YieldMPa
            / TorsionFactor(thread, threadFriction);
    }

    /// <summary>F (N) by the short form F = T/(K·d).</summary>
    /// <param name="torqueNm">T (N·m).</param>
    /// <param name="diameterMm">d (mm).</param>
    /// <param name="nutFactor">K, such as 0.2 for zinc (Shigley, table 8-15: black 0.30, zinc 0.20, lubricated 0.18, cadmium 0.16, paste against seizing 0.12).</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public static double ShortFormPreloadN(double torqueNm, double diameterMm, double nutFactor) =>
        1000
        * Demand.Torque(torqueNm, nameof(torqueNm))
        / (
            Demand.Range(nutFactor, 0.05, 1, nameof(nutFactor))
            * Demand.Length(
                diameterMm,
                ScrewThread.LeastDiameterMm,
                ScrewThread.MostDiameterMm,
                nameof(diameterMm)
            )
        );

    /// <summary>K (no unit) that the friction form comes to.</summary>
    /// <param name="thread">The thread.</param>
    /// <param name="head">Where the head presses.</param>
    /// <param name="friction">μ, in the thread and under the head.</param>
    public static double NutFactor(ScrewThread thread, HeadBearing head, double friction)
    {
        ArgumentNullException.ThrowIfNull(thread);
        return ArmMm(thread, head, friction, friction) / thread.DiameterMm;
    }

    // √(1 + 3·(τ/σ)²) with τ/σ = 1.5·(d₂/d_s)·(P/(π·d₂) + 1.155·μ_G).
    private static double TorsionFactor(ScrewThread thread, double threadFriction)
    {
        var ratio =
            1.5
            * (thread.PitchDiameterMm / thread.StressDiameterMm)
            * (
                (thread.PitchMm / (Math.PI * thread.PitchDiameterMm))
                + (2 * PerFlank * threadFriction)
            );
        return Math.Sqrt(1 + (3 * ratio * ratio));
    }
}
