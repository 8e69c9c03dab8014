using BenchmarkDotNet.Attributes;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using MathNet.Numerics.RootFinding;

namespace Cogwright.Benchmarks;

/// <summary>
/// 101 positions of a four-bar times 12 gears: the product's sweep beside a plain twin (the whole path from
/// <see cref="ChainPath"/> at each try, MathNet's Brent between the cage's stops). Aim: under 2 ms.
/// </summary>
[MemoryDiagnoser]
public class TravelSweepBenchmark
{
    private const int Pitches = 118;
    private const int Steps = 100;

    private readonly DrivetrainSpec spec = RearEnds.Trail(RearEnds.OnLinks);
    private readonly Gear[] gears =
    [
        .. RearEnds.Trail(RearEnds.OnLinks).Cogs.Teeth.Select(cog => new Gear(32, cog)),
    ];

    [Benchmark(Baseline = true)]
    public TravelSweep Sweep() => TravelSweep.Of(spec, gears, Pitches, Steps);

    [Benchmark]
    public double[] PlainTwin()
    {
        var gaps = new double[(Steps + 1) * gears.Length];
        var derailleur = spec.RearDerailleur!;
        var rearEnd = RearEnd.Of(spec.Frame);
        for (var p = 0; p <= Steps; p++)
        {
            var pose = rearEnd.At(p * 140.0 / Steps);
            for (var g = 0; g < gears.Length; g++)
            {
                gaps[(g * (Steps + 1)) + p] = GapMm(derailleur, pose, g);
            }
        }
        return gaps;
    }

    private double GapMm(RearDerailleur derailleur, AxlePose pose, int cog)
    {
        var body = derailleur.BodyAngleRad + pose.RotationRad;
        var bolt = pose.Axle + spec.Hanger!.OffsetMm.Turned(pose.RotationRad);
        var sine =
            (derailleur.GuideLateralAtZeroMm - spec.Cogs.LateralMm(cog))
            / (derailleur.LinkLengthMm * Math.Cos(derailleur.SlantRad));
        var (sinKappa, cosKappa) = Math.SinCos(derailleur.LinkAngleRad);
        var along = derailleur.LinkLengthMm * Math.Sqrt(1 - (sine * sine));
        var across = derailleur.LinkLengthMm * sine * Math.Sin(derailleur.SlantRad);
        var link = new Point(
            (along * cosKappa) + (across * sinKappa),
            (along * sinKappa) - (across * cosKappa)
        );
        var pivot = bolt + (derailleur.UpperPivotMm + link).Turned(body);
        var cage = derailleur.Cage;
        var found = Brent.TryFindRoot(
            Excess,
            cage.RearStopRad + pose.RotationRad,
            cage.FrontStopRad + pose.RotationRad,
            1e-10,
            100,
            out var theta
        );
        return found
            ? (pivot + cage.Guide.OffsetMm.Turned(theta) - pose.Axle).Length
                - Sprocket.TipRadiusMm(spec.Cogs.Teeth[cog])
                - Sprocket.TipRadiusMm(cage.Guide.Teeth)
            : double.NaN;

        double Excess(double angle)
        {
            var path = ChainPath.Round([
                new(pose.Axle, spec.Cogs.Teeth[cog], 1),
                new(default, 32, 1),
                new(pivot + cage.Tension.OffsetMm.Turned(angle), cage.Tension.Teeth, 1),
                new(pivot + cage.Guide.OffsetMm.Turned(angle), cage.Guide.Teeth, -1),
            ]);
            return path.IsPossible ? path.Pitches - Pitches : 100;
        }
    }
}
