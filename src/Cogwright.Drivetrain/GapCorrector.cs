namespace Cogwright.Drivetrain;

/// <summary>
/// Turns a reading of the pulley-to-cog gap into a turn of the body-angle screw, by inverting the model.
/// </summary>
/// <remarks>
/// The screw may stand anywhere: the body is first turned to where the model gives the reading, and the turn is counted
/// from there. When no body angle gives the reading, the model is trusted for the change and not for the level: the
/// difference between reading and model is carried along from the spec's own body angle.
/// </remarks>
public static class GapCorrector
{
    /// <summary>How far the body is turned either way in search of the wanted gap (rad).</summary>
    private const double SearchRad = 25 * Math.PI / 180;

    /// <summary>Steps of that search (rad); between two the gap is smooth and the root is then bracketed.</summary>
    private const double SearchStepRad = 0.25 * Math.PI / 180;

    /// <summary>
    /// On a sprung mount the anchor is turned by as much as changes the torque by this (N·m): no chain pulls the body as
    /// hard as that with the cage's spring alone.
    /// </summary>
    private const double SearchNm = 3;

    /// <summary>The body angle is found within this (rad).</summary>
    private const double WithinRad = 1e-12;

    /// <summary>What to try when the screw's effect is unknown (turns).</summary>
    private const double TrialTurns = 0.5;

    /// <summary>What to do after a reading.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="pitches">Length of the chain on the bike (pitches).</param>
    /// <param name="gear">The gear in which the gap was read.</param>
    /// <param name="readMm">The gap read (mm, tooth tip to tooth tip).</param>
    /// <param name="wantedMm">The gap wanted (mm, same convention).</param>
    /// <param name="radPerTurn">
    /// Body angle per clockwise turn (rad, signed) when it was learnt on this bike; else it comes from the screw's data.
    /// </param>
    /// <param name="travelMm">Travel at which the gap was read and is wanted (mm); where gaps are set when null.</param>
    public static GapCorrection Correct(
        DrivetrainSpec spec,
        int pitches,
        Gear gear,
        double readMm,
        double wantedMm,
        double? radPerTurn = null,
        double? travelMm = null
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        var none = new GapCorrection
        {
            Status = CorrectionStatus.NoGap,
            Gear = gear,
            ReadMm = readMm,
            WantedMm = wantedMm,
        };
        if (
            spec.RearDerailleur is not { } derailleur
            || GapModel.Of(spec, pitches, gear, travelMm) is not { } model
        )
        {
            return none;
        }
        var body = CoaxialSetUp.BodyAngleRad(spec, pitches);
        if (model.GapMm(body) is not { } before)
        {
            return none;
        }
        var (start, offset) = model.AsRead(body, before, readMm);
        var found = none with { ModelMm = before, BodyAngleRad = start, OffsetMm = offset };
        if (model.BodyAngleFor(start, wantedMm - offset) is not { } exact)
        {
            return found with { Status = CorrectionStatus.NoSolution };
        }
        var change = exact - start;
        found = found with { ExactBodyAngleChangeRad = change };
        var perTurn = radPerTurn ?? RadPerTurn(derailleur, model, start);
        if (perTurn is not { } rate || rate == 0)
        {
            var clockwiseWidens = derailleur.BodyAngleScrew?.ClockwiseWidensGap ?? true;
            var clockwise = wantedMm > readMm == clockwiseWidens;
            var (trial, _) = ScrewTravel.Within(
                clockwise ? TrialTurns : -TrialTurns,
                LeastTurn(derailleur.BodyAngleScrew),
                derailleur.BodyAngleScrew
            );
            return trial == 0
                ? found with
                {
                    Status = CorrectionStatus.OutOfTravel,
                    ExpectedMm = readMm,
                    ResidualMm = wantedMm - readMm,
                }
                : found with
                {
                    Status = CorrectionStatus.TryHalfTurn,
                    Turns = trial,
                    ExpectedMm = wantedMm,
                };
        }
        return Rounded(
            spec,
            pitches,
            derailleur.BodyAngleScrew,
            model,
            found with
            {
                ExactTurns = change / rate,
            },
            rate
        );
    }

    /// <summary>
    /// What a turn really did on this bike: the body angle per clockwise turn (rad, signed), from two readings of the
    /// same gap; null when the readings allow no answer (no turn made, no change, no gap). A suspended rear end stood at
    /// the given travel (mm), or where gaps are set.
    /// </summary>
    public static double? Learn(
        DrivetrainSpec spec,
        int pitches,
        Gear gear,
        double beforeMm,
        double afterMm,
        double turnsMade,
        double? travelMm = null
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (
            turnsMade == 0
            || spec.RearDerailleur is null
            || GapModel.Of(spec, pitches, gear, travelMm) is not { } model
            || model.GapMm(CoaxialSetUp.BodyAngleRad(spec, pitches)) is not { } atSpec
        )
        {
            return null;
        }
        var (start, offset) = model.AsRead(
            CoaxialSetUp.BodyAngleRad(spec, pitches),
            atSpec,
            beforeMm
        );
        if (model.BodyAngleFor(start, afterMm - offset) is not { } angle)
        {
            return null;
        }
        // Both angles are found within WithinRad: less than their sum is no change.
        return Math.Abs(angle - start) > 2 * WithinRad ? (angle - start) / turnsMade : null;
    }

    /// <summary>
    /// Body angle (of a sprung mount, turn of the anchor) per clockwise turn of the screw (rad, signed), or null when the screw's data do not
    /// say it or the gear has no gap.
    /// </summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="pitches">Length of the chain (pitches).</param>
    /// <param name="gear">The gear in which the gap is set.</param>
    public static double? RadPerTurn(DrivetrainSpec spec, int pitches, Gear gear)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return
            spec.RearDerailleur is { BodyAngleScrew: not null } derailleur
            && GapModel.Of(spec, pitches, gear, null) is { } model
            ? RadPerTurn(derailleur, model, CoaxialSetUp.BodyAngleRad(spec, pitches))
            : null;
    }

    /// <summary>
    /// Body angle (of a sprung mount, turn of the anchor) per clockwise turn (rad): what the mount states, else thread
    /// pitch over lever radius; signed by what clockwise does.
    /// </summary>
    private static double? RadPerTurn(
        RearDerailleur derailleur,
        in GapModel model,
        double bodyAngleRad
    )
    {
        var screw = derailleur.BodyAngleScrew;
        var size =
            derailleur.Sprung?.StatedRadPerTurn
            ?? (
                screw is { ThreadPitchMm: { } pitch, LeverRadiusMm: { } lever }
                    ? pitch / lever
                    : null
            );
        if (size is not { } rad || model.Slope(bodyAngleRad) is not { } slope)
        {
            return null;
        }
        var opensWithBody = slope > 0;
        return (opensWithBody == (screw?.ClockwiseWidensGap ?? true) ? 1 : -1) * rad;
    }

    private static double LeastTurn(Adjuster? screw) => screw?.LeastTurn ?? 0.25;

    private static GapCorrection Rounded(
        DrivetrainSpec spec,
        int pitches,
        Adjuster? screw,
        in GapModel model,
        GapCorrection found,
        double radPerTurn
    )
    {
        var least = LeastTurn(screw);
        var exact = found.ExactTurns!.Value;
        var (turns, outOfTravel) = ScrewTravel.Within(
            Math.Round(exact / least) * least,
            least,
            screw
        );
        var after = found.BodyAngleRad + (turns * radPerTurn);
        var expected = model.GapMm(after) is { } gap ? gap + found.OffsetMm : double.NaN;
        if (double.IsNaN(expected))
        {
            // The exact angle has a gap and the rounded one has none: the gear is at the end of its chain.
            return found with { Status = CorrectionStatus.NoSolution };
        }
        return found with
        {
            Status =
                outOfTravel ? CorrectionStatus.OutOfTravel
                : turns == 0 ? CorrectionStatus.LeaveAsIs
                : CorrectionStatus.Turn,
            Turns = turns,
            ExpectedMm = expected,
            ResidualMm = found.WantedMm - expected,
            After = GearTableSolver.Solve(spec, pitches, after, model.TravelMm),
        };
    }

    /// <summary>The gap of one gear as a function of the body angle.</summary>
    private readonly record struct GapModel(
        DrivetrainSpec Spec,
        int Pitches,
        int Ring,
        int Cog,
        double TravelMm,
        RearPlace Place
    )
    {
        internal static GapModel? Of(DrivetrainSpec spec, int pitches, Gear gear, double? travelMm)
        {
            var travel = travelMm ?? spec.Frame.SetUpTravelMm;
            var place = RearPlace.At(spec, RearEnd.Of(spec.Frame), travel);
            return spec.IndicesOf(gear) is var (ring, cog)
                ? new(spec, pitches, ring, cog, travel, place)
                : null;
        }

        internal double? GapMm(double bodyAngleRad)
        {
            var derailleur = Spec.RearDerailleur!;
            if (
                derailleur.Sprung is { } mount
                && mount.TorqueNm(mount.RearRestRad, bodyAngleRad - derailleur.BodyAngleRad) < 0
            )
            {
                // Let off so far, the spring no longer lays the body against its tab.
                return null;
            }
            var gear = GearTableSolver.SolveGear(Spec, Place, Ring, Cog, Pitches, bodyAngleRad);
            return gear.HasPose ? gear.GapMm : null;
        }

        /// <summary>
        /// The body angle at which the model gives the reading, and what is left over (mm): nothing, unless no angle
        /// gives it.
        /// </summary>
        internal (double BodyAngleRad, double OffsetMm) AsRead(
            double atSpecRad,
            double atSpecMm,
            double readMm
        ) =>
            BodyAngleFor(atSpecRad, readMm) is { } angle
                ? (angle, 0)
                : (atSpecRad, readMm - atSpecMm);

        /// <summary>Change of the gap with the body angle (mm/rad), by a central difference.</summary>
        internal double? Slope(double bodyAngleRad)
        {
            const double h = 1e-4;
            return GapMm(bodyAngleRad + h) - GapMm(bodyAngleRad - h) is { } rise
                ? rise / (2 * h)
                : null;
        }

        /// <summary>The body angle nearest to the start that gives the wanted gap, or null.</summary>
        internal double? BodyAngleFor(double start, double wantedMm)
        {
            if (GapMm(start) is not { } atStart)
            {
                return null;
            }
            if (atStart == wantedMm)
            {
                return start;
            }
            var up = (Angle: start, Error: (double?)(atStart - wantedMm));
            var down = up;
            var range = Spec.RearDerailleur?.Sprung is { } mount
                ? Math.Max(SearchRad, SearchNm / mount.RateNmPerRad)
                : SearchRad;
            var stepRad = range / SearchRad * SearchStepRad;
            for (var offset = stepRad; offset <= range; offset += stepRad)
            {
                if (Advance(ref up, start + offset, wantedMm) is { } above)
                {
                    return above;
                }
                if (Advance(ref down, start - offset, wantedMm) is { } below)
                {
                    return below;
                }
            }
            return null;
        }

        /// <summary>One step of the search on one side; the root when the step crosses one.</summary>
        private double? Advance(ref (double Angle, double? Error) from, double to, double wantedMm)
        {
            // Where the chain is not taut there is no gap: the search on this side has ended.
            var error = from.Error is null ? null : GapMm(to) - wantedMm;
            var previous = from;
            from = (to, error);
            return error is { } e && previous.Error is { } p && p * e <= 0
                ? Bisect(previous.Angle, p, to, wantedMm)
                : null;
        }

        private double Bisect(double a, double errorA, double b, double wantedMm)
        {
            while (Math.Abs(b - a) > WithinRad)
            {
                var middle = 0.5 * (a + b);
                // Inside a bracket with gaps at both ends the chain is taut; a hole would show as null and is kept out.
                var error = (GapMm(middle) ?? double.PositiveInfinity) - wantedMm;
                if (error * errorA > 0)
                {
                    (a, errorA) = (middle, error);
                }
                else
                {
                    b = middle;
                }
            }
            return 0.5 * (a + b);
        }
    }
}
