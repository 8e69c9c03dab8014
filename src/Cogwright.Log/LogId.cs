using System.Globalization;

namespace Cogwright.Log;

/// <summary>One log (a job): 128 bits, ordered by their bytes.</summary>
/// <param name="Value">The bits.</param>
public readonly record struct LogId(Guid Value) : IComparable<LogId>
{
    /// <inheritdoc/>
    public int CompareTo(LogId other) => Value.CompareTo(other.Value);

    /// <summary>Whether one stands before the other.</summary>
    public static bool operator <(LogId left, LogId right) => left.CompareTo(right) < 0;

    /// <summary>Whether one stands after the other.</summary>
    public static bool operator >(LogId left, LogId right) => left.CompareTo(right) > 0;

    /// <summary>Whether one does not stand after the other.</summary>
    public static bool operator <=(LogId left, LogId right) => left.CompareTo(right) <= 0;

    /// <summary>Whether one does not stand before the other.</summary>
    public static bool operator >=(LogId left, LogId right) => left.CompareTo(right) >= 0;

    /// <summary>The usual 36 signs, small letters.</summary>
    public override string ToString() => Value.ToString("D", CultureInfo.InvariantCulture);
}
