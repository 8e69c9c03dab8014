using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>The parts chosen for one bike: at most one of each kind, and the adapters at hand. Immutable.</summary>
public sealed class Build
{
    internal static readonly int Kinds = Enum.GetValues<PartKind>().Length;

    private readonly ImmutableArray<Part?> parts;

    /// <summary>A build of these parts.</summary>
    /// <param name="parts">The parts; the later of two of the same kind stands. Adapters are all kept.</param>
    public Build(params IEnumerable<Part> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var places = new Part?[Kinds];
        var adapters = ImmutableArray.CreateBuilder<Part>();
        foreach (var part in parts)
        {
            if (part.Kind == PartKind.Adapter)
            {
                adapters.Add(part);
            }
            else
            {
                places[(int)part.Kind] = part;
            }
        }
        this.parts = [.. places];
        Adapters = adapters.ToImmutable();
    }

    /// <summary>The adapters that may be used.</summary>
    public ImmutableArray<Part> Adapters { get; }

    /// <summary>The part of that kind, or null when none is chosen.</summary>
    public Part? this[PartKind kind] => parts[(int)kind];

    /// <summary>The parts chosen, in the order of their kinds, without adapters.</summary>
    public IEnumerable<Part> Parts => parts.OfType<Part>();

    /// <summary>The same build with that part in the place of its kind.</summary>
    public Build With(Part part) => new([.. Parts, .. Adapters, part]);

    /// <summary>The same build with these adapters at hand besides its own.</summary>
    public Build WithAdapters(IEnumerable<Part> adapters)
    {
        ArgumentNullException.ThrowIfNull(adapters);
        return new([.. Parts, .. Adapters, .. adapters.Where(a => !Adapters.Contains(a))]);
    }

    /// <summary>The same build without a part of that kind.</summary>
    public Build Without(PartKind kind) =>
        new([.. Parts.Where(part => part.Kind != kind), .. Adapters]);

    internal ReadOnlySpan<Part?> Places => parts.AsSpan();
}
