using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>Readings that cannot be.</summary>
internal static class ReadingDoubts
{
    /// <summary>Why a reading cannot be, as a question to the one who took it; null when it can.</summary>
    internal static string? Impossible(
        QuantityCatalogue catalogue,
        Target target,
        TakenReading taken
    )
    {
        var value = taken.Reading.Value;
        if (target.Lower is null && target.Upper is null)
        {
            return target.Unit.Length == 0
                ? Texts.Get("reading.noNumber", target.Title)
                : Texts.Get("reading.noLimits", target.Title);
        }
        if (value < 0)
        {
            return Texts.Get("reading.negative", value, target.Unit);
        }
        return target.Id switch
        {
            TargetNames.Gap when value > GapBounds.MostMm => Texts.Get(
                "reading.gapTooLarge",
                value
            ),
            TargetNames.ChainPitches when value != Math.Floor(value) => Texts.Get(
                "reading.wholePitches",
                value
            ),
            TargetNames.ChainPitches when value % 2 != 0 && !catalogue.Chain.HalfLink => Texts.Get(
                "reading.oddPitches",
                value
            ),
            _ when target.Unit == "%" && value > 100 => Texts.Get("reading.percent", value),
            _ => null,
        };
    }
}
