using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Parts;

/// <summary>One value of a part. Immutable; two of the same content are equal.</summary>
public abstract record PartValue
{
    private PartValue() { }

    /// <summary>The value as it stands in what a deviation was accepted on.</summary>
    internal string ToGround() =>
        this switch
        {
            Tags tags => string.Join(' ', tags.Names),
            Number number => number.Value.ToString(CultureInfo.InvariantCulture),
            Numbers numbers => string.Join(
                ' ',
                numbers.Values.Select(value => value.ToString(CultureInfo.InvariantCulture))
            ),
            _ => "",
        };

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
