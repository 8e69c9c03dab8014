using System.Collections.Immutable;
using CsCheck;
using MathNet.Numerics.LinearRegression;
using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

/// <summary>The plane of the alignment gauge: by hand, against a general regression, and by what must not matter.</summary>
public sealed class HangerPlaneTests
{
    private const double RadiusMm = 311;

    private static HangerPlane Fit(params (double Hours, double Mm)[] readings) =>
        HangerPlane
            .Fit([.. readings.Select(r => new RimReading(r.Hours, r.Mm, 0.25))], RadiusMm)
            .Plane!;

    [Fact]
    public void Fit_TopTwoMillimetresOutboard_IsLeanAlone()
    {
        var plane = Fit((12, 41), (3, 40), (6, 39), (9, 40));
        Assert.Equal(2.0 / 622, plane.SlopeUp, 12);
        Assert.Equal(0, plane.SlopeForward, 12);
        Assert.Equal(40, plane.AtAxleMm, 12);
        Assert.Equal(2, plane.TopLessBottomMm, 12);
        Assert.Equal(12, plane.MostOutboardHours, 9);
        Assert.All(plane.ResidualsMm, r => Assert.Equal(0, r, 12));
    }

    [Fact]
    public void Fit_FrontOutboardWithoutTheBottom_IsToeAlone()
    {
        var plane = Fit((12, 40), (3, 41.5), (9, 38.5));
        Assert.Equal(3, plane.FrontLessRearMm, 12);
        Assert.Equal(0, plane.TopLessBottomMm, 12);
        Assert.Equal(3, plane.MostOutboardHours, 9);
        Assert.Equal(0, plane.DegreesOfFreedom);
    }

    /// <summary>Common practice: 4 mm over a 622 mm circle is 0.37°, 2 mm is 0.18°.</summary>
    [Theory]
    [InlineData(4, 0.37)]
    [InlineData(2, 0.18)]
    public void Lean_OfARimDifference_IsWhatTheTradeSays(double differenceMm, double degrees) =>
        Assert.Equal(
            degrees,
            Deg(Fit((12, differenceMm), (6, 0), (9, differenceMm / 2)).LeanRad),
            0.005
        );

    /// <summary>
    /// Common practice: 60 to 90 mm below the bolt, 4 mm at the rim move the guide pulley by 0.4 to 0.6 mm, 2 mm by
    /// 0.2 to 0.3 mm; the derailleur hangs inboard when the top stands outboard.
    /// </summary>
    [Theory]
    [InlineData(4, 60, 0.4)]
    [InlineData(4, 90, 0.6)]
    [InlineData(2, 60, 0.2)]
    [InlineData(2, 90, 0.3)]
    public void Shift_BelowTheBolt_IsWhatTheTradeSays(
        double differenceMm,
        double belowMm,
        double mm
    )
    {
        var plane = Fit((12, differenceMm), (6, 0), (3, differenceMm / 2));
        Assert.Equal(-mm, plane.ShiftMm(new(-10, -28 - belowMm), new(-10, -28)), 0.03);
    }

    [Fact]
    public void Uncertainty_OfFourQuarters_IsRootTwoOverTheDiameter()
    {
        var plane = Fit((12, 40), (3, 41), (6, 42), (9, 43));
        var expected = 0.25 * Math.Sqrt(2) / (2 * RadiusMm);
        Assert.Equal(expected, plane.SlopeUpUncertainty, 12);
        Assert.Equal(expected, plane.SlopeForwardUncertainty, 12);
        Assert.Equal(0, plane.SlopeCovariance, 12);
        Assert.Equal(0.25 * Math.Sqrt(2), plane.GreatestDifferenceUncertaintyMm, 9);
    }

    [Fact]
    public void Fit_ReadingsInNoPlane_IsDoubtful()
    {
        // Up and down average to 40, front and rear to 42: no plane has that.
        Assert.True(Fit((12, 41), (6, 39), (3, 43), (9, 41)).IsDoubtful);
        Assert.False(Fit((12, 41), (6, 39), (3, 40.6), (9, 39.8)).IsDoubtful);
    }

    [Fact]
    public void Fit_TwoReadings_AreTooFew() =>
        Assert.Equal(
            HangerFitStatus.TooFew,
            HangerPlane.Fit([new(12, 1, 0.2), new(6, 2, 0.2)], RadiusMm).Status
        );

    [Fact]
    public void Fit_ReadingsSideBySide_AreTooClose() =>
        Assert.Equal(
            HangerFitStatus.TooClose,
            HangerPlane
                .Fit([new(12, 1, 0.2), new(1, 1, 0.2), new(11, 1, 0.2), new(12, 1, 0.1)], RadiusMm)
                .Status
        );

    private static readonly Gen<ImmutableArray<RimReading>> Readings =
        from first in Gen.Double[0.5, 12]
        from steps in Gen.Double[2.2, 3.4].Array[2, 4]
        from mm in Gen.Double[20, 60].Array[5]
        from u in Gen.Double[0.05, 0.6].Array[5]
        select Enumerable
            .Range(0, steps.Length + 1)
            .Select(i => new RimReading(((first + steps.Take(i).Sum()) % 12) + 1e-9, mm[i], u[i]))
            .ToImmutableArray();

    [Fact]
    public void Fit_AnyReadings_IsTheWeightedRegressionOfMathNet() =>
        Readings.Sample(readings =>
        {
            var plane = HangerPlane.Fit(readings, RadiusMm).Plane!;
            double[][] x =
            [
                .. readings.Select(r =>
                    (double[])
                        [
                            1,
                            RadiusMm * Math.Sin(r.ClockHours * Math.PI / 6),
                            RadiusMm * Math.Cos(r.ClockHours * Math.PI / 6),
                        ]
                ),
            ];
            var found = WeightedRegression.Weighted(
                x,
                [.. readings.Select(r => r.OutboardMm)],
                [.. readings.Select(r => 1 / (r.StandardUncertaintyMm * r.StandardUncertaintyMm))]
            );
            Assert.Equal(found[0], plane.AtAxleMm, 8);
            Assert.Equal(found[1], plane.SlopeForward, 9);
            Assert.Equal(found[2], plane.SlopeUp, 9);
        });

    /// <summary>Moving the gauge in or out, or reading in another order, says nothing about the hanger.</summary>
    [Fact]
    public void Fit_OffsetAddedOrOrderTurned_GivesTheSameSlopes() =>
        Gen.Select(Readings, Gen.Double[-30, 30], Gen.Int[0, 4])
            .Sample(
                (readings, offset, by) =>
                {
                    var plane = HangerPlane.Fit(readings, RadiusMm).Plane!;
                    var moved = HangerPlane
                        .Fit(
                            [
                                .. readings.Skip(by % readings.Length),
                                .. readings.Take(by % readings.Length),
                            ],
                            RadiusMm
                        )
                        .Plane!;
                    var offsetPlane = HangerPlane
                        .Fit(
                            [
                                .. readings.Select(r =>
                                    r with
                                    {
                                        OutboardMm = r.OutboardMm + offset,
                                    }
                                ),
                            ],
                            RadiusMm
                        )
                        .Plane!;
                    Assert.Equal(plane.SlopeUp, moved.SlopeUp, 10);
                    Assert.Equal(plane.SlopeForward, offsetPlane.SlopeForward, 10);
                    Assert.Equal(plane.SlopeUp, offsetPlane.SlopeUp, 10);
                    Assert.Equal(plane.AtAxleMm + offset, offsetPlane.AtAxleMm, 8);
                }
            );

    /// <summary>Read three hours later all round, what was up is now the front.</summary>
    [Fact]
    public void Fit_ReadingsTurnedByAQuarter_TurnsTheSlopes() =>
        Readings.Sample(readings =>
        {
            var plane = HangerPlane.Fit(readings, RadiusMm).Plane!;
            var turned = HangerPlane
                .Fit(
                    [.. readings.Select(r => r with { ClockHours = (r.ClockHours + 3) % 12 })],
                    RadiusMm
                )
                .Plane!;
            Assert.Equal(plane.SlopeUp, turned.SlopeForward, 10);
            Assert.Equal(-plane.SlopeForward, turned.SlopeUp, 10);
            Assert.Equal(plane.GreatestDifferenceMm, turned.GreatestDifferenceMm, 7);
            Assert.Equal(
                plane.GreatestDifferenceUncertaintyMm,
                turned.GreatestDifferenceUncertaintyMm,
                7
            );
        });

    /// <summary>The readings that the advised movement of the tip leads to lie square to the bolt.</summary>
    [Fact]
    public void Bend_Applied_MakesThePlaneStraight() =>
        Readings.Sample(readings =>
        {
            var plane = HangerPlane.Fit(readings, RadiusMm).Plane!;
            var bend = HangerBend.Of(plane);
            var after = HangerPlane
                .Fit(
                    [
                        .. readings.Select(r =>
                            r with
                            {
                                OutboardMm =
                                    r.OutboardMm
                                    + (bend.TopMm * Math.Cos(r.FromTopRad))
                                    + (bend.FrontMm * Math.Sin(r.FromTopRad)),
                            }
                        ),
                    ],
                    RadiusMm
                )
                .Plane!;
            Assert.Equal(0, after.GreatestDifferenceMm, 8);
            var pull = bend.PullOutboardHours * Math.PI / 6;
            Assert.Equal(
                bend.PullMm,
                (bend.TopMm * Math.Cos(pull)) + (bend.FrontMm * Math.Sin(pull)),
                8
            );
        });

    [Fact]
    public void Effect_OfLean_IsIndexedAwayButForThePartThatChanges()
    {
        var table = GearTableSolver.Solve(Example.Spec, 110);
        var plane = Fit((12, 42), (3, 40), (6, 38), (9, 40));
        var effect = HangerEffect.Of(table, plane)!;
        var bolt = Example.Spec.Frame.Axle + Example.Spec.Hanger!.OffsetMm;
        foreach (var shift in effect.Gears)
        {
            var guide = table.Find(shift.Gear)!.Value.Guide;
            Assert.Equal(4.0 / 622 * (guide.Y - bolt.Y), shift.ShiftMm, 9);
            Assert.Equal(shift.ShiftMm, effect.IndexedAwayMm + shift.LeftMm, 12);
            Assert.True(
                shift.ShiftMm < 0,
                "The pulley hangs below the bolt: the lean takes it inboard."
            );
        }
        Assert.Equal(effect.Gears.Max(g => g.LeftMm), -effect.Gears.Min(g => g.LeftMm), 12);
        Assert.InRange(effect.Gears.Max(g => g.LeftMm), 0.01, 0.4);
    }

    /// <summary>The gap changes by what the exact turn of the derailleur about the bolt gives, to first order.</summary>
    [Fact]
    public void Effect_OnTheGap_IsThatOfTheTurnedPulley()
    {
        var table = GearTableSolver.Solve(Example.Spec, 110);
        var plane = Fit((12, 42), (3, 43), (6, 38), (9, 37));
        var axle = Example.Spec.Frame.Axle;
        var bolt = axle + Example.Spec.Hanger!.OffsetMm;
        double Turned(GearResult gear)
        {
            // The shortest turn that takes the outboard axis onto the plane's normal (Rodrigues, for small slopes).
            var (nx, ny) = (-plane.SlopeForward, -plane.SlopeUp);
            var angle = Math.Atan(plane.Steepest);
            var (kx, ky) = (-ny / plane.Steepest, nx / plane.Steepest);
            var v = (
                X: gear.Guide.X - bolt.X,
                Y: gear.Guide.Y - bolt.Y,
                Z: Example.Spec.Cogs.LateralMm(gear.CogIndex) - Example.Spec.Cogs.LateralMm(0)
            );
            var along = (kx * v.X) + (ky * v.Y);
            var (sin, cos) = Math.SinCos(angle);
            var x = (v.X * cos) + (ky * v.Z * sin) + (kx * along * (1 - cos));
            var y = (v.Y * cos) - (kx * v.Z * sin) + (ky * along * (1 - cos));
            return new Point(bolt.X + x - axle.X, bolt.Y + y - axle.Y).Length
                - (gear.Guide - axle).Length;
        }
        foreach (var shift in HangerEffect.Of(table, plane)!.Gears)
        {
            Assert.Equal(Turned(table.Find(shift.Gear)!.Value), shift.GapChangeMm, 0.01);
        }
    }

    [Theory]
    [InlineData(HangerMaterial.Steel, 9, BendAdvice.Bend)]
    [InlineData(HangerMaterial.Aluminium, 1, BendAdvice.BendWithCare)]
    [InlineData(HangerMaterial.Aluminium, 3, BendAdvice.Replace)]
    [InlineData(HangerMaterial.Unknown, 3, BendAdvice.Replace)]
    [InlineData(HangerMaterial.Titanium, 0, BendAdvice.SpringsBack)]
    public void Advice_ByMaterialAndBends_IsCommonPractice(
        HangerMaterial material,
        int bends,
        BendAdvice expected
    ) =>
        Assert.Equal(
            expected,
            HangerBends.Advice(new(new(-8, -28)) { Material = material, Bends = bends })
        );
}
