using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>Writes what was found into the spec: values, what is still assumed, what was measured.</summary>
internal static class BenchFinish
{
    private const double DegreesPerRad = 180 / Math.PI;

    /// <summary>The spec with the fitted values, its lists not yet told apart.</summary>
    internal static DrivetrainSpec Spec(
        BenchSpace space,
        BenchGeometry.Solution found,
        BenchMeasurements measurements
    )
    {
        var prior = space.Prior;
        var spec = space.At(found.Result.X, 0, out _)!;
        var has = measurements.Readings.ToLookup(r => r.Place.Distance, r => r.ValueMm);
        if (
            !has.Contains(BenchDistance.SmallestCogTip)
            && !has.Contains(BenchDistance.LargestCogTip)
        )
        {
            // An unmeasured tip stays one, so that every gap goes on saying so.
            spec = spec with
            {
                Cogs = spec.Cogs with { TipDiametersMm = prior.Cogs.TipDiametersMm },
            };
        }
        var derailleur = spec.RearDerailleur!;
        var cage = derailleur.Cage;
        if (!has.Contains(BenchDistance.GuideTip))
        {
            cage = cage with
            {
                Guide = cage.Guide with
                {
                    TipDiameterMm = prior.RearDerailleur!.Cage.Guide.TipDiameterMm,
                },
            };
        }
        if (has.Contains(BenchDistance.TensionTip))
        {
            cage = cage with
            {
                Tension = cage.Tension with
                {
                    TipDiameterMm = has[BenchDistance.TensionTip].Average(),
                },
            };
        }
        if (has.Contains(BenchDistance.Chainline))
        {
            var shift =
                has[BenchDistance.Chainline].Average() - spec.Rings.Average(r => r.LateralMm);
            spec = spec with
            {
                Rings = [.. spec.Rings.Select(r => r with { LateralMm = r.LateralMm + shift })],
            };
        }
        return spec with
        {
            RearDerailleur = derailleur with
            {
                Cage = cage,
                BodyAngleScrew = has.Contains(BenchDistance.PivotToAxleAfterScrew)
                    ? Screw(space, found, derailleur.BodyAngleScrew, spec)
                    : derailleur.BodyAngleScrew,
            },
        };
    }

    /// <summary>Only thread over lever is seen; the thread is taken as stated, or as the usual one.</summary>
    private static Adjuster Screw(
        BenchSpace space,
        BenchGeometry.Solution found,
        Adjuster? stated,
        DrivetrainSpec spec
    )
    {
        var screw =
            stated ?? new Adjuster { Name = Texts.Get("bench.screw"), Moves = Moves.BodyAngle };
        if (!space.Free.Contains(BenchParameter.ScrewTurn))
        {
            return screw;
        }
        var turn = space.Value(found.Result.X, BenchParameter.ScrewTurn);
        var pitch = screw.ThreadPitchMm ?? BenchPriors.UsualThreadPitchMm;
        return screw with
        {
            ThreadPitchMm = pitch,
            LeverRadiusMm = pitch / Math.Max(Math.Abs(turn), 1e-3),
            ClockwiseWidensGap = turn > 0 == BenchSpace.WidensWithBodyAngle(spec),
        };
    }

    /// <summary>Moves each assumption whose parameters the readings know into the list of what was measured.</summary>
    internal static DrivetrainSpec WithLists(
        DrivetrainSpec spec,
        BenchMeasurements measurements,
        ImmutableArray<FittedParameter> parameters
    )
    {
        var byPath = parameters
            .Where(p => p.Origin != BenchOrigin.Stated && BenchPriors.Path(p.Parameter) is not null)
            .ToLookup(p => BenchPriors.Path(p.Parameter)!, StringComparer.Ordinal);
        var fitted = ImmutableArray.CreateBuilder<FittedValue>();
        var assumed = ImmutableArray.CreateBuilder<Assumption>();
        foreach (var assumption in spec.Assumptions)
        {
            var group = byPath[assumption.Path].ToList();
            if (group.Count == 0)
            {
                Keep(assumption, spec, measurements, fitted, assumed);
            }
            else if (group.TrueForAll(p => p.Origin == BenchOrigin.Measured))
            {
                fitted.Add(new(assumption.Path, ValueOf(spec, assumption.Path, group)));
            }
            else
            {
                assumed.Add(assumption with { Value = ValueOf(spec, assumption.Path, group) });
            }
        }
        var turn = parameters.FirstOrDefault(p => p.Parameter == BenchParameter.ScrewTurn);
        const string lever = "rearDerailleur.bodyAngleScrew.leverRadius";
        if (
            turn is { Origin: not BenchOrigin.Stated }
            && spec.RearDerailleur!.BodyAngleScrew?.LeverRadiusMm is { } radius
        )
        {
            var text = Texts.Get(
                "bench.mm",
                radius,
                radius * turn.Uncertainty / Math.Abs(turn.Value)
            );
            if (turn.Origin == BenchOrigin.Measured)
            {
                fitted.Add(new(lever, text));
            }
            else
            {
                assumed.Add(new(lever, text, Texts.Get("bench.practice")));
            }
        }
        return spec with { Assumptions = assumed.ToImmutable(), Fitted = fitted.ToImmutable() };
    }

    /// <summary>A ring's place is measured when the chainline is, and every other assumption stands.</summary>
    private static void Keep(
        Assumption assumption,
        DrivetrainSpec spec,
        BenchMeasurements measurements,
        ImmutableArray<FittedValue>.Builder fitted,
        ImmutableArray<Assumption>.Builder assumed
    )
    {
        var readings = measurements
            .Readings.Where(r => r.Place.Distance == BenchDistance.Chainline)
            .ToList();
        for (var ring = 0; ring < spec.Rings.Length; ring++)
        {
            if (readings.Count > 0 && assumption.Path == $"rings[{ring}].lateral")
            {
                fitted.Add(
                    new(
                        assumption.Path,
                        Texts.Get(
                            "bench.mm",
                            spec.Rings[ring].LateralMm,
                            readings[0].UncertaintyMm / Math.Sqrt(readings.Count)
                        )
                    )
                );
                return;
            }
        }
        assumed.Add(assumption);
    }

    private static string ValueOf(DrivetrainSpec spec, string path, List<FittedParameter> group)
    {
        var derailleur = spec.RearDerailleur!;
        var u = Math.Sqrt(group.Average(p => p.Uncertainty * p.Uncertainty));
        return path switch
        {
            "hanger.offset" => Offset(spec.Hanger!.OffsetMm, u),
            "rearDerailleur.upperPivot" => Offset(derailleur.UpperPivotMm, u),
            "rearDerailleur.cage.guide.offset" => Offset(
                derailleur.Cage.Guide.OffsetMm,
                CageUncertaintyMm(derailleur.Cage.Guide.OffsetMm, group)
            ),
            "rearDerailleur.cage.tension.offset" => Offset(derailleur.Cage.Tension.OffsetMm, u),
            _ when group[0].Parameter
                    is BenchParameter.LinkAngle
                        or BenchParameter.Slant
                        or BenchParameter.RearStop
                        or BenchParameter.FrontStop => Texts.Get(
                "bench.degrees",
                group[0].Value * DegreesPerRad,
                u * DegreesPerRad
            ),
            _ => Texts.Get("bench.mm", group[0].Value, u),
        };
    }

    /// <summary>Of a place given by arm and angle: root mean square over its two directions (mm).</summary>
    private static double CageUncertaintyMm(Point offset, List<FittedParameter> group)
    {
        var sum = 0.0;
        foreach (var p in group)
        {
            var u = p.Uncertainty * (p.Parameter == BenchParameter.GuideAngle ? offset.Length : 1);
            sum += u * u;
        }
        return Math.Sqrt(sum / 2);
    }

    private static string Offset(Point p, double u) => Texts.Get("bench.offset", p.X, p.Y, u);
}
