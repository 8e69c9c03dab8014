using Cogwright.Files;

namespace Cogwright.Web.Quick;

/// <summary>A length as somebody reads it off a tape.</summary>
/// <param name="Mm">The length (mm).</param>
/// <param name="Unit">The unit it was taken in, as files write it.</param>
/// <param name="IsGuessed">Whether the unit was told by the size of the number alone.</param>
internal readonly record struct TapeText(double Mm, string Unit, bool IsGuessed)
{
    /// <summary>
    /// Takes 430, 43.0 cm, 16,9 in or 16 7/8". A bare number is taken in the unit in which a chainstay would read like
    /// that: no chainstay is both.
    /// </summary>
    /// <returns>Null when it is no length.</returns>
    internal static TapeText? Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (FieldTyping.LengthOf(text) is not { Value: > 0 } typed)
        {
            return null;
        }
        var isBare = typed.Unit.Length == 0;
        var unit =
            !isBare ? typed.Unit
            : typed.Value is > 10 and < 26 ? "in"
            : typed.Value is >= 30 and < 80 ? "cm"
            : "mm";
        var mm = FieldTyping.LengthMm((typed.Value, unit));
        return double.IsFinite(mm) ? new(mm, unit, isBare && unit != "mm") : null;
    }
}
