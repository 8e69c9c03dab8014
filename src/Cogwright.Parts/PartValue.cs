using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>One value of a part. Immutable; two of the same content are equal.</summary>
public abstract record PartValue
{
    private PartValue() { }

    /// <summary>The names of interfaces; one for <see cref="PartShape.Tag"/>.</summary>
    public sealed record Tags(ImmutableArray<string> Names) : PartValue
    {
        /// <inheritdoc/>
        public bool Equals(Tags? other) =>
            other is not null && Names.AsSpan().SequenceEqual(other.Names.AsSpan());

        /// <inheritdoc/>
        public override int GetHashCode() =>
            Names.IsEmpty ? 0 : Names[0].GetHashCode(StringComparison.Ordinal);
    }

    /// <summary>A number: whole, a length (mm) or without unit.</summary>
    public sealed record Number(double Value) : PartValue;

    /// <summary>Numbers in their order: whole ones, or lengths (mm).</summary>
    public sealed record Numbers(ImmutableArray<double> Values) : PartValue
    {
        /// <inheritdoc/>
        public bool Equals(Numbers? other) =>
            other is not null && Values.AsSpan().SequenceEqual(other.Values.AsSpan());

        /// <inheritdoc/>
        public override int GetHashCode() => Values.IsEmpty ? 0 : Values[0].GetHashCode();
    }
}
