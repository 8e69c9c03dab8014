using System.Collections.Immutable;

namespace Cogwright.Parts.Rules;

/// <summary>
/// A shifter and its derailleur: both cable-pulled, or both motor-driven of one family and with a generation in common. A
/// part that names no family is taken for cable-pulled only when it says what a cable does with it.
/// </summary>
/// <param name="id">The rule's id.</param>
/// <param name="shifter">The kind of shifter.</param>
/// <param name="derailleur">The kind of derailleur.</param>
/// <param name="pulls">What only a cable-pulled shifter says.</param>
/// <param name="ratio">What only a cable-pulled derailleur says.</param>
internal sealed class ActuationRule(
    string id,
    PartKind shifter,
    PartKind derailleur,
    PartField pulls,
    PartField ratio
) : PartRule(id, [shifter, derailleur], [PartFields.Protocol, PartFields.Generations, pulls, ratio])
{
    private const string CableAndMotor = ".mixed";
    private const string Family = ".family";
    private const string Generation = ".generation";
    private const string Cable = ".cable";

    internal override bool Asks(ReadOnlySpan<Part?> parts) =>
        parts[(int)shifter] is not null && parts[(int)derailleur] is not null;

    internal override Judgement Judge(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters)
    {
        var first = parts[(int)shifter]!;
        var second = parts[(int)derailleur]!;
        var family = first.Tag(PartFields.Protocol);
        var other = second.Tag(PartFields.Protocol);
        if (
            (family is null && !first.Values.ContainsKey(pulls))
            || (other is null && !second.Values.ContainsKey(ratio))
        )
        {
            return Judgement.Unknown;
        }
        if (family is null || other is null)
        {
            return family == other
                ? new(Compatibility.Yes, Case: Cable)
                : new(Compatibility.No, Case: CableAndMotor);
        }
        if (!string.Equals(family, other, StringComparison.Ordinal))
        {
            return new(Compatibility.No, Case: Family);
        }
        var generations = first.Tags(PartFields.Generations);
        var others = second.Tags(PartFields.Generations);
        return generations.IsEmpty || others.IsEmpty ? Judgement.Unknown
            : generations.Intersect(others, StringComparer.Ordinal).Any() ? new(Compatibility.Yes)
            : new(Compatibility.No, Case: Generation);
    }

    protected override ImmutableArray<string> Words(
        ReadOnlySpan<Part?> parts,
        in Judgement judgement
    )
    {
        var first = parts[(int)shifter]!;
        var second = parts[(int)derailleur]!;
        return
        [
            first.Name,
            first.Tag(PartFields.Protocol) ?? Texts.Get("rule.cable"),
            second.Name,
            second.Tag(PartFields.Protocol) ?? Texts.Get("rule.cable"),
            string.Join(", ", first.Tags(PartFields.Generations)),
            string.Join(", ", second.Tags(PartFields.Generations)),
        ];
    }

    protected override ImmutableArray<(PartField Field, Part Part)> Missing(
        ReadOnlySpan<Part?> parts
    )
    {
        var missing = ImmutableArray.CreateBuilder<(PartField, Part)>();
        Add(missing, parts[(int)shifter]!, pulls);
        Add(missing, parts[(int)derailleur]!, ratio);
        return missing.ToImmutable();

        static void Add(
            ImmutableArray<(PartField, Part)>.Builder missing,
            Part part,
            PartField whatACableDoes
        )
        {
            if (part.Tag(PartFields.Protocol) is null)
            {
                if (!part.Values.ContainsKey(whatACableDoes))
                {
                    missing.Add((whatACableDoes, part));
                }
            }
            else if (part.Tags(PartFields.Generations).IsEmpty)
            {
                missing.Add((PartFields.Generations, part));
            }
        }
    }
}
