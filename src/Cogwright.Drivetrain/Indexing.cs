using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>
/// Where the guide pulley stands beside each cog. A click moves it by cable pull × shift ratio; motor-driven, it goes to a
/// programmed position. The residual is where the pulley is less where the cog is; one offset moves all of them alike, and
/// the best is the one that makes the largest residual smallest: half way between the extremes.
/// </summary>
public static class Indexing
{
    /// <summary>
    /// Residual that is taken for fine when the guide pulley's float is unknown (mm). Common practice: one spacer wrong by
    /// 0.21 mm was enough to spoil one pair of cogs.
    /// </summary>
    public const double UsualLimitMm = 0.2;

    /// <summary>Residuals of all cogs that the shifter reaches, or null when the spec does not say what moves the pulley.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="guideShiftMm">
    /// What moves the pulley beside each cog besides, such as a bent hanger (mm, outboard), smallest cog first; NaN or left
    /// out where nothing is known.
    /// </param>
    public static IndexingResult? Of(
        DrivetrainSpec spec,
        ImmutableArray<double> guideShiftMm = default
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (
            spec.RearDerailleur is not { } derailleur
            || spec.Shifting is not { } shifting
            || Positions(spec, derailleur, shifting) is not { Length: > 0 } positions
        )
        {
            return null;
        }
        var cogs = spec.Cogs.Teeth.Length;
        var reached = Math.Min(cogs, positions.Length);
        // In the order of the clicks, from the cog at rest on; motor-driven ones from the smallest.
        var order = new int[reached];
        var raw = new double[reached];
        for (var i = 0; i < reached; i++)
        {
            order[i] = shifting.IsProgrammed ? i : CableSense.CogAt(spec, i);
            raw[i] =
                positions[i] + Shift(guideShiftMm, order[i]) - Wanted(spec, derailleur, order[i]);
        }
        var best = BestOffsetMm(raw)!.Value;
        var limit = LimitMm(derailleur);
        return new()
        {
            Cogs =
            [
                .. Enumerable
                    .Range(0, reached)
                    .Select(i => new CogIndexing(
                        order[i],
                        spec.Cogs.Teeth[order[i]],
                        Wanted(spec, derailleur, order[i]),
                        positions[i] + Shift(guideShiftMm, order[i]) + best,
                        i == 0 ? null : Math.Abs(positions[i - 1] - positions[i]),
                        i == 0 ? null : raw[i] - raw[i - 1],
                        raw[i] - raw[0],
                        raw[i] + best,
                        Math.Abs(raw[i] + best) <= limit
                    ))
                    .OrderBy(cog => cog.CogIndex),
            ],
            BestOffsetMm = best,
            GreatestResidualMm = (raw.Max() - raw.Min()) / 2,
            LimitMm = limit,
            LimitIsFloat = derailleur.Cage.Guide.FloatMm is not null,
            CogsNotReached = cogs - reached,
            ClicksUnused = positions.Length - reached,
            IsCable = shifting.IsCable,
            ClicksGoOutboard = shifting.IsCable && CableSense.RestsInboard(spec),
            SteadyErrorMm = reached > 1 ? (raw[^1] - raw[0]) / (reached - 1) : 0,
            LeftWithoutSteadyMm = WithoutSteady(raw),
        };
    }

    /// <summary>Half of the guide pulley's float, else <see cref="UsualLimitMm"/> (mm).</summary>
    public static double LimitMm(RearDerailleur derailleur)
    {
        ArgumentNullException.ThrowIfNull(derailleur);
        return derailleur.Cage.Guide.FloatMm / 2 ?? UsualLimitMm;
    }

    /// <summary>The offset that makes the largest of some residuals smallest (mm), or null without any.</summary>
    public static double? BestOffsetMm(IReadOnlyCollection<double> residualsMm)
    {
        ArgumentNullException.ThrowIfNull(residualsMm);
        return residualsMm.Count == 0 ? null : -(residualsMm.Min() + residualsMm.Max()) / 2;
    }

    private static double Wanted(DrivetrainSpec spec, RearDerailleur derailleur, int cog) =>
        spec.Cogs.LateralMm(cog) + derailleur.IndexOffsetMm;

    private static double Shift(ImmutableArray<double> shiftMm, int cog) =>
        !shiftMm.IsDefault && cog < shiftMm.Length && double.IsFinite(shiftMm[cog])
            ? shiftMm[cog]
            : 0;

    /// <summary>Lateral positions of the pulley (mm, outboard), one per click stop from the cog at rest on; a cable is taken to be exact there.</summary>
    private static double[]? Positions(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        Shifting shifting
    )
    {
        if (shifting.IsProgrammed)
        {
            return [.. shifting.PositionsMm];
        }
        if (!shifting.IsCable)
        {
            return null;
        }
        var ratio = shifting.ShiftRatio!.Value;
        var positions = new double[shifting.PullMm.Length + 1];
        positions[0] = Wanted(spec, derailleur, CableSense.CogAt(spec, 0));
        var sense = CableSense.OutboardPerPull(spec);
        for (var i = 1; i < positions.Length; i++)
        {
            positions[i] = positions[i - 1] + (sense * shifting.PullMm[i - 1] * ratio);
        }
        return positions;
    }

    /// <summary>The largest residual at the best offset if every click were wrong by the same amount less (mm).</summary>
    private static double WithoutSteady(double[] raw)
    {
        if (raw.Length < 2)
        {
            return 0;
        }
        // The straight line through the first and the last: an error that grows evenly, click by click.
        var steady = (raw[^1] - raw[0]) / (raw.Length - 1);
        var left = raw.Select((r, i) => r - (i * steady)).ToList();
        return (left.Max() - left.Min()) / 2;
    }
}
