using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>What a bolt is made of and what it bears. Immutable.</summary>
/// <remarks>
/// Property classes by ISO 898-1: proof stress S_p, yield point R_p0.2 and tensile strength R_m. Class 8.8 is stronger above 16 mm:
/// 600, 660 and 830 MPa; used below that they would let a bolt be loaded 3 % too high. Stainless by ISO 3506-1, titanium and
/// aluminium as common for bicycle bolts: from memory.
/// </remarks>
public sealed record BoltMaterial
{
    /// <summary>Greatest diameter up to which the lower figures of class 8.8 hold (mm).</summary>
    public const double SmallDiameterMm = 16;

    private BoltMaterial(string id, double proofMPa, double yieldMPa, double tensileMPa)
    {
        Id = id;
        ProofMPa = proofMPa;
        YieldMPa = yieldMPa;
        TensileMPa = tensileMPa;
    }

    /// <summary>ISO 898-1 class 5.8.</summary>
    public static BoltMaterial Class58 { get; } = new("5.8", 380, 420, 520);

    /// <summary>ISO 898-1 class 8.8, up to 16 mm.</summary>
    public static BoltMaterial Class88 { get; } = new("8.8", 580, 640, 800);

    /// <summary>ISO 898-1 class 10.9.</summary>
    public static BoltMaterial Class109 { get; } = new("10.9", 830, 940, 1040);

    /// <summary>ISO 898-1 class 12.9.</summary>
    public static BoltMaterial Class129 { get; } = new("12.9", 970, 1100, 1220);

    /// <summary>Stainless A2-70; the standard has no proof stress, its yield point stands for it.</summary>
    public static BoltMaterial A270 { get; } = new("A2-70", 450, 450, 700);

    /// <summary>Titanium with 6 % aluminium and 4 % vanadium, annealed; its yield point stands for the proof stress.</summary>
    public static BoltMaterial Titanium { get; } = new("titanium", 828, 828, 895);

    /// <summary>Aluminium 7075-T6; its yield point stands for the proof stress.</summary>
    public static BoltMaterial Aluminium { get; } = new("aluminium", 430, 430, 500);

    /// <summary>Every material, the property classes first.</summary>
    public static ImmutableArray<BoltMaterial> All { get; } =
    [Class58, Class88, Class109, Class129, A270, Titanium, Aluminium];

    /// <summary>Its name in files and options; it is stable.</summary>
    public string Id { get; }

    /// <summary>S_p: proof stress (MPa).</summary>
    public double ProofMPa { get; }

    /// <summary>R_p0.2: yield point (MPa).</summary>
    public double YieldMPa { get; }

    /// <summary>R_m: tensile strength (MPa).</summary>
    public double TensileMPa { get; }

    /// <summary>The material of that name, or null.</summary>
    public static BoltMaterial? Find(string id) => All.FirstOrDefault(each => each.Id == id);

    /// <summary>The same for a diameter: class 8.8 has higher figures above 16 mm, which are taken only there.</summary>
    /// <param name="diameterMm">d (mm).</param>
    public BoltMaterial At(double diameterMm) =>
        Id == Class88.Id && diameterMm > SmallDiameterMm ? new(Id, 600, 660, 830) : this;

    /// <summary>Proof load (N): A_s·S_p.</summary>
    public double ProofLoadN(ScrewThread thread)
    {
        ArgumentNullException.ThrowIfNull(thread);
        return thread.StressAreaMm2 * At(thread.DiameterMm).ProofMPa;
    }

    /// <summary>Breaking load (N): A_s·R_m.</summary>
    public double BreakingLoadN(ScrewThread thread)
    {
        ArgumentNullException.ThrowIfNull(thread);
        return thread.StressAreaMm2 * At(thread.DiameterMm).TensileMPa;
    }
}
