using System.Collections.Immutable;

namespace Cogwright.Parts.Rules;

/// <summary>Two parts meet at an interface: the names must be the same, or an adapter must lead from one to the other.</summary>
/// <param name="id">The rule's id.</param>
/// <param name="field">The interface.</param>
/// <param name="bikeSide">The kinds of part on the bike's side; the first that is chosen counts.</param>
/// <param name="newSide">The kind of part that is fitted to it.</param>
/// <param name="ofCables">Whether it is asked of cable-pulled parts only.</param>
internal sealed class TagRule(
    string id,
    PartField field,
    ImmutableArray<PartKind> bikeSide,
    PartKind newSide,
    bool ofCables = false
) : PartRule(id, [.. bikeSide, newSide], [field])
{
    internal override bool Asks(ReadOnlySpan<Part?> parts) =>
        parts[(int)newSide] is { } fitted
        && BikeSide(parts) is { } bike
        && !(
            ofCables
            && (bike.Tag(PartFields.Protocol) ?? fitted.Tag(PartFields.Protocol)) is not null
        );

    internal override Judgement Judge(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters)
    {
        var from = BikeSide(parts)!.Tag(field);
        var to = parts[(int)newSide]!.Tag(field);
        if (from is null || to is null)
        {
            return Judgement.Unknown;
        }
        if (string.Equals(from, to, StringComparison.Ordinal))
        {
            return new(Compatibility.Yes);
        }
        foreach (var adapter in adapters)
        {
            if (
                adapter.Tag(PartFields.Joins) == field.Name
                && adapter.Tag(PartFields.From) == from
                && adapter.Tag(PartFields.To) == to
            )
            {
                return new(Compatibility.YesWith, Adapter: adapter);
            }
        }
        return new(Compatibility.No);
    }

    protected override ImmutableArray<string> Words(
        ReadOnlySpan<Part?> parts,
        in Judgement judgement
    )
    {
        var bike = BikeSide(parts)!;
        var fitted = parts[(int)newSide]!;
        return
        [
            bike.Name,
            bike.Tag(field) ?? "?",
            fitted.Name,
            fitted.Tag(field) ?? "?",
            judgement.Adapter?.Name ?? "",
        ];
    }

    protected override ImmutableArray<(PartField Field, Part Part)> Missing(
        ReadOnlySpan<Part?> parts
    )
    {
        var missing = ImmutableArray.CreateBuilder<(PartField, Part)>();
        if (BikeSide(parts) is { } bike && bike.Tag(field) is null)
        {
            missing.Add((field, bike));
        }
        if (parts[(int)newSide] is { } fitted && fitted.Tag(field) is null)
        {
            missing.Add((field, fitted));
        }
        return missing.ToImmutable();
    }

    private Part? BikeSide(ReadOnlySpan<Part?> parts) => BuildNumber.FirstOf(parts, bikeSide);
}
