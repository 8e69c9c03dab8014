using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>
/// Something that can be said of a part. The fields stand in <see cref="PartFields"/>; there are no others, so the
/// instance itself is the key. Immutable.
/// </summary>
public sealed class PartField
{
    internal PartField(string name, PartShape shape, double least, double most, PartKind[] kinds)
    {
        Name = name;
        Shape = shape;
        Least = least;
        Most = most;
        Kinds = [.. kinds];
    }

    /// <summary>Its name in files, such as <c>hubDriver</c>.</summary>
    public string Name { get; }

    /// <summary>What its value looks like.</summary>
    public PartShape Shape { get; }

    /// <summary>Least value that a number of it may have, in its unit; 0 for names.</summary>
    public double Least { get; }

    /// <summary>Greatest value that a number of it may have, in its unit; 0 for names.</summary>
    public double Most { get; }

    /// <summary>The kinds of part that have it.</summary>
    public ImmutableArray<PartKind> Kinds { get; }

    /// <summary>What a mechanic calls it.</summary>
    public string Title => Texts.Get("field." + Name);

    /// <summary>The unit that its numbers stand in, or nothing.</summary>
    public string Unit =>
        Shape switch
        {
            PartShape.Length or PartShape.Lengths => "mm",
            _ => "",
        };

    /// <inheritdoc/>
    public override string ToString() => Name;
}
