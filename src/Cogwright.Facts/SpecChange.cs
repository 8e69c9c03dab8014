using System.Collections.Immutable;

namespace Cogwright.Facts;

/// <summary>One change of a bike's spec: the body of an entry. Immutable.</summary>
/// <param name="What">What somebody did, as a sentence to show in the list of changes.</param>
/// <param name="Fields">The new text of each path changed; null takes the field out.</param>
public sealed record SpecChange(string What, ImmutableSortedDictionary<string, string?> Fields)
{
    /// <summary>The entry's id; empty before there is an entry.</summary>
    public string Id { get; init; } = "";

    /// <summary>The change that this one takes back, or null.</summary>
    public string? Undoes { get; init; }

    /// <summary>The change that this one makes again after it was taken back, or null.</summary>
    public string? Redoes { get; init; }
}
