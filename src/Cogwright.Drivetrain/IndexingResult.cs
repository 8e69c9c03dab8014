using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>One cog with the guide pulley beside it, at the best offset. Lateral positions are outboard of the centre plane (mm).</summary>
/// <param name="CogIndex">Index of the cog, 0 for the smallest.</param>
/// <param name="Teeth">Teeth of the cog.</param>
/// <param name="WantedMm">Where the pulley should stand.</param>
/// <param name="PulleyMm">Where it stands.</param>
/// <param name="ClickMm">How far the click that ends here moves it, the way the clicks go (mm), or null for the cog at rest.</param>
/// <param name="ClickErrorMm">Error of that click alone (mm, outboard positive; <see cref="IndexingResult.IsTooLittle"/> says which that is), or null for the cog at rest.</param>
/// <param name="CumulativeErrorMm">Error of all clicks up to here, with the cog at rest exact (mm, outboard positive).</param>
/// <param name="ResidualMm">Where the pulley is less where it should be (mm, outboard positive).</param>
/// <param name="IsFine">Whether the residual lies within the limit.</param>
public readonly record struct CogIndexing(
    int CogIndex,
    int Teeth,
    double WantedMm,
    double PulleyMm,
    double? ClickMm,
    double? ClickErrorMm,
    double CumulativeErrorMm,
    double ResidualMm,
    bool IsFine
);

/// <summary>The index of all cogs at the best offset. Immutable.</summary>
public sealed record IndexingResult
{
    /// <summary>The cogs that the shifter reaches, smallest first.</summary>
    public required ImmutableArray<CogIndexing> Cogs { get; init; }

    /// <summary>
    /// The best offset (mm, outboard positive): of a cable from where the cog at rest is exact, of programmed positions
    /// from offset 0.
    /// </summary>
    public required double BestOffsetMm { get; init; }

    /// <summary>The largest residual at the best offset (mm, never negative); no other offset has a smaller one.</summary>
    public required double GreatestResidualMm { get; init; }

    /// <summary>Largest residual that is fine (mm): half of the guide pulley's float, or the usual limit.</summary>
    public required double LimitMm { get; init; }

    /// <summary>Whether the limit is the part's own float.</summary>
    public bool LimitIsFloat { get; init; }

    /// <summary>Whether a cable moves the pulley.</summary>
    public bool IsCable { get; init; }

    /// <summary>Whether the clicks go outboard, from the largest cog on: a cable derailleur that rests inboard.</summary>
    public bool ClicksGoOutboard { get; init; }

    /// <summary>Whether an error of clicks (mm, outboard positive) means that they move the pulley too little, or too far.</summary>
    public bool IsTooLittle(double errorMm) => errorMm > 0 != ClicksGoOutboard;

    /// <summary>Cogs beyond the last click.</summary>
    public int CogsNotReached { get; init; }

    /// <summary>Clicks beyond the last cog.</summary>
    public int ClicksUnused { get; init; }

    /// <summary>Error of every click alike (mm per click, outboard positive): a pull, ratio or spacing that does not belong here.</summary>
    public double SteadyErrorMm { get; init; }

    /// <summary>The largest residual that would be left without the steady error (mm): single clicks, spacers, a bent hanger.</summary>
    public double LeftWithoutSteadyMm { get; init; }

    /// <summary>Whether every cog that there is has a residual within the limit.</summary>
    public bool AllFine => CogsNotReached == 0 && GreatestResidualMm <= LimitMm;

    /// <summary>Whether the steady error is what spoils it: without it all would be fine.</summary>
    public bool IsSteady => GreatestResidualMm > LimitMm && LeftWithoutSteadyMm <= LimitMm;

    /// <summary>The click with the largest error (index of the cog it ends on), or null with one cog.</summary>
    public int? WorstClick =>
        Cogs.Length < 2
            ? null
            : Cogs.Where(cog => cog.ClickErrorMm is not null)
                .MaxBy(cog => Math.Abs(cog.ClickErrorMm!.Value))
                .CogIndex;

    /// <summary>The cog from which a click leads to a cog (their indices).</summary>
    public int ClickFrom(int cogIndex) => ClicksGoOutboard ? cogIndex + 1 : cogIndex - 1;
}
