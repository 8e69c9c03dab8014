using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// A gear on a sprung mount written as plainly as the model states it: the pivot from the linkage's formula, the path and
/// its tangent points from the general chain path, moments as sums of r × F. Rigid frames only.
/// </summary>
internal sealed class NaiveSprung(DrivetrainSpec spec, Gear gear, int pitches)
{
    private readonly RearDerailleur derailleur = spec.RearDerailleur!;
    private readonly SprungMount mount = spec.RearDerailleur!.Sprung!;
    private readonly PulleyCage cage = spec.RearDerailleur!.Cage;

    internal Point Bolt { get; } = spec.Frame.Axle + spec.Hanger!.OffsetMm;

    internal double SwingRad { get; } =
        Math.Asin(
            (
                spec.RearDerailleur!.GuideLateralAtZeroMm
                - spec.Cogs.LateralMm(spec.Cogs.Teeth.IndexOf(gear.CogTeeth))
            ) / (spec.RearDerailleur!.LinkLengthMm * Math.Cos(spec.RearDerailleur!.SlantRad))
        );

    internal Point Pivot(double body)
    {
        var (k, s) = (derailleur.LinkAngleRad, derailleur.SlantRad);
        var along = Math.Cos(SwingRad);
        var across = Math.Sin(SwingRad) * Math.Sin(s);
        var x = (along * Math.Cos(k)) + (across * Math.Sin(k));
        var y = (along * Math.Sin(k)) - (across * Math.Cos(k));
        var link = derailleur.LinkLengthMm;
        return Bolt
            + new Point(
                derailleur.UpperPivotMm.X + (link * x),
                derailleur.UpperPivotMm.Y + (link * y)
            ).Turned(body);
    }

    internal double RearStop(double body) => cage.RearStopRad + body - derailleur.BodyAngleRad;

    internal double FrontStop(double body) => cage.FrontStopRad + body - derailleur.BodyAngleRad;

    internal ChainPath Path(double body, double theta) =>
        ChainPath.Round(
            [
                new(spec.Frame.Axle, gear.CogTeeth, 1),
                new(new(0, 0), gear.RingTeeth, 1),
                new(Pivot(body) + cage.Tension.OffsetMm.Turned(theta), cage.Tension.Teeth, 1),
                new(Pivot(body) + cage.Guide.OffsetMm.Turned(theta), cage.Guide.Teeth, -1),
            ],
            12.7
        );

    /// <summary>The naive walk of the cage at a body angle.</summary>
    internal NaiveResult Closure(double body) =>
        NaiveClosure.Walk(
            new NaiveMechanism
            {
                Axle = spec.Frame.Axle,
                CagePivot = Pivot(body),
                CogTeeth = gear.CogTeeth,
                RingTeeth = gear.RingTeeth,
                TensionTeeth = cage.Tension.Teeth,
                GuideTeeth = cage.Guide.Teeth,
                TensionOffset = cage.Tension.OffsetMm,
                GuideOffset = cage.Guide.OffsetMm,
                FrontStopRad = FrontStop(body),
                RearStopRad = RearStop(body),
                ChainPitches = pitches,
            },
            Rad(0.5)
        );

    /// <summary>Moment of a unit tension about a point (mm, anticlockwise), from the tangent points on both pulleys.</summary>
    internal static double MomentMm(ChainPath path, Point about)
    {
        // Runs 1 ring→tension, 2 tension→guide, 3 guide→cog; each pulls at its tangent point.
        return At(path.Runs[1].End, path.Runs[1], -1)
            + At(path.Runs[2].Start, path.Runs[2], 1)
            + At(path.Runs[2].End, path.Runs[2], -1)
            + At(path.Runs[3].Start, path.Runs[3], 1);

        double At(Point at, ChainRun run, int sign)
        {
            var arm = at - about;
            return sign
                * ((arm.X * Math.Sin(run.DirectionRad)) - (arm.Y * Math.Cos(run.DirectionRad)));
        }
    }

    internal double CageTorqueNm(double body, double theta) =>
        cage.Spring!.TorqueAtRearStopNm + (cage.Spring.RateNmPerRad * (theta - RearStop(body)));

    internal double MountTorqueNm(double body) =>
        mount.PreloadNm + (mount.RateNmPerRad * (body - mount.RearRestRad));

    /// <summary>Moment of chain less spring about the hanger bolt (N·m) when the cage's spring makes the tension.</summary>
    internal double ImbalanceNm(double body, double theta)
    {
        var path = Path(body, theta);
        var tension = CageTorqueNm(body, theta) / MomentMm(path, Pivot(body));
        return (tension * MomentMm(path, Bolt)) - MountTorqueNm(body);
    }

    /// <summary>The same at a body angle, θ from the naive walk; a short chain pulls without limit, a slack one not at all.</summary>
    internal double ImbalanceNm(double body)
    {
        var closure = Closure(body);
        return closure.End switch
        {
            ClosureEnd.Short => double.PositiveInfinity,
            ClosureEnd.Slack => -MountTorqueNm(body),
            ClosureEnd.Taut => ImbalanceNm(body, closure.CageAngleRad),
            _ => double.NegativeInfinity,
        };
    }

    /// <summary>Energy of both springs (N·m, from their rests).</summary>
    internal double EnergyNm(double body, double theta)
    {
        var swing = theta - RearStop(body);
        var turn = body - mount.RearRestRad;
        return (cage.Spring!.TorqueAtRearStopNm * swing)
            + (0.5 * cage.Spring.RateNmPerRad * swing * swing)
            + (mount.PreloadNm * turn)
            + (0.5 * mount.RateNmPerRad * turn * turn);
    }

    /// <summary>The path as a string of free runs and true arcs (mm): what virtual work speaks of.</summary>
    internal double StringMm(double body, double theta)
    {
        var path = Path(body, theta);
        int[] teeth = [gear.CogTeeth, gear.RingTeeth, cage.Tension.Teeth, cage.Guide.Teeth];
        return path.Runs.Sum(run => run.LengthMm)
            + path.Wraps.Sum(wrap => wrap.AngleRad * Sprocket.PitchRadiusMm(teeth[wrap.Sprocket]));
    }
}
