using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>What would not bear a torque.</summary>
public enum JointWarningKind
{
    /// <summary>The torque may pass what is printed on the clamped part.</summary>
    PrintedMaximum,

    /// <summary>The bolt may be strained beyond ν of its yield point.</summary>
    BoltYields,

    /// <summary>The preload may pass the proof load.</summary>
    ProofLoad,

    /// <summary>The internal thread may strip.</summary>
    ThreadStrips,

    /// <summary>What the head presses on may be crushed.</summary>
    HeadPressure,

    /// <summary>No thread is cut into that material.</summary>
    NoThreadInMaterial,
}

/// <summary>A warning. Immutable.</summary>
/// <param name="Kind">What would not bear it.</param>
/// <param name="Utilisation">Load by what is borne: above 1 it is too much.</param>
/// <param name="Sentence">In words, with what to do.</param>
public sealed record JointWarning(JointWarningKind Kind, double Utilisation, string Sentence);

/// <summary>What a torque makes of a joint. Immutable.</summary>
public sealed record JointResult
{
    /// <summary>Least preload (N): least torque, greatest friction.</summary>
    public required double LeastPreloadN { get; init; }

    /// <summary>Greatest preload (N): greatest torque, least friction.</summary>
    public required double GreatestPreloadN { get; init; }

    /// <summary>Greatest equivalent stress by what a bolt is tightened to (ν of its yield point); null without a bolt material.</summary>
    public double? YieldUtilisation { get; init; }

    /// <summary>Greatest preload by the proof load; null without a bolt material.</summary>
    public double? ProofUtilisation { get; init; }

    /// <summary>Greatest preload by what strips the internal thread, its reserve counted; null when not said.</summary>
    public double? StripUtilisation { get; init; }

    /// <summary>Greatest pressure under the head by what is borne; null when not said.</summary>
    public double? PressureUtilisation { get; init; }

    /// <summary>
    /// Greatest torque (N·m) that every check still bears; 0 where no thread is cut into the material, null when nothing was said
    /// that limits it.
    /// </summary>
    public double? BearableNm { get; init; }

    /// <summary>What would not bear it, the worst first.</summary>
    public required ImmutableArray<JointWarning> Warnings { get; init; }
}

/// <summary>
/// Holds a torque against what thread, material and clamp bear: ISO 898-1 for the bolt, the forms of VDI 2230 for stress, thread
/// and pressure.
/// </summary>
public static class JointReview
{
    /// <summary>Reserve against stripping: materials scatter and threads wear (common practice).</summary>
    public const double StripReserve = 1.25;

    /// <summary>
    /// C₁·C₃ of VDI 2230: threads bend and the wall of the nut widens; 0.84 to 0.9 for thick walls (from memory), the lower taken.
    /// </summary>
    public const double ThreadShare = 0.84;

    /// <summary>Pitches of the engaged length that do not bear, at its two ends. Source: VDI 2230 (0.8·P).</summary>
    public const double IdlePitches = 0.8;

    /// <summary>What a torque makes of a joint.</summary>
    /// <param name="joint">The joint.</param>
    /// <param name="leastNm">Least torque that it may get (N·m).</param>
    /// <param name="mostNm">Greatest torque that it may get (N·m): with the tool's deviation, where a tool is known.</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public static JointResult Of(BoltedJoint joint, double leastNm, double mostNm)
    {
        ArgumentNullException.ThrowIfNull(joint);
        var torque = new TorqueRange(leastNm, mostNm);
        if (joint.EngagementMm is { } engagement)
        {
            Demand.Length(engagement, 0.1, 100, nameof(joint));
        }
        if (joint.PrintedMaxNm is { } printed)
        {
            Demand.Torque(printed, nameof(joint));
        }
        var (thread, friction) = (joint.Thread, joint.Treatment.Friction);
        var least = Tightening.PreloadN(torque.LowerNm, thread, joint.Head, friction.Greatest);
        var most = Tightening.PreloadN(torque.UpperNm, thread, joint.Head, friction.Least);
        var yields = joint.Bolt is { } bolt ? YieldUtilisation(joint, bolt, mostNm) : (double?)null;
        var proof = most / joint.Bolt?.ProofLoadN(thread);
        var strips = StripLoadN(joint) is { } strip ? most * StripReserve / strip : (double?)null;
        var pressure = most / joint.Head.AreaMm2 / joint.Under?.PressureMPa;
        var max = mostNm / joint.PrintedMaxNm;
        return new()
        {
            LeastPreloadN = least,
            GreatestPreloadN = most,
            YieldUtilisation = yields,
            ProofUtilisation = proof,
            StripUtilisation = strips,
            PressureUtilisation = pressure,
            BearableNm =
                joint.Nut is { TakesThread: false } ? 0
                : Worst(yields, proof, strips, pressure, max) is { } worst ? mostNm / worst
                : null,
            Warnings = Warnings(joint, mostNm, most, (yields, proof, strips, pressure, max)),
        };
    }

    /// <summary>
    /// F_mGM: preload (N) at which the internal thread strips: area of shear at the bolt's crests by ISO 898 and VDI 2230,
    /// π·d·(m/P)·(P/2 + (d − d₂)·tan 30°), times shear strength and <see cref="ThreadShare"/>. Null when material or length was not
    /// said, or no thread is cut into it.
    /// </summary>
    public static double? StripLoadN(BoltedJoint joint)
    {
        ArgumentNullException.ThrowIfNull(joint);
        if (joint is not { Nut: { TakesThread: true } nut, EngagementMm: { } length })
        {
            return null;
        }
        return ShearAreaMm2(joint.Thread, length) * nut.TensileMPa * nut.ShearShare * ThreadShare;
    }

    /// <summary>A_SG: area (mm²) in which the internal thread shears, 0 when the idle ends take all of the length.</summary>
    /// <param name="thread">The thread.</param>
    /// <param name="engagementMm">Engaged length (mm).</param>
    public static double ShearAreaMm2(ScrewThread thread, double engagementMm)
    {
        ArgumentNullException.ThrowIfNull(thread);
        var bearing = Math.Max(0, engagementMm - (IdlePitches * thread.PitchMm));
        var tooth =
            (thread.PitchMm / 2) + ((thread.DiameterMm - thread.PitchDiameterMm) / Math.Sqrt(3));
        return Math.PI * thread.DiameterMm * (bearing / thread.PitchMm) * tooth;
    }

    // Little friction pulls harder, much friction twists harder: which end strains the bolt more depends on the head's part.
    private static double YieldUtilisation(BoltedJoint joint, BoltMaterial bolt, double mostNm)
    {
        var worst = 0.0;
        foreach (
            var friction in (ReadOnlySpan<double>)
                [joint.Treatment.Friction.Least, joint.Treatment.Friction.Greatest]
        )
        {
            var preload = Tightening.PreloadN(mostNm, joint.Thread, joint.Head, friction);
            worst = Math.Max(
                worst,
                preload / Tightening.GreatestPreloadN(joint.Thread, bolt, friction)
            );
        }
        return worst;
    }

    private static double? Worst(params ReadOnlySpan<double?> utilisations)
    {
        double? worst = null;
        foreach (var each in utilisations)
        {
            // An idle thread strips at once: what it bears is 0 and not "nothing limits it".
            if (each is { } utilisation && !(utilisation <= worst))
            {
                worst = utilisation;
            }
        }
        return worst;
    }

    private static ImmutableArray<JointWarning> Warnings(
        BoltedJoint joint,
        double mostNm,
        double preloadN,
        (double? Yields, double? Proof, double? Strips, double? Pressure, double? Printed) by
    )
    {
        var warnings = new List<JointWarning>();
        void Add(JointWarningKind kind, double? utilisation, string sentence)
        {
            if (utilisation > 1)
            {
                warnings.Add(new(kind, utilisation.Value, sentence));
            }
        }
        Add(
            JointWarningKind.PrintedMaximum,
            by.Printed,
            Texts.Get("joint.PrintedMaximum", mostNm, joint.PrintedMaxNm)
        );
        Add(
            JointWarningKind.BoltYields,
            by.Yields,
            Texts.Get(
                "joint.BoltYields",
                mostNm,
                joint.Thread,
                joint.Bolt?.Id,
                joint.Treatment.Title,
                mostNm / by.Yields
            )
        );
        Add(
            JointWarningKind.ProofLoad,
            by.Proof,
            Texts.Get(
                "joint.ProofLoad",
                preloadN / 1000,
                joint.Bolt?.ProofLoadN(joint.Thread) / 1000,
                joint.Thread,
                joint.Bolt?.Id,
                joint.Treatment.Title
            )
        );
        Add(
            JointWarningKind.ThreadStrips,
            by.Strips,
            Texts.Get(
                "joint.ThreadStrips",
                preloadN / 1000,
                joint.Nut?.Title,
                joint.EngagementMm,
                mostNm / by.Strips
            )
        );
        Add(
            JointWarningKind.HeadPressure,
            by.Pressure,
            Texts.Get(
                "joint.HeadPressure",
                preloadN / joint.Head.AreaMm2,
                joint.Under?.PressureMPa,
                joint.Under?.Title
            )
        );
        if (joint.Nut is { TakesThread: false } nut)
        {
            warnings.Add(
                new(
                    JointWarningKind.NoThreadInMaterial,
                    double.PositiveInfinity,
                    Texts.Get("joint.NoThreadInMaterial", nut.Title)
                )
            );
        }
        return [.. warnings.OrderByDescending(warning => warning.Utilisation)];
    }
}
