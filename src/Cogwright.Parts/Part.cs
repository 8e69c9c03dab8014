using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>A part of the library. Immutable.</summary>
public sealed record Part
{
    /// <summary>Longest an id may be (characters).</summary>
    public const int LongestId = 64;

    /// <summary>Its id in the library: lower-case letters, digits, points and hyphens, at most <see cref="LongestId"/>.</summary>
    public required string Id { get; init; }

    /// <summary>What it is.</summary>
    public required PartKind Kind { get; init; }

    /// <summary>What it is called.</summary>
    public required string Name { get; init; }

    /// <summary>Who makes it, or nothing.</summary>
    public string Maker { get; init; } = "";

    /// <summary>Where its figures come from, such as the part's sheet or a measurement; or nothing.</summary>
    public string Source { get; init; } = "";

    /// <summary>How many are in stock, or null when nobody counts.</summary>
    public int? InStock { get; init; }

    /// <summary>What is known of it; a field that is missing is not known.</summary>
    public ImmutableDictionary<PartField, PartValue> Values { get; init; } =
        ImmutableDictionary<PartField, PartValue>.Empty;

    /// <summary>Those of <see cref="Values"/> that nobody measured or looked up: common practice stands in for them.</summary>
    public ImmutableArray<PartField> Assumed { get; init; } = [];

    /// <summary>
    /// What it gives to a spec beyond its fields: paths as in a spec file, such as <c>rearDerailleur.linkLength</c>, with
    /// the value as it is written there. In the order of the paths.
    /// </summary>
    public ImmutableSortedDictionary<string, string> SpecValues { get; init; } =
        ImmutableSortedDictionary.Create<string, string>(StringComparer.Ordinal);

    /// <summary>Its number in that field, or null when not known.</summary>
    public double? Number(PartField field) =>
        Values.GetValueOrDefault(field) is PartValue.Number number ? number.Value : null;

    /// <summary>Its numbers in that field; empty when not known.</summary>
    public ImmutableArray<double> Numbers(PartField field) =>
        Values.GetValueOrDefault(field) is PartValue.Numbers numbers ? numbers.Values : [];

    /// <summary>The interface that it has in that field, or null when not known.</summary>
    public string? Tag(PartField field) =>
        Values.GetValueOrDefault(field) is PartValue.Tags { Names: [var name, ..] } ? name : null;

    /// <summary>The interfaces that it has in that field; empty when not known.</summary>
    public ImmutableArray<string> Tags(PartField field) =>
        Values.GetValueOrDefault(field) is PartValue.Tags tags ? tags.Names : [];

    /// <summary>The same part with that value, or without any when null.</summary>
    public Part With(PartField field, PartValue? value) =>
        this with
        {
            Values = value is null ? Values.Remove(field) : Values.SetItem(field, value),
        };

    /// <summary>Equality by content: the same id, kind, words, values and spec values.</summary>
    public bool Equals(Part? other) =>
        ReferenceEquals(this, other)
        || (
            other is not null
            && Id == other.Id
            && Kind == other.Kind
            && Name == other.Name
            && Maker == other.Maker
            && Source == other.Source
            && InStock == other.InStock
            && Values.Count == other.Values.Count
            && Values.All(value => value.Value.Equals(other.Values.GetValueOrDefault(value.Key)))
            && SpecValues.SequenceEqual(other.SpecValues)
            && Assumed.ToHashSet().SetEquals(other.Assumed)
        );

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Id, Kind, Name);
}
