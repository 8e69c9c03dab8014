using System.Collections.Immutable;
using Cogwright.Fastening;

namespace Cogwright.Files.Fields;

/// <summary>What kind of quantity a number is.</summary>
internal enum Dimension
{
    /// <summary>mm in the model and when bare.</summary>
    Length,

    /// <summary>rad in the model, degrees when bare.</summary>
    Angle,

    /// <summary>N·m in the model and when bare.</summary>
    Torque,

    /// <summary>N·m/rad in the model, N·m per degree when bare.</summary>
    TorqueRate,

    /// <summary>A fraction; may be written in percent.</summary>
    Fraction,

    /// <summary>Turns of a screw.</summary>
    Turns,
}

/// <summary>A unit that a file may use.</summary>
/// <param name="Name">How we write it.</param>
/// <param name="ToModel">Factor to the model's unit.</param>
/// <param name="Spellings">Other ways it is written; letter case, spaces, dots, stars and hyphens do not matter.</param>
internal sealed record Unit(string Name, double ToModel, ImmutableArray<string> Spellings);

/// <summary>
/// The units of the files and their exact factors. 1 in = 25.4 mm by definition (1959); torques as in <see cref="TorqueUnit"/>.
/// </summary>
internal static class Units
{
    private const double DegreeRad = Math.PI / 180;

    private static readonly ImmutableArray<Unit> Lengths =
    [
        new("mm", 1, ["millimetre", "millimeter", "millimetres", "millimeters"]),
        new("cm", 10, []),
        new("m", 1000, []),
        new("in", 25.4, ["inch", "inches", "\"", "\u2033", "\u201D"]),
        new("ft", 304.8, ["foot", "feet", "'", "\u2032"]),
    ];

    private static readonly ImmutableArray<Unit> Angles =
    [
        new("°", DegreeRad, ["deg", "degree", "degrees"]),
        new("rad", 1, ["radian", "radians"]),
    ];

    private static readonly ImmutableArray<Unit> Torques =
    [
        .. TorqueUnit.All.Select(unit => new Unit(unit.Symbol, unit.NewtonMetres, unit.Spellings)),
    ];

    private static readonly ImmutableArray<Unit> TorqueRates =
    [
        new("N·m/°", 1 / DegreeRad, ["N·m/deg", "N·m/degree"]),
        new("N·m/rad", 1, []),
    ];

    private static readonly ImmutableArray<Unit> Fractions = [new("%", 0.01, ["percent"])];

    private static readonly ImmutableArray<Unit> TurnUnits = [new("turns", 1, ["turn"])];

    /// <summary>The units that a quantity of that kind may be written in; the first is that of a bare number, except for fractions.</summary>
    internal static ImmutableArray<Unit> Of(Dimension dimension) =>
        dimension switch
        {
            Dimension.Length => Lengths,
            Dimension.Angle => Angles,
            Dimension.Torque => Torques,
            Dimension.TorqueRate => TorqueRates,
            Dimension.Fraction => Fractions,
            Dimension.Turns => TurnUnits,
            _ => throw new ArgumentOutOfRangeException(nameof(dimension)),
        };

    /// <summary>Factor from a bare number to the model's unit.</summary>
    internal static double BareToModel(Dimension dimension) =>
        dimension == Dimension.Fraction ? 1 : Of(dimension)[0].ToModel;

    /// <summary>The unit with that spelling, or null.</summary>
    internal static Unit? Find(Dimension dimension, string written)
    {
        var folded = Fold(written);
        return Of(dimension)
            .FirstOrDefault(u => Fold(u.Name) == folded || u.Spellings.Any(s => Fold(s) == folded));
    }

    /// <summary>The value in the model's unit. A percentage is divided, so that 0.3 % is exactly 0.003.</summary>
    internal static double ToModel(double value, Unit unit) =>
        unit.Name == "%" ? value / 100 : value * unit.ToModel;

    /// <summary>One spelling for all the ways in which a product of units is written.</summary>
    private static string Fold(string unit) =>
        string.Concat(unit.Where(c => c is not (' ' or '·' or '⋅' or '*' or '-' or '.')))
            .ToLowerInvariant();
}
