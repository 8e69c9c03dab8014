using System.Collections.Immutable;

namespace Cogwright.Parts.Rules;

/// <summary>One part names an interface, and the other lists those that it suits.</summary>
internal sealed class ContainsRule(
    string id,
    PartField one,
    PartKind oneKind,
    PartField several,
    PartKind severalKind
) : PartRule(id, [oneKind, severalKind], [one, several])
{
    internal override bool Asks(ReadOnlySpan<Part?> parts) =>
        parts[(int)oneKind] is not null && parts[(int)severalKind] is not null;

    internal override Judgement Judge(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters)
    {
        var name = parts[(int)oneKind]!.Tag(one);
        var names = parts[(int)severalKind]!.Tags(several);
        return name is null || names.IsEmpty ? Judgement.Unknown
            : names.Contains(name, StringComparer.Ordinal) ? new(Compatibility.Yes)
            : new(Compatibility.No);
    }

    protected override ImmutableArray<string> Words(
        ReadOnlySpan<Part?> parts,
        in Judgement judgement
    ) =>
        [
            parts[(int)oneKind]!.Name,
            parts[(int)oneKind]!.Tag(one) ?? "?",
            parts[(int)severalKind]!.Name,
            string.Join(", ", parts[(int)severalKind]!.Tags(several)),
        ];

    protected override ImmutableArray<(PartField Field, Part Part)> Missing(
        ReadOnlySpan<Part?> parts
    )
    {
        var missing = ImmutableArray.CreateBuilder<(PartField, Part)>();
        if (parts[(int)oneKind] is { } first && first.Tag(one) is null)
        {
            missing.Add((one, first));
        }
        if (parts[(int)severalKind] is { } second && second.Tags(several).IsEmpty)
        {
            missing.Add((several, second));
        }
        return missing.ToImmutable();
    }
}
