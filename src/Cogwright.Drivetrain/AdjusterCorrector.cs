namespace Cogwright.Drivetrain;

/// <summary>
/// Turns a reading of what an adjuster moves into turns of it. It knows nothing of what is moved but what one turn does, so
/// it serves every adjuster; <see cref="AdjusterRate"/> gives that from the adjuster's data.
/// </summary>
public static class AdjusterCorrector
{
    /// <summary>What to try when the effect is unknown (turns).</summary>
    private const double TrialTurns = 0.5;

    /// <summary>A change below so many standard uncertainties of two readings is no effect (about 95 %).</summary>
    private const double EffectFactor = 2;

    /// <summary>What to do after a reading.</summary>
    /// <param name="moves">What the adjuster moves.</param>
    /// <param name="adjuster">The adjuster, or null when the spec does not describe it.</param>
    /// <param name="readMm">What was read (mm, outboard positive).</param>
    /// <param name="wantedMm">What is wanted (mm, outboard positive).</param>
    /// <param name="mmPerTurn">What a clockwise turn does (mm, outboard positive), or null when unknown.</param>
    /// <param name="learnt">What the last turn taught on this bike; it wins over <paramref name="mmPerTurn"/>.</param>
    public static AdjusterCorrection Correct(
        Moves moves,
        Adjuster? adjuster,
        double readMm,
        double wantedMm,
        double? mmPerTurn,
        LearntTurn? learnt = null
    )
    {
        var least = LeastTurn(moves, adjuster);
        var none = new AdjusterCorrection
        {
            Moves = moves,
            Adjuster = adjuster,
            Status = CorrectionStatus.LeaveAsIs,
            ReadMm = readMm,
            WantedMm = wantedMm,
            LeastTurn = least,
        };
        if (learnt is { Status: CorrectionStatus.NoEffect })
        {
            return none with { Status = CorrectionStatus.NoEffect };
        }
        var found = learnt is { Status: CorrectionStatus.Turn };
        var rate = found ? learnt!.Value.MmPerTurn : mmPerTurn;
        if (rate is not { } perTurn || perTurn == 0)
        {
            return Trial(none);
        }
        var exact = (wantedMm - readMm) / perTurn;
        var (turns, outOfTravel) = ScrewTravel.Within(
            Math.Round(exact / least) * least,
            least,
            adjuster,
            moves is Moves.OffsetStep
        );
        return none with
        {
            Status =
                outOfTravel ? CorrectionStatus.OutOfTravel
                : turns == 0 ? CorrectionStatus.LeaveAsIs
                : CorrectionStatus.Turn,
            MmPerTurn = perTurn,
            ExactTurns = exact,
            Turns = turns,
            ExpectedMm = readMm + (turns * perTurn),
            ActsOtherWay =
                found && perTurn > 0 != AdjusterRate.ClockwiseIsOutboard(moves, adjuster),
        };
    }

    /// <summary>What a turn did, from a reading before and one after it.</summary>
    /// <param name="beforeMm">Read before (mm, outboard positive).</param>
    /// <param name="afterMm">Read after (mm, outboard positive).</param>
    /// <param name="turnsMade">Turns made, clockwise positive.</param>
    /// <param name="standardUncertaintyMm">Standard uncertainty of the difference of the two readings (mm).</param>
    public static LearntTurn Learn(
        double beforeMm,
        double afterMm,
        double turnsMade,
        double standardUncertaintyMm
    )
    {
        if (turnsMade == 0)
        {
            return new(CorrectionStatus.NoSolution, 0, 0);
        }
        var change = afterMm - beforeMm;
        return change == 0 || Math.Abs(change) < EffectFactor * standardUncertaintyMm
            ? new(CorrectionStatus.NoEffect, 0, standardUncertaintyMm / Math.Abs(turnsMade))
            : new(
                CorrectionStatus.Turn,
                change / turnsMade,
                standardUncertaintyMm / Math.Abs(turnsMade)
            );
    }

    private static AdjusterCorrection Trial(AdjusterCorrection none)
    {
        if (none.WantedMm == none.ReadMm)
        {
            return none with { ExpectedMm = none.ReadMm };
        }
        var outboard = none.WantedMm > none.ReadMm;
        var clockwise = outboard == AdjusterRate.ClockwiseIsOutboard(none.Moves, none.Adjuster);
        // Half a turn in whole clicks or steps; at least one of them.
        var turns = Math.Max(1, Math.Round(TrialTurns / none.LeastTurn)) * none.LeastTurn;
        var (trial, _) = ScrewTravel.Within(
            clockwise ? turns : -turns,
            none.LeastTurn,
            none.Adjuster,
            none.Moves is Moves.OffsetStep
        );
        return trial == 0
            ? none with
            {
                Status = CorrectionStatus.OutOfTravel,
                ExpectedMm = none.ReadMm,
            }
            : none with
            {
                Status = CorrectionStatus.TryHalfTurn,
                Turns = trial,
            };
    }

    private static double LeastTurn(Moves moves, Adjuster? adjuster) =>
        moves is Moves.OffsetStep ? 1
        : adjuster?.ClicksPerTurn is { } clicks ? 1.0 / clicks
        : adjuster?.LeastTurn ?? 0.25;
}
