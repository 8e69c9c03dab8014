using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>
/// The space in which the fit searches: each free parameter as its distance from the prior in prior deviations, so
/// that the prior is a unit ball. Turns a point of it into a spec.
/// </summary>
internal sealed class BenchSpace
{
    /// <summary>Number of parameters, free or held.</summary>
    internal const int Count = (int)BenchParameter.ScrewTurn + 1;

    private readonly double[] mean = new double[Count];
    private readonly double[] deviation = new double[Count];
    private readonly double tensionDirectionRad;

    internal BenchSpace(BenchPriors priors)
    {
        Prior = priors.Spec;
        var derailleur = Prior.RearDerailleur!;
        var cage = derailleur.Cage;
        tensionDirectionRad = Direction(cage.Tension.OffsetMm);
        var screw = derailleur.BodyAngleScrew;
        var turn =
            (screw?.ThreadPitchMm ?? BenchPriors.UsualThreadPitchMm)
            / (screw?.LeverRadiusMm ?? BenchPriors.UsualLeverRadiusMm);
        var largest = Prior.Cogs.Teeth.Length - 1;

        Set(BenchParameter.Chainstay, Prior.Frame.ChainstayMm, BenchPriors.ChainstayMm);
        Set(BenchParameter.HangerX, Prior.Hanger!.OffsetMm.X, BenchPriors.HangerMm);
        Set(BenchParameter.HangerY, Prior.Hanger.OffsetMm.Y, BenchPriors.HangerMm);
        Set(BenchParameter.UpperPivotX, derailleur.UpperPivotMm.X, BenchPriors.UpperPivotMm);
        Set(BenchParameter.UpperPivotY, derailleur.UpperPivotMm.Y, BenchPriors.UpperPivotMm);
        Set(BenchParameter.LinkAngle, derailleur.LinkAngleRad, BenchPriors.LinkAngleRad);
        Set(BenchParameter.Slant, derailleur.SlantRad, BenchPriors.SlantRad);
        Set(
            BenchParameter.GuideLateralAtZero,
            derailleur.GuideLateralAtZeroMm,
            BenchPriors.GuideLateralMm
        );
        Set(BenchParameter.LinkLength, derailleur.LinkLengthMm, BenchPriors.LinkLengthMm);
        Set(BenchParameter.GuideArm, cage.Guide.OffsetMm.Length, BenchPriors.GuideArmMm);
        Set(BenchParameter.TensionArm, cage.Tension.OffsetMm.Length, BenchPriors.TensionArmMm);
        Set(
            BenchParameter.GuideAngle,
            Math.IEEERemainder(Direction(cage.Guide.OffsetMm) - tensionDirectionRad, Math.Tau),
            BenchPriors.GuideAngleRad
        );
        Set(BenchParameter.RearStop, cage.RearStopRad, BenchPriors.StopRad);
        Set(BenchParameter.FrontStop, cage.FrontStopRad, BenchPriors.StopRad);
        Set(BenchParameter.CogSpacing, Prior.Cogs.SpacingMm, BenchPriors.CogSpacingMm);
        SetTip(BenchParameter.SmallestCogTip, Prior.Cogs.Teeth[0], Prior.Cogs.TipDiameterMm(0));
        SetTip(
            BenchParameter.LargestCogTip,
            Prior.Cogs.Teeth[largest],
            Prior.Cogs.TipDiameterMm(largest)
        );
        SetTip(BenchParameter.GuideTip, cage.Guide.Teeth, cage.Guide.TipDiameterMm);
        Set(
            BenchParameter.ScrewTurn,
            UsualSign(Prior) * turn,
            BenchPriors.ScrewTurnRelative * turn
        );
        Free =
        [
            .. Enum.GetValues<BenchParameter>()
                .Where(p => !priors.Held.Contains(p) && deviation[(int)p] > 0),
        ];
    }

    /// <summary>The spec that the priors are taken from.</summary>
    internal DrivetrainSpec Prior { get; }

    /// <summary>The parameters that the fit may move, in the order of its coordinates.</summary>
    internal ImmutableArray<BenchParameter> Free { get; }

    /// <summary>The prior's value (mm or rad).</summary>
    internal double Mean(BenchParameter parameter) => mean[(int)parameter];

    /// <summary>The prior's standard deviation (mm or rad).</summary>
    internal double Deviation(BenchParameter parameter) => deviation[(int)parameter];

    /// <summary>The value of a parameter at a point (mm or rad).</summary>
    internal double Value(ReadOnlySpan<double> y, BenchParameter parameter)
    {
        var place = Free.IndexOf(parameter);
        return Mean(parameter) + (place < 0 ? 0 : y[place] * Deviation(parameter));
    }

    /// <summary>The spec at a point, or null where no mechanism can be: a length that is not positive.</summary>
    /// <param name="y">The point.</param>
    /// <param name="turns">Turns of the body-angle screw away from the spec's own body angle, clockwise positive.</param>
    /// <param name="bodyAngleRad">The body angle after those turns (rad).</param>
    internal DrivetrainSpec? At(ReadOnlySpan<double> y, double turns, out double bodyAngleRad)
    {
        Span<double> p = stackalloc double[Count];
        mean.CopyTo(p);
        for (var i = 0; i < Free.Length; i++)
        {
            p[(int)Free[i]] += y[i] * deviation[(int)Free[i]];
        }
        var derailleur = Prior.RearDerailleur!;
        bodyAngleRad = derailleur.BodyAngleRad + (turns * p[(int)BenchParameter.ScrewTurn]);
        var chainstay = p[(int)BenchParameter.Chainstay];
        var length = p[(int)BenchParameter.LinkLength];
        var tension = p[(int)BenchParameter.TensionArm];
        if (
            !(
                chainstay > Math.Abs(Prior.Frame.BottomBracketDropMm)
                && length > 0
                && tension > 0
                && p[(int)BenchParameter.GuideArm] >= 0
            )
        )
        {
            return null;
        }
        var guideDirection = tensionDirectionRad + p[(int)BenchParameter.GuideAngle];
        var cage = derailleur.Cage;
        return Prior with
        {
            Frame = Prior.Frame with { ChainstayMm = chainstay },
            Hanger = new(new(p[(int)BenchParameter.HangerX], p[(int)BenchParameter.HangerY])),
            Cogs = Prior.Cogs with
            {
                SpacingMm = p[(int)BenchParameter.CogSpacing],
                TipDiametersMm = CogTips(
                    p[(int)BenchParameter.SmallestCogTip],
                    p[(int)BenchParameter.LargestCogTip]
                ),
            },
            RearDerailleur = derailleur with
            {
                UpperPivotMm = new(
                    p[(int)BenchParameter.UpperPivotX],
                    p[(int)BenchParameter.UpperPivotY]
                ),
                LinkAngleRad = p[(int)BenchParameter.LinkAngle],
                SlantRad = p[(int)BenchParameter.Slant],
                GuideLateralAtZeroMm = p[(int)BenchParameter.GuideLateralAtZero],
                LinkLengthMm = length,
                Cage = cage with
                {
                    Guide = cage.Guide with
                    {
                        OffsetMm = new Point(p[(int)BenchParameter.GuideArm], 0).Turned(
                            guideDirection
                        ),
                        TipDiameterMm =
                            cage.Guide.TipDiameterMm
                            ?? (2 * Sprocket.TipRadiusMm(cage.Guide.Teeth))
                                + p[(int)BenchParameter.GuideTip],
                    },
                    Tension = cage.Tension with
                    {
                        OffsetMm = new Point(tension, 0).Turned(tensionDirectionRad),
                    },
                    RearStopRad = p[(int)BenchParameter.RearStop],
                    FrontStopRad = p[(int)BenchParameter.FrontStop],
                },
            },
        };
    }

    /// <summary>
    /// Variance of a cog's own tip radius that no parameter describes (mm²): none at the end cogs, which are parameters
    /// of their own, and none where the tip is stated.
    /// </summary>
    internal double TipScatterVariance(int cog) =>
        cog == 0 || cog == Prior.Cogs.Teeth.Length - 1 || Prior.Cogs.TipDiameterMm(cog) is not null
            ? 0
            : BenchPriors.CogTipScatterMm * BenchPriors.CogTipScatterMm;

    /// <summary>Standard deviation of a reading from the model (mm): its own, and for a gap that of the cog's tip.</summary>
    internal double DeviationMm(in BenchReading reading)
    {
        var cog = Prior.Cogs.Teeth.IndexOf(reading.Place.CogTeeth);
        return reading.Place.Distance == BenchDistance.Gap && cog >= 0
            ? Math.Sqrt((reading.UncertaintyMm * reading.UncertaintyMm) + TipScatterVariance(cog))
            : reading.UncertaintyMm;
    }

    /// <summary>Tips of all cogs: as stated, else ISO 606's mean and what lies between the two end cogs' excess.</summary>
    private ImmutableArray<double?> CogTips(double smallestExcess, double largestExcess)
    {
        var teeth = Prior.Cogs.Teeth;
        var tips = ImmutableArray.CreateBuilder<double?>(teeth.Length);
        for (var i = 0; i < teeth.Length; i++)
        {
            var part = teeth.Length == 1 ? 0 : (double)i / (teeth.Length - 1);
            tips.Add(
                Prior.Cogs.TipDiameterMm(i)
                    ?? (2 * Sprocket.TipRadiusMm(teeth[i]))
                        + smallestExcess
                        + (part * (largestExcess - smallestExcess))
            );
        }
        return tips.MoveToImmutable();
    }

    /// <summary>Whether a clockwise turn grows the body angle, as the spec's screw and the prior's mechanism say.</summary>
    private static double UsualSign(DrivetrainSpec spec)
    {
        var derailleur = spec.RearDerailleur!;
        var clockwiseWidens = derailleur.BodyAngleScrew?.ClockwiseWidensGap ?? true;
        return clockwiseWidens == WidensWithBodyAngle(spec) ? 1 : -1;
    }

    /// <summary>
    /// Whether the gap on the smallest ring and the largest cog grows with the body angle; without a chain, whether
    /// the pivot there moves away from the axle, which the gap follows.
    /// </summary>
    internal static bool WidensWithBodyAngle(DrivetrainSpec spec)
    {
        const double h = 1e-4;
        var body = spec.RearDerailleur!.BodyAngleRad;
        var cog = spec.Cogs.Teeth.Length - 1;
        var gap = new BenchPlace(
            BenchDistance.Gap,
            spec.Cogs.Teeth[cog],
            spec.Rings.Min(ring => ring.Teeth)
        );
        if (
            BenchModel.CanBeBuilt(spec)
            && BenchModel.CheckedReadingMm(spec, body + h, gap) is { } wide
            && BenchModel.CheckedReadingMm(spec, body - h, gap) is { } narrow
        )
        {
            return wide > narrow;
        }
        var axle = spec.Frame.Axle;
        return (BenchModel.CagePivot(spec, cog, body + h) - axle).Length
            > (BenchModel.CagePivot(spec, cog, body - h) - axle).Length;
    }

    private void Set(BenchParameter parameter, double value, double standardDeviation)
    {
        mean[(int)parameter] = value;
        deviation[(int)parameter] = standardDeviation;
    }

    /// <summary>Rectangular between ISO 606's limits when not measured; 2 because the parameter is a diameter.</summary>
    private void SetTip(BenchParameter parameter, int teeth, double? measuredMm) =>
        Set(parameter, 0, 2 * Sprocket.TipRadiusHalfSpreadMm(teeth, measuredMm) / Math.Sqrt(3));

    private static double Direction(Point offset) => Math.Atan2(offset.Y, offset.X);
}
