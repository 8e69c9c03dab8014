using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>What is wanted of a front setting.</summary>
/// <param name="LowerMm">Least acceptable (mm).</param>
/// <param name="UpperMm">Greatest acceptable (mm).</param>
/// <param name="StatedBySpec">Whether the part's sheet says it; else it is common practice.</param>
public sealed record FrontWanted(double LowerMm, double UpperMm, bool StatedBySpec);

/// <summary>What to do about a front setting.</summary>
/// <param name="Adjustment">The turns of its screw, or null when the cage is moved at its clamp.</param>
/// <param name="ToDo">The same in words.</param>
/// <param name="After">What every gear will then have, one line each; empty when that is not known.</param>
internal sealed record FrontAdvice(
    AdjusterAdvice? Adjustment,
    string ToDo,
    ImmutableArray<string> After
);

/// <summary>What the model knows of the front derailleur. Immutable.</summary>
public sealed class FrontFacts
{
    private readonly GearTable table;

    private FrontFacts(GearTable table, FrontReport report, bool restsOnAssumed)
    {
        this.table = table;
        var derailleur = table.Spec.FrontDerailleur!;
        OuterGap = Wanted(derailleur, FrontSettingKind.OuterGap, derailleur.WantedOuterGap);
        InnerGap = Wanted(derailleur, FrontSettingKind.InnerGap, derailleur.WantedInnerGap);
        Height = Wanted(derailleur, FrontSettingKind.Height, derailleur.WantedHeight);
        var used = report.Gears.Where(gear => !gear.NotUsed && gear.Rubs).ToArray();
        TrimClears = Explanation.List(used.Where(g => g.TrimClears is true).Select(g => g.Gear));
        NothingClears = Explanation.List(
            used.Where(g => g.TrimClears is false).Select(g => g.Gear)
        );
        RestsOnAssumed = restsOnAssumed;
    }

    /// <summary>Wanted between chain and outer plate on the large ring.</summary>
    public FrontWanted OuterGap { get; }

    /// <summary>Wanted between chain and inner plate on the small ring.</summary>
    public FrontWanted InnerGap { get; }

    /// <summary>Wanted height above the tallest teeth.</summary>
    public FrontWanted Height { get; }

    /// <summary>The gears that rub until trimmed, as a person lists them; empty when there is none. Gears not to be used are left out.</summary>
    public string TrimClears { get; }

    /// <summary>The gears that rub in every position, as a person lists them; empty when there is none. Gears not to be used are left out.</summary>
    public string NothingClears { get; }

    /// <summary>Whether the room in the cage was computed from values that nobody measured or stated.</summary>
    public bool RestsOnAssumed { get; }

    internal static FrontFacts? Of(GearTable table, AssumedDependence assumed) =>
        FrontClearances.Of(table) is { } report
            ? new(
                table,
                report,
                assumed.FrontCage || report.Settings.Any(setting => !setting.IsGiven)
            )
            : null;

    /// <summary>What to do after a reading of a front setting, and what every gear will then have; null for another quantity.</summary>
    /// <param name="taken">The reading; a gap without a gear is taken as read in the setting's own.</param>
    /// <param name="before">The readings before it, from which a turn of its screw is learnt.</param>
    internal FrontAdvice? Advice(TakenReading taken, ImmutableArray<TakenReading> before)
    {
        FrontSettingKind? kind = taken.Quantity switch
        {
            QuantityNames.FrontOuterGap => FrontSettingKind.OuterGap,
            QuantityNames.FrontInnerGap => FrontSettingKind.InnerGap,
            QuantityNames.FrontHeight => FrontSettingKind.Height,
            _ => null,
        };
        if (
            kind is not { } setting
            || FrontCorrector.Correct(
                table,
                setting,
                taken.Reading.Value,
                learnt: AdjusterTrial
                    .Of(before, taken, setting is FrontSettingKind.InnerGap ? -1 : 1)
                    ?.Learnt,
                gear: taken.Gear is { } at ? new Gear(at.RingTeeth, at.CogTeeth) : null
            )
                is not { } correction
        )
        {
            return null;
        }
        var place = setting switch
        {
            FrontSettingKind.OuterGap => AdjusterPlace.FrontOutboardStop,
            FrontSettingKind.InnerGap => AdjusterPlace.FrontInboardStop,
            _ => AdjusterPlace.FrontHeight,
        };
        return new(
            correction.Turning is { } turning
                ? QuantityCatalogue.Advice(
                    turning,
                    place,
                    turning.Adjuster ?? QuantityCatalogue.Usual(turning.Moves)
                )
                : null,
            FrontWords.Of(correction),
            [.. (correction.After?.Gears ?? []).Select(FrontWords.Of)]
        );
    }

    private static FrontWanted Wanted(
        FrontDerailleur derailleur,
        FrontSettingKind kind,
        SettingRange? stated
    )
    {
        var range = derailleur.Wanted(kind);
        return new(range.LowerMm, range.UpperMm, stated is not null);
    }
}
