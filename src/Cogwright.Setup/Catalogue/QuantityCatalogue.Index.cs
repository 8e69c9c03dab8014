using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <content>The index of every cog, and corrections of the rear adjusters.</content>
public sealed partial class QuantityCatalogue
{
    /// <summary>The index as the model finds it, or null when the spec does not say what shifts the derailleur.</summary>
    /// <param name="hanger">A round of the hanger gauge whose effect is added, or empty.</param>
    public IndexFacts? Index(ImmutableArray<ClockReading> hanger = default)
    {
        ImmutableArray<double> shift =
            !hanger.IsDefaultOrEmpty && table is not null && Fit(hanger).Plane is { } plane
                ? HangerEffect.Of(table, plane)?.PerCogMm(spec.Cogs.Teeth.Length) ?? []
                : [];
        if (Indexing.Of(spec, shift) is not { } result)
        {
            return null;
        }
        var worst = result.WorstClick;
        return new()
        {
            Cogs =
            [
                .. result.Cogs.Select(cog => new CogIndex(
                    cog.Teeth,
                    cog.WantedMm,
                    cog.PulleyMm,
                    cog.ClickMm,
                    cog.ClickErrorMm,
                    cog.CumulativeErrorMm,
                    cog.ResidualMm,
                    cog.IsFine
                )),
            ],
            IsCable = result.IsCable,
            BestOffsetMm = result.BestOffsetMm,
            GreatestResidualMm = result.GreatestResidualMm,
            LimitMm = result.LimitMm,
            LimitIsFloat = result.LimitIsFloat,
            AllFine = result.AllFine,
            CogsNotReached = result.CogsNotReached,
            ClicksUnused = result.ClicksUnused,
            SteadyErrorMm = result.SteadyErrorMm,
            IsSteady = result.IsSteady,
            WorstClick = worst is { } to
                ? (result.Cogs[to - 1].Teeth, result.Cogs[to].Teeth)
                : null,
            WorstClickErrorMm = worst is { } at ? result.Cogs[at].ClickErrorMm ?? 0 : 0,
            Advice = Adjust(
                result.IsCable ? AdjusterPlace.Cable : AdjusterPlace.OffsetStep,
                -result.BestOffsetMm,
                0
            ),
        };
    }

    /// <summary>The index as it was read, or null without a reading of a cog of this bike.</summary>
    /// <param name="readings">Teeth of the cog, where the pulley was read after a shift to a larger cog, and after one to a smaller (mm, outboard positive).</param>
    /// <param name="isMotor">Whether a motor moves the pulley, when the spec does not describe the shifting.</param>
    public IndexRead? ReadIndex(
        ImmutableArray<(int CogTeeth, double? UpMm, double? DownMm)> readings,
        bool isMotor
    )
    {
        if (spec.RearDerailleur is not { } derailleur)
        {
            return null;
        }
        var friction = ShiftFriction.Of(
            spec,
            [
                .. readings
                    .Select(r => new PulleyReading(
                        spec.Cogs.Teeth.IndexOf(r.CogTeeth),
                        r.UpMm,
                        r.DownMm
                    ))
                    .Where(r => r is { CogIndex: >= 0, MiddleMm: not null }),
            ]
        );
        var middles = friction.Readings.Select(r => r.MiddleMm!.Value).ToList();
        if (Indexing.BestOffsetMm(middles) is not { } best)
        {
            return null;
        }
        var advice = Adjust(
            spec.Shifting is { IsProgrammed: true } || isMotor
                ? AdjusterPlace.OffsetStep
                : AdjusterPlace.Cable,
            -best,
            0
        );
        var moved = advice.ExpectedMm - advice.ReadMm;
        var cogs = friction
            .Readings.Select(r => new CogRead(
                spec.Cogs.Teeth[r.CogIndex],
                r.AfterPullMm,
                r.AfterReleaseMm,
                r.DeadBandMm,
                r.MiddleMm!.Value,
                r.MiddleMm + moved
            ))
            .ToImmutableArray();
        return new(
            cogs,
            best,
            (middles.Max() - middles.Min()) / 2,
            Indexing.LimitMm(derailleur),
            friction.Worst is { } worst
                ? cogs.First(cog => cog.CogTeeth == spec.Cogs.Teeth[worst.CogIndex])
                : null,
            friction.LimitMm,
            advice
        );
    }

    /// <summary>What to do with an adjuster of the rear derailleur after a reading of what it moves.</summary>
    /// <param name="place">Which adjuster.</param>
    /// <param name="readMm">What was read (mm, outboard positive).</param>
    /// <param name="wantedMm">What is wanted (mm, outboard positive).</param>
    /// <param name="trial">The last turn between two readings, or null.</param>
    public AdjusterAdvice Adjust(
        AdjusterPlace place,
        double readMm,
        double wantedMm,
        AdjusterTrial? trial = null
    )
    {
        var moves = place switch
        {
            AdjusterPlace.OutboardStop => Moves.RearOutboardStop,
            AdjusterPlace.InboardStop => Moves.RearInboardStop,
            AdjusterPlace.Cable => Moves.CableLength,
            _ => Moves.OffsetStep,
        };
        var own = spec.Adjusters.FirstOrDefault(a => a.Moves == moves);
        var adjuster = own ?? Usual(moves);
        if (moves is Moves.OffsetStep)
        {
            adjuster = adjuster with
            {
                TurnsLeftIn = spec.Shifting?.StepsLeftOutboard ?? adjuster.TurnsLeftIn,
                TurnsLeftOut = spec.Shifting?.StepsLeftInboard ?? adjuster.TurnsLeftOut,
            };
        }
        var found = AdjusterCorrector.Correct(
            moves,
            adjuster,
            readMm,
            wantedMm,
            AdjusterRate.MmPerTurn(spec, moves, adjuster),
            trial?.Learnt
        );
        return Advice(found, place, adjuster) with
        {
            IsUsual = own is null && moves is not Moves.OffsetStep,
        };
    }

    internal static AdjusterAdvice Advice(
        AdjusterCorrection found,
        AdjusterPlace place,
        Adjuster adjuster
    ) =>
        new()
        {
            Kind = found.Status switch
            {
                CorrectionStatus.Turn => AdjusterKind.Turn,
                CorrectionStatus.TryHalfTurn => AdjusterKind.TryHalfTurn,
                CorrectionStatus.OutOfTravel => AdjusterKind.OutOfTravel,
                CorrectionStatus.NoEffect => AdjusterKind.NoEffect,
                _ => AdjusterKind.LeaveAsIs,
            },
            Place = place,
            Name = adjuster.Name,
            Tool = adjuster.Tool,
            ReadMm = found.ReadMm,
            WantedMm = found.WantedMm,
            Turns = found.Turns,
            Clicks = adjuster.ClicksPerTurn is { } clicks
                ? (int)Math.Round(found.Turns * clicks)
                : null,
            MmPerTurn = found.MmPerTurn,
            ExpectedMm = found.ExpectedMm,
            ActsOtherWay = found.ActsOtherWay,
        };

    /// <summary>The adjuster as most parts have it; only a barrel adjuster's thread is common enough to reckon with.</summary>
    internal static Adjuster Usual(Moves moves) =>
        new()
        {
            Name = Texts.Get($"adjuster.{moves}"),
            Moves = moves,
            ThreadPitchMm = moves is Moves.CableLength ? ShiftFriction.UsualBarrelPitchMm : null,
        };
}
