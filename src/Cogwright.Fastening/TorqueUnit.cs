using System.Collections.Immutable;

namespace Cogwright.Fastening;

/// <summary>
/// A unit in which torques are printed. The factors are exact by definition: 1 in = 25.4 mm and 1 lb = 0.45359237 kg
/// (international yard and pound agreement, 1959), standard gravity 9.80665 m/s² (CGPM 1901). Immutable.
/// </summary>
public sealed record TorqueUnit
{
    private const double PoundForceN = 0.45359237 * 9.80665;

    private TorqueUnit(string symbol, double newtonMetres, params ImmutableArray<string> spellings)
    {
        Symbol = symbol;
        NewtonMetres = newtonMetres;
        Spellings = spellings;
    }

    /// <summary>N·m, the unit of every torque in the program.</summary>
    public static TorqueUnit NewtonMetre { get; } = new("N·m", 1);

    /// <summary>lbf·in: 0.112 984 829 027 616 7 N·m.</summary>
    public static TorqueUnit PoundForceInch { get; } =
        new("lbf·in", PoundForceN * 0.0254, "lb·in", "in·lb", "in·lbf", "lbs·in", "in·lbs");

    /// <summary>lbf·ft: 1.355 817 948 331 400 4 N·m.</summary>
    public static TorqueUnit PoundForceFoot { get; } =
        new("lbf·ft", PoundForceN * 0.3048, "lb·ft", "ft·lb", "ft·lbf", "lbs·ft", "ft·lbs");

    /// <summary>kgf·cm: 0.098 066 5 N·m.</summary>
    public static TorqueUnit KilogramForceCentimetre { get; } =
        new("kgf·cm", 9.80665 * 0.01, "kg·cm", "cm·kg", "cm·kgf", "kp·cm");

    /// <summary>Every unit, N·m first.</summary>
    public static ImmutableArray<TorqueUnit> All { get; } =
    [NewtonMetre, PoundForceInch, PoundForceFoot, KilogramForceCentimetre];

    /// <summary>How it is written here.</summary>
    public string Symbol { get; }

    /// <summary>What one of it is (N·m), above 0.</summary>
    public double NewtonMetres { get; }

    /// <summary>Other ways in which it is written.</summary>
    public ImmutableArray<string> Spellings { get; }

    /// <summary>The unit that is written so, or null; letter case, spaces, dots, stars and hyphens do not matter.</summary>
    public static TorqueUnit? Find(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var folded = Fold(written);
        foreach (var unit in All)
        {
            if (Fold(unit.Symbol) == folded || unit.Spellings.Any(s => Fold(s) == folded))
            {
                return unit;
            }
        }
        return null;
    }

    /// <summary>A value in this unit as N·m.</summary>
    public double ToNm(double value) => value * NewtonMetres;

    /// <summary>N·m as a value in this unit.</summary>
    public double FromNm(double valueNm) => valueNm / NewtonMetres;

    private static string Fold(string written) =>
        string.Concat(written.Where(c => c is not (' ' or '·' or '⋅' or '*' or '-' or '.')))
            .ToLowerInvariant();
}
