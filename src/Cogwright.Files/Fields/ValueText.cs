using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;

namespace Cogwright.Files.Fields;

/// <summary>Writes values: for people with their unit and rounded, for files exactly.</summary>
internal static class ValueText
{
    /// <summary>The value as a person would write it, to a thousandth.</summary>
    internal static string ForPeople(object value, Shape shape) =>
        value switch
        {
            Point p => $"({Rounded(p.X)}, {Rounded(p.Y)}) mm",
            double number when shape is QuantityShape quantity => ForPeople(
                number,
                quantity.Dimension
            ),
            double number => Rounded(number),
            ImmutableArray<int> teeth => string.Join('-', teeth),
            _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
        };

    private static string ForPeople(double value, Dimension dimension) =>
        dimension switch
        {
            Dimension.Length => Rounded(value) + " mm",
            Dimension.Angle => Rounded(value * 180 / Math.PI) + " °",
            Dimension.Torque => Rounded(value) + " N·m",
            Dimension.TorqueRate => Rounded(value) + " N·m/rad",
            Dimension.Fraction => Rounded(value * 100) + " %",
            Dimension.Turns => Rounded(value),
            _ => throw new ArgumentOutOfRangeException(nameof(dimension)),
        };

    private static string Rounded(double value) =>
        value.ToString("0.###", CultureInfo.InvariantCulture);
}
