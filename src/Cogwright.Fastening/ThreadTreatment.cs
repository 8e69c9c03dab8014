using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>Least and greatest coefficient of friction that a thread or a head may have. Immutable.</summary>
public sealed record FrictionRange
{
    /// <summary>A range.</summary>
    /// <param name="least">Least coefficient, 0.02 to 1.</param>
    /// <param name="greatest">Greatest coefficient, from the least to 1.</param>
    /// <exception cref="ArgumentException">A figure is out of range.</exception>
    public FrictionRange(double least, double greatest)
    {
        Least = Demand.Range(least, 0.02, 1, nameof(least));
        Greatest = Demand.Range(greatest, least, 1, nameof(greatest));
    }

    /// <summary>Least coefficient.</summary>
    public double Least { get; }

    /// <summary>Greatest coefficient.</summary>
    public double Greatest { get; }
}

/// <summary>How a thread is treated before it is tightened, and the friction that comes of it. Immutable.</summary>
/// <remarks>
/// The friction classes of VDI 2230 (A 0.04 to 0.10, B 0.08 to 0.16, C 0.14 to 0.24), from memory; which treatment belongs to which
/// is common practice. Most of a torque goes into friction: the same torque on a greased thread pulls up to twice as hard as on a
/// dry one, so a figure holds only for the treatment it was given for.
/// </remarks>
public sealed record ThreadTreatment
{
    private ThreadTreatment(string id, double least, double greatest)
    {
        Id = id;
        Friction = new(least, greatest);
    }

    /// <summary>Clean and dry: class C.</summary>
    public static ThreadTreatment Dry { get; } = new("dry", 0.14, 0.24);

    /// <summary>Greased: class B.</summary>
    public static ThreadTreatment Greased { get; } = new("greased", 0.08, 0.16);

    /// <summary>Oiled: class B.</summary>
    public static ThreadTreatment Oiled { get; } = new("oiled", 0.08, 0.16);

    /// <summary>Assembly paste against seizing, with solid lubricants: between A and B.</summary>
    public static ThreadTreatment AssemblyPaste { get; } = new("assembly-paste", 0.06, 0.14);

    /// <summary>Liquid threadlocker, still wet: B to C.</summary>
    public static ThreadTreatment Threadlocker { get; } = new("threadlocker", 0.1, 0.2);

    /// <summary>As the part came, nobody knows how: B and C together.</summary>
    public static ThreadTreatment AsSupplied { get; } = new("as-supplied", 0.08, 0.24);

    /// <summary>Every treatment.</summary>
    public static ImmutableArray<ThreadTreatment> All { get; } =
    [Dry, Greased, Oiled, AssemblyPaste, Threadlocker, AsSupplied];

    /// <summary>Its name in files; it is stable.</summary>
    public string Id { get; }

    /// <summary>Friction in the thread and under the head.</summary>
    public FrictionRange Friction { get; }

    /// <summary>What it is called on a screen.</summary>
    public string Title => Texts.Get($"treatment.{Id}");

    /// <summary>The treatment of that name, or null.</summary>
    public static ThreadTreatment? Find(string id) => All.FirstOrDefault(each => each.Id == id);
}
