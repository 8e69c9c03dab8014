using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>
/// What the internal thread is cut into, or what the head presses on. Strength as the least of the material's standard, shear and
/// pressure by the form of VDI 2230; all from memory and on the safe side. Immutable.
/// </summary>
public sealed record NutMaterial
{
    private NutMaterial(string id, double tensileMPa, double shearShare, double pressureMPa)
    {
        Id = id;
        TensileMPa = tensileMPa;
        ShearShare = shearShare;
        PressureMPa = pressureMPa;
    }

    /// <summary>Structural or frame steel.</summary>
    public static NutMaterial Steel { get; } = new("steel", 470, 0.6, 490);

    /// <summary>Aluminium 6061-T6 and its like: frames, hangers.</summary>
    public static NutMaterial Aluminium6061 { get; } = new("aluminium-6061", 290, 0.7, 260);

    /// <summary>Aluminium 7075-T6 and its like: cranks, cages, machined hangers.</summary>
    public static NutMaterial Aluminium7075 { get; } = new("aluminium-7075", 500, 0.7, 410);

    /// <summary>Titanium with 6 % aluminium and 4 % vanadium.</summary>
    public static NutMaterial Titanium { get; } = new("titanium", 895, 0.6, 760);

    /// <summary>Carbon laminate: nothing is cut into it, and heads press on it only through a washer.</summary>
    public static NutMaterial Carbon { get; } = new("carbon", 0, 0, 100);

    /// <summary>Every material.</summary>
    public static ImmutableArray<NutMaterial> All { get; } =
    [Steel, Aluminium6061, Aluminium7075, Titanium, Carbon];

    /// <summary>Its name in files and options; it is stable.</summary>
    public string Id { get; }

    /// <summary>R_m: least tensile strength (MPa); 0 where no thread is cut into it.</summary>
    public double TensileMPa { get; }

    /// <summary>τ_B/R_m: shear strength as a share of the tensile strength.</summary>
    public double ShearShare { get; }

    /// <summary>p_G: pressure under a head that it bears (MPa).</summary>
    public double PressureMPa { get; }

    /// <summary>Whether threads are cut into it.</summary>
    public bool TakesThread => TensileMPa > 0;

    /// <summary>What it is called on a screen.</summary>
    public string Title => Texts.Get($"material.{Id}");

    /// <summary>The material of that name, or null.</summary>
    public static NutMaterial? Find(string id) => All.FirstOrDefault(each => each.Id == id);
}
