using System.Collections.Immutable;

namespace Cogwright.Parts.Rules;

/// <summary>How two figures are compared.</summary>
internal enum Comparison
{
    /// <summary>The left may be at most the right.</summary>
    AtMost,

    /// <summary>The left must be at least the right.</summary>
    AtLeast,

    /// <summary>They must be the same.</summary>
    Same,

    /// <summary>The same is best; more on the left works with a setting, less does not.</summary>
    SameOrMore,
}

/// <summary>How the parts are moved of which a rule asks.</summary>
internal enum MovedBy
{
    /// <summary>However they are.</summary>
    Any,

    /// <summary>By a cable, or by what nobody said.</summary>
    Cable,

    /// <summary>By a motor.</summary>
    Motor,
}

/// <summary>Two figures of a build, or a figure and a bound, compared.</summary>
/// <param name="id">The rule's id.</param>
/// <param name="left">The figure.</param>
/// <param name="comparison">How it is compared.</param>
/// <param name="right">What it is compared with.</param>
/// <param name="comfortable">What is left when one is comfortable with it, in the figure's unit.</param>
/// <param name="mostOver">Most that the left may be more where <see cref="Comparison.SameOrMore"/> is asked.</param>
/// <param name="movedBy">Of which parts it is asked.</param>
/// <param name="onlyIfSaid">Whether it is asked only of parts whose sheet names the bound: most do not, and none is then meant.</param>
internal sealed class NumberRule(
    string id,
    BuildNumber left,
    Comparison comparison,
    BuildNumber right,
    double comfortable,
    bool onlyIfSaid = false,
    double mostOver = double.PositiveInfinity,
    MovedBy movedBy = MovedBy.Any
)
    : PartRule(
        id,
        [.. left.Kinds.Concat(right.Kinds).Distinct()],
        [.. left.From.Concat(right.From).Select(from => from.Field).Distinct()]
    )
{
    /// <summary>Figures that differ by no more than this are the same (in their unit).</summary>
    private const double Alike = 1e-9;

    internal override bool Asks(ReadOnlySpan<Part?> parts) =>
        left.Asks(parts)
        && right.Asks(parts)
        && (!onlyIfSaid || right.Value(parts) is not null)
        && (movedBy == MovedBy.Any || movedBy == (HasMotor(parts) ? MovedBy.Motor : MovedBy.Cable));

    internal override Judgement Judge(ReadOnlySpan<Part?> parts, ImmutableArray<Part> adapters)
    {
        if (left.Value(parts) is not { } value || right.Value(parts) is not { } bound)
        {
            return Judgement.Unknown;
        }
        var room = comparison == Comparison.AtMost ? bound - value : value - bound;
        var (answer, reserve) = comparison switch
        {
            Comparison.Same when Math.Abs(room) <= Alike => (Compatibility.Yes, double.NaN),
            Comparison.Same => (Compatibility.No, -Math.Abs(room) / comfortable),
            Comparison.SameOrMore when Math.Abs(room) <= Alike => (Compatibility.Yes, double.NaN),
            Comparison.SameOrMore when room > mostOver => (
                Compatibility.No,
                (mostOver - room) / comfortable
            ),
            Comparison.SameOrMore when room > 0 => (Compatibility.YesWith, double.NaN),
            _ when room >= -Alike => (Compatibility.Yes, room / comfortable),
            _ => (Compatibility.No, room / comfortable),
        };
        return new(answer, reserve, value, bound, Case: room > mostOver ? ".over" : "");
    }

    private bool HasMotor(ReadOnlySpan<Part?> parts)
    {
        foreach (var kind in Kinds)
        {
            if (parts[(int)kind]?.Tag(PartFields.Protocol) is not null)
            {
                return true;
            }
        }
        return false;
    }

    protected override ImmutableArray<string> Words(
        ReadOnlySpan<Part?> parts,
        in Judgement judgement
    )
    {
        var difference = Math.Abs(judgement.Left - judgement.Right);
        return
        [
            Text(judgement.Left, left.Decimals),
            Text(judgement.Right, right.Decimals),
            Text(difference, Math.Max(left.Decimals, right.Decimals)),
            NameOf(parts, left),
            NameOf(parts, right),
        ];
    }

    protected override ImmutableArray<(PartField Field, Part Part)> Missing(
        ReadOnlySpan<Part?> parts
    )
    {
        var missing = ImmutableArray.CreateBuilder<(PartField, Part)>();
        foreach (var number in (ReadOnlySpan<BuildNumber>)[left, right])
        {
            foreach (var (field, kinds) in number.From)
            {
                if (
                    BuildNumber.FirstOf(parts, kinds) is { } part
                    && !part.Values.ContainsKey(field)
                )
                {
                    missing.Add((field, part));
                }
            }
        }
        return missing.ToImmutable();
    }

    private static string NameOf(ReadOnlySpan<Part?> parts, BuildNumber number) =>
        number.From.Length > 0 && BuildNumber.FirstOf(parts, number.From[0].Kinds) is { } part
            ? part.Name
            : "";
}
