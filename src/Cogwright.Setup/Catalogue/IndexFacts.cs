using System.Collections.Immutable;

namespace Cogwright.Setup.Catalogue;

/// <summary>One cog with the guide pulley beside it (mm; lateral positions outboard of the centre plane).</summary>
/// <param name="CogTeeth">Teeth of the cog.</param>
/// <param name="WantedMm">Where the pulley should stand.</param>
/// <param name="PulleyMm">Where it stands at the best offset.</param>
/// <param name="ClickMm">How far the click from the next smaller cog moves it, or null for the smallest.</param>
/// <param name="ClickErrorMm">Error of that click alone (outboard positive: it moves too little), or null for the smallest.</param>
/// <param name="CumulativeErrorMm">Error of all clicks up to here.</param>
/// <param name="ResidualMm">Where the pulley is less where it should be, at the best offset.</param>
/// <param name="IsFine">Whether the residual lies within the limit.</param>
public sealed record CogIndex(
    int CogTeeth,
    double WantedMm,
    double PulleyMm,
    double? ClickMm,
    double? ClickErrorMm,
    double CumulativeErrorMm,
    double ResidualMm,
    bool IsFine
);

/// <summary>The index of a bike as the model finds it. Immutable.</summary>
public sealed record IndexFacts
{
    /// <summary>The cogs that the shifter reaches, smallest first.</summary>
    public required ImmutableArray<CogIndex> Cogs { get; init; }

    /// <summary>Whether a cable moves the pulley, or programmed positions.</summary>
    public required bool IsCable { get; init; }

    /// <summary>Whether the clicks go outboard, from the largest cog on: a cable derailleur that rests inboard.</summary>
    public bool ClicksGoOutboard { get; init; }

    /// <summary>Whether an error of clicks (mm, outboard positive) means that they move the pulley too little, or too far.</summary>
    public bool IsTooLittle(double errorMm) => errorMm > 0 != ClicksGoOutboard;

    /// <summary>The best offset (mm, outboard positive): of a cable from where the cog at rest is exact, else from offset 0.</summary>
    public required double BestOffsetMm { get; init; }

    /// <summary>The largest residual at the best offset (mm).</summary>
    public required double GreatestResidualMm { get; init; }

    /// <summary>Largest residual that is fine (mm).</summary>
    public required double LimitMm { get; init; }

    /// <summary>Whether the limit is half of the guide pulley's float, or the usual one.</summary>
    public bool LimitIsFloat { get; init; }

    /// <summary>Whether every cog of the bike is fine.</summary>
    public bool AllFine { get; init; }

    /// <summary>Cogs beyond the last click.</summary>
    public int CogsNotReached { get; init; }

    /// <summary>Clicks beyond the last cog.</summary>
    public int ClicksUnused { get; init; }

    /// <summary>Error of every click alike (mm per click, outboard positive).</summary>
    public double SteadyErrorMm { get; init; }

    /// <summary>Whether that steady error is what spoils it.</summary>
    public bool IsSteady { get; init; }

    /// <summary>The click with the largest error: the cogs it leads from and to, or null with one cog.</summary>
    public (int From, int To)? WorstClick { get; init; }

    /// <summary>Error of that click (mm, outboard positive).</summary>
    public double WorstClickErrorMm { get; init; }

    /// <summary>What to do for the best offset, or null when it cannot be told (a cable that stands anywhere).</summary>
    public AdjusterAdvice? Advice { get; init; }
}

/// <summary>Where the guide pulley was read beside one cog (mm, outboard positive).</summary>
/// <param name="CogTeeth">Teeth of the cog.</param>
/// <param name="UpMm">After a shift to a larger cog, or null.</param>
/// <param name="DownMm">After a shift to a smaller cog, or null.</param>
/// <param name="DeadBandMm">The difference, positive where the pulley lags, or null unless both were read.</param>
/// <param name="MiddleMm">The index without friction.</param>
/// <param name="AfterMm">What it will be after the advised correction.</param>
public sealed record CogRead(
    int CogTeeth,
    double? UpMm,
    double? DownMm,
    double? DeadBandMm,
    double MiddleMm,
    double? AfterMm
);

/// <summary>The index as it was read. Immutable.</summary>
/// <param name="Cogs">The cogs that were read, smallest first.</param>
/// <param name="BestMoveMm">How far to move the pulley for the smallest largest residual (mm, outboard positive).</param>
/// <param name="GreatestAfterMm">The largest residual after exactly that move (mm).</param>
/// <param name="LimitMm">Largest residual that is fine (mm).</param>
/// <param name="WorstBand">The cog with the largest dead band, or null when none was read both ways.</param>
/// <param name="BandLimitMm">Largest dead band that is fine (mm at the pulley).</param>
/// <param name="Advice">What to do.</param>
public sealed record IndexRead(
    ImmutableArray<CogRead> Cogs,
    double BestMoveMm,
    double GreatestAfterMm,
    double LimitMm,
    CogRead? WorstBand,
    double BandLimitMm,
    AdjusterAdvice Advice
);
