using System.Collections.Immutable;

namespace Cogwright.Parts.Rules;

/// <summary>A figure of the parts chosen, or null when not known.</summary>
internal delegate double? FigureOf(ReadOnlySpan<Part?> parts);

/// <summary>A figure that rules compare: what it is made from, and how. Data.</summary>
/// <param name="Key">The key of its name.</param>
/// <param name="Unit">The key of its unit's sentence, such as <c>mm</c>.</param>
/// <param name="Decimals">Decimals it is told with.</param>
/// <param name="From">The fields it is made from, each with the kinds that may give it; the first chosen counts.</param>
/// <param name="Value">How it is made.</param>
internal sealed record BuildNumber(
    string Key,
    string Unit,
    int Decimals,
    ImmutableArray<(PartField Field, ImmutableArray<PartKind> Kinds)> From,
    FigureOf Value
)
{
    /// <summary>A field of one kind of part, as it is.</summary>
    internal static BuildNumber Of(PartField field, params ImmutableArray<PartKind> kinds) =>
        new(
            field.Name,
            field.Shape == PartShape.Length ? "mm" : "",
            field.Shape == PartShape.Length ? 2 : 0,
            [(field, kinds)],
            parts => FirstOf(parts, kinds)?.Number(field)
        );

    /// <summary>Something made from the teeth of cogs or rings.</summary>
    internal static BuildNumber OfTeeth(
        string key,
        PartKind kind,
        Func<ImmutableArray<double>, double> value
    ) =>
        new(
            key,
            "",
            0,
            [(PartFields.Teeth, [kind])],
            parts =>
                parts[(int)kind]?.Numbers(PartFields.Teeth) is { IsEmpty: false } teeth
                    ? value(teeth)
                    : null
        );

    /// <summary>The kinds that it looks at.</summary>
    internal IEnumerable<PartKind> Kinds => From.SelectMany(f => f.Kinds).Distinct();

    /// <summary>Whether a part is chosen for each thing it is made from.</summary>
    internal bool Asks(ReadOnlySpan<Part?> parts)
    {
        foreach (var (_, kinds) in From)
        {
            if (FirstOf(parts, kinds) is null)
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>The first part chosen of those kinds, or null.</summary>
    internal static Part? FirstOf(ReadOnlySpan<Part?> parts, ImmutableArray<PartKind> kinds)
    {
        foreach (var kind in kinds)
        {
            if (parts[(int)kind] is { } part)
            {
                return part;
            }
        }
        return null;
    }
}
