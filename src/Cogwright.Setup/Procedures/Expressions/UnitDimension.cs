using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Setup.Procedures.Expressions;

/// <summary>
/// What kind of quantity a value is: the powers of the units it is made of. Pitches and teeth are kinds of their own, so that a
/// count of one is never added to a count of the other unseen. Immutable.
/// </summary>
/// <param name="Length">Power of mm.</param>
/// <param name="Angle">Power of °.</param>
/// <param name="Torque">Power of N·m.</param>
/// <param name="Pitches">Power of pitches.</param>
/// <param name="Teeth">Power of teeth.</param>
public readonly record struct UnitDimension(
    int Length,
    int Angle,
    int Torque,
    int Pitches,
    int Teeth
)
{
    /// <summary>A bare number.</summary>
    public static UnitDimension Plain => default;

    /// <summary>mm.</summary>
    public static UnitDimension OfLength => new(1, 0, 0, 0, 0);

    /// <summary>°.</summary>
    public static UnitDimension OfAngle => new(0, 1, 0, 0, 0);

    /// <summary>N·m.</summary>
    public static UnitDimension OfTorque => new(0, 0, 1, 0, 0);

    /// <summary>Pitches of chain.</summary>
    public static UnitDimension OfPitches => new(0, 0, 0, 1, 0);

    /// <summary>Teeth of a ring or cog.</summary>
    public static UnitDimension OfTeeth => new(0, 0, 0, 0, 1);

    /// <summary>That of a product with another.</summary>
    public UnitDimension Times(UnitDimension other) => With(other, 1);

    /// <summary>That of a quotient by another.</summary>
    public UnitDimension Over(UnitDimension other) => With(other, -1);

    /// <summary>The unit in words, such as <c>mm</c> or <c>mm^2</c>; "no unit" for a bare number.</summary>
    public override string ToString()
    {
        var parts = ImmutableArray.CreateBuilder<string>();
        foreach (
            var (power, name) in new[]
            {
                (Length, "mm"),
                (Angle, "°"),
                (Torque, "N·m"),
                (Pitches, "pitches"),
                (Teeth, "teeth"),
            }
        )
        {
            if (power != 0)
            {
                parts.Add(
                    power == 1
                        ? name
                        : string.Create(CultureInfo.InvariantCulture, $"{name}^{power}")
                );
            }
        }
        return parts.Count == 0 ? Texts.Get("expression.noUnit") : string.Join(' ', parts);
    }

    private UnitDimension With(UnitDimension other, int sign) =>
        new(
            Length + (sign * other.Length),
            Angle + (sign * other.Angle),
            Torque + (sign * other.Torque),
            Pitches + (sign * other.Pitches),
            Teeth + (sign * other.Teeth)
        );
}

/// <summary>A unit that an expression may be written in. Immutable.</summary>
/// <param name="Name">How it is printed.</param>
/// <param name="Factor">What one of it is, in the unit of its dimension: 0.01 for %, 1 for all others.</param>
/// <param name="Dimension">Its dimension.</param>
/// <param name="Spellings">All ways it may be written.</param>
public sealed record ExpressionUnit(
    string Name,
    double Factor,
    UnitDimension Dimension,
    ImmutableArray<string> Spellings
)
{
    /// <summary>All units.</summary>
    public static ImmutableArray<ExpressionUnit> All { get; } =
    [
        new("mm", 1, UnitDimension.OfLength, ["mm"]),
        new("°", 1, UnitDimension.OfAngle, ["°", "deg"]),
        new("N·m", 1, UnitDimension.OfTorque, ["N·m", "Nm", "N*m"]),
        new("pitches", 1, UnitDimension.OfPitches, ["pitches", "pitch"]),
        new("teeth", 1, UnitDimension.OfTeeth, ["teeth", "tooth"]),
        new("%", 0.01, UnitDimension.Plain, ["%"]),
    ];

    /// <summary>The unit written at a place of a text, with the place behind it, or null.</summary>
    internal static (ExpressionUnit Unit, int End)? At(string text, int at)
    {
        foreach (var unit in All)
        {
            foreach (var spelling in unit.Spellings)
            {
                var end = at + spelling.Length;
                if (
                    text.AsSpan(at).StartsWith(spelling, StringComparison.Ordinal)
                    && (end >= text.Length || !char.IsLetterOrDigit(text[end]))
                )
                {
                    return (unit, end);
                }
            }
        }
        return null;
    }

    /// <summary>The unit of that name; a bare number for an empty one.</summary>
    internal static ExpressionUnit? Find(string name) =>
        All.FirstOrDefault(unit => unit.Name == name);
}
