using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;
using CsCheck;

namespace Cogwright.Setup.Tests;

public sealed class ReadingReviewTests
{
    private static readonly QuantityCatalogue Catalogue = Bikes.Catalogue(Bikes.Double);

    private static ReadingResult Judge(TakenReading taken, TrialTurn? trial = null) =>
        Assert.Single(
            ReadingReview.Judge(
                Catalogue,
                TargetList.Make(Catalogue, Bikes.CableDouble),
                Bikes.CableDouble,
                [taken],
                trial
            )
        );

    private static TakenReading Gap(int ring, int cog, double mm, double u = 0.05) =>
        new(TargetNames.Gap, (ring, cog), new(mm, u));

    [Theory]
    [InlineData(7.1, Verdict.Within)]
    [InlineData(7.45, Verdict.TooCloseToCall)]
    [InlineData(9.2, Verdict.Outside)]
    public void Judge_GapInTheTargetsGear_FollowsTheDecisionRule(double mm, Verdict expected)
    {
        var result = Judge(Gap(34, 34, mm));
        Assert.Equal(ReadingStatus.Judged, result.Status);
        Assert.Equal(expected, result.Judgement!.Verdict);
        Assert.False(result.AgainstPrediction);
        Assert.Equal(7.0, result.Expected);
    }

    [Fact]
    public void Judge_TooCloseToCall_NamesAGaugeThatWouldDecide()
    {
        var result = Judge(Gap(34, 34, 7.45));
        // 0.05 mm from the limit over g = 1.645 is 0.0304 mm, told rounded down.
        Assert.Contains("A gauge with u ≤ 0.03 mm would decide.", result.Sentences);
    }

    [Fact]
    public void Judge_OnTheLimit_SaysThatNoGaugeDecides() =>
        Assert.Contains(
            Judge(Gap(34, 34, 7.5)).Sentences,
            s => s.Contains("no gauge decides", StringComparison.Ordinal)
        );

    [Fact]
    public void Judge_BandNarrowerThanTheGauge_SaysSo() =>
        Assert.Contains(
            Judge(Gap(34, 34, 7.0, 0.5)).Sentences,
            s => s.Contains("narrower than the guard bands", StringComparison.Ordinal)
        );

    [Fact]
    public void Judge_GapTooLarge_SaysScrewWayAndQuarterTurns()
    {
        var result = Judge(Gap(34, 34, 9.2));
        Assert.Matches(
            @"^Turn the body-angle screw \d*[¼½¾]? turns? anticlockwise \(2.5 mm hex\)\.$",
            result.ToDo[0]
        );
        Assert.Equal(0, result.Correction!.Turns % 0.25);
        Assert.Equal(Catalogue.Gears.Length, result.After.Length);
    }

    [Fact]
    public void Judge_ReverseActingScrew_TurnsTheOtherWay()
    {
        var screw = Bikes.Double.RearDerailleur!.BodyAngleScrew!;
        var turned = WithScrew(screw with { ClockwiseWidensGap = false });
        Assert.True(Judge(Gap(34, 34, 9.2)).Correction!.Turns < 0);
        Assert.True(turned.CorrectGap((34, 34), 9.2, 7).Turns > 0);
    }

    /// <summary>The gap that the mechanism really has after turning the screw, by the model at that body angle.</summary>
    private static double Resolved(double startMm, double turns, (int, int) gear)
    {
        var derailleur = Bikes.Double.RearDerailleur!;
        var start = BodyAngleAt(startMm, gear);
        var after = GearTableSolver.Solve(
            Bikes.Double,
            110,
            start + (turns * RadPerTurn(derailleur.BodyAngleScrew!))
        );
        return after.Find(new(gear.Item1, gear.Item2))!.Value.GapMm;
    }

    // In the worked example a larger body angle makes the gap smaller (15.5° 6.43 mm, 22° 4.22 mm), clockwise widens it.
    private static double RadPerTurn(Adjuster screw) =>
        -screw.ThreadPitchMm!.Value / screw.LeverRadiusMm!.Value;

    // An independent way to the body angle: plain bisection on the solver's table.
    private static double BodyAngleAt(double gapMm, (int Ring, int Cog) gear)
    {
        var (low, high) = (Example.Rad(0), Example.Rad(25));
        for (var i = 0; i < 60; i++)
        {
            var middle = 0.5 * (low + high);
            var there = GearTableSolver
                .Solve(Bikes.Double, 110, middle)
                .Find(new(gear.Ring, gear.Cog))!
                .Value;
            (low, high) = there.GapMm > gapMm ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }

    [Theory]
    [InlineData(4.0)]
    [InlineData(5.0)]
    [InlineData(6.0)]
    [InlineData(8.0)]
    [InlineData(9.2)]
    public void Judge_CorrectedThenSolvedAgain_HitsTheTargetWithinAQuarterTurn(double readMm)
    {
        var advice = Judge(Gap(34, 34, readMm)).Correction!;
        var resolved = Resolved(readMm, advice.Turns, (34, 34));
        // An eighth of a turn either way is what rounding leaves; a turn moves this gap by less than 1 mm.
        Assert.Equal(7.0, resolved, 0.125);
        Assert.Equal(advice.ExpectedMm!.Value, resolved, 1e-6);
    }

    [Fact]
    public void Judge_AnyGapInReach_IsExpectedNearerThanItWasRead() =>
        Gen.Double[3.0, 10.0]
            .Sample(
                mm =>
                {
                    var advice = Catalogue.CorrectGap((34, 34), mm, 7);
                    Assert.Contains(
                        advice.Kind,
                        new[]
                        {
                            GapAdviceKind.Turn,
                            GapAdviceKind.LeaveAsIs,
                            GapAdviceKind.OutOfTravel,
                        }
                    );
                    Assert.True(Math.Abs(advice.ExpectedMm!.Value - 7) <= Math.Abs(mm - 7) + 1e-6);
                },
                iter: 60
            );

    [Fact]
    public void Judge_GapInAnotherGear_IsHeldAgainstTheModelsPrediction()
    {
        var spec = Measured();
        var catalogue = Bikes.Catalogue(spec);
        var expected = catalogue.ExpectedGapMm((50, 17), (34, 34), 7.0)!.Value;
        var result = Assert.Single(
            ReadingReview.Judge(
                catalogue,
                TargetList.Make(catalogue, Bikes.CableDouble),
                Bikes.CableDouble,
                [Gap(50, 17, expected)]
            )
        );
        Assert.True(result.AgainstPrediction);
        Assert.Equal(Verdict.Within, result.Judgement!.Verdict);
        Assert.Contains("in 34/34", result.Sentences[0], StringComparison.Ordinal);
        Assert.Contains("the model expects", result.Sentences[0], StringComparison.Ordinal);
    }

    [Fact]
    public void ExpectedGap_InTheSettingGearItself_IsTheSetting() =>
        Assert.Equal(7.0, Catalogue.ExpectedGapMm((34, 34), (34, 34), 7.0)!.Value, 1e-6);

    [Fact]
    public void Judge_PredictionWithUnmeasuredTips_CarriesTheirUncertainty()
    {
        var result = Judge(Gap(50, 17, 23));
        Assert.True(result.Judgement!.Reading.StandardUncertainty > 1);
        Assert.Contains(
            result.Sentences,
            s => s.Contains("measure the tips", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Judge_GapWithoutGear_AsksForIt()
    {
        var result = Judge(new(TargetNames.Gap, null, new(7, 0.05)));
        Assert.Equal(ReadingStatus.Asked, result.Status);
        Assert.Null(result.Judgement);
        Assert.Contains("34/34", Assert.Single(result.Questions), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("gap", -1)]
    [InlineData("gap", 600)]
    [InlineData("chain-pitches", 109)]
    [InlineData("chain-pitches", 109.5)]
    [InlineData("torque-pedals", -3)]
    [InlineData("frame-cracks", 1)]
    [InlineData("no-such-thing", 1)]
    public void Judge_ReadingThatCannotBe_IsAskedAbout(string quantity, double value)
    {
        (int, int)? gear = quantity == "gap" ? (34, 34) : null;
        var result = Judge(new(quantity, gear, new(value, 0)));
        Assert.Equal(ReadingStatus.Asked, result.Status);
        Assert.NotEmpty(Assert.Single(result.Questions));
    }

    [Fact]
    public void Judge_GearThatTheBikeHasNot_IsAskedAbout() =>
        Assert.Contains(
            "50/36",
            Assert.Single(Judge(Gap(50, 36, 7)).Questions),
            StringComparison.Ordinal
        );

    [Fact]
    public void Judge_ReadingOfAnotherGear_IsNeverTakenForTheTargets()
    {
        var result = Judge(new(TargetNames.FrontOuterGap, (34, 11), new(0.5, 0.05)));
        Assert.Equal(ReadingStatus.Asked, result.Status);
        Assert.Contains("50/11", Assert.Single(result.Questions), StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_QuantityWithoutTarget_IsSetBesideTheModel()
    {
        var result = Judge(new(QuantityNames.TightMargin, (50, 34), new(3, 0.5)));
        Assert.Equal(ReadingStatus.Compared, result.Status);
        Assert.Equal(3.126, result.Expected!.Value, 0.01); // (110 − 109.7539) × 12.7, model.md §9
    }

    [Fact]
    public void Judge_FarFromTheModel_AsksForTheConvention() =>
        Assert.Contains(
            Judge(Gap(34, 34, 15)).Questions,
            q => q.Contains("tooth tip to tooth tip", StringComparison.Ordinal)
        );

    [Fact]
    public void Judge_ManyReadings_AnswersEachInOrder()
    {
        var readings = new[] { Gap(34, 34, 7), new("nothing", null, new(1, 0)), Gap(50, 11, 8) };
        var results = ReadingReview.Judge(
            Catalogue,
            TargetList.Make(Catalogue, Bikes.CableDouble),
            Bikes.CableDouble,
            [.. readings]
        );
        Assert.Equal(readings, results.Select(r => r.Taken));
    }

    [Fact]
    public void Judge_ScrewEffectUnknown_TriesHalfATurn()
    {
        var screw = Bikes.Double.RearDerailleur!.BodyAngleScrew!;
        var catalogue = WithScrew(screw with { LeverRadiusMm = null });
        var result = Assert.Single(
            ReadingReview.Judge(
                catalogue,
                TargetList.Make(catalogue, Bikes.CableDouble),
                Bikes.CableDouble,
                [Gap(34, 34, 9.2)]
            )
        );
        Assert.Equal(GapAdviceKind.TryHalfTurn, result.Correction!.Kind);
        Assert.Contains("½ turn anticlockwise", result.ToDo[0], StringComparison.Ordinal);
        Assert.Null(result.Correction.ExpectedMm);
    }

    [Fact]
    public void Judge_AfterATrialTurn_UsesWhatWasLearnt()
    {
        var screw = Bikes.Double.RearDerailleur!.BodyAngleScrew!;
        var catalogue = WithScrew(screw with { LeverRadiusMm = null });
        // What half a turn anticlockwise does with the lever of the example, which this spec does not know.
        var after = Resolved(9.2, -0.5, (34, 34));
        var result = Assert.Single(
            ReadingReview.Judge(
                catalogue,
                TargetList.Make(catalogue, Bikes.CableDouble),
                Bikes.CableDouble,
                [Gap(34, 34, after)],
                new((34, 34), 9.2, after, -0.5)
            )
        );
        Assert.Equal(GapAdviceKind.Turn, result.Correction!.Kind);
        Assert.Equal(7.0, Resolved(after, result.Correction.Turns, (34, 34)), 0.125);
    }

    [Fact]
    public void Judge_ScrewNotDescribed_AsksToWatch()
    {
        var catalogue = WithScrew(null);
        var result = Assert.Single(
            ReadingReview.Judge(
                catalogue,
                TargetList.Make(catalogue, Bikes.CableDouble),
                Bikes.CableDouble,
                [Gap(34, 34, 9.2)]
            )
        );
        Assert.Contains(
            result.Questions,
            q => q.Contains("does not describe the screw", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Judge_OutOfTravel_SaysWhatElseToDo()
    {
        var screw = Bikes.Double.RearDerailleur!.BodyAngleScrew!;
        var catalogue = WithScrew(screw with { TurnsLeftOut = 0.5 });
        var result = Assert.Single(
            ReadingReview.Judge(
                catalogue,
                TargetList.Make(catalogue, Bikes.CableDouble),
                Bikes.CableDouble,
                [Gap(34, 34, 9.2)]
            )
        );
        Assert.Equal(GapAdviceKind.OutOfTravel, result.Correction!.Kind);
        Assert.Contains("chain length", result.ToDo[0], StringComparison.Ordinal);
    }

    private static QuantityCatalogue WithScrew(Adjuster? screw) =>
        Bikes.Catalogue(
            Bikes.Double with
            {
                RearDerailleur = Bikes.Double.RearDerailleur! with { BodyAngleScrew = screw },
            }
        );

    /// <summary>The worked example with every tip measured at the mean of ISO 606's limits.</summary>
    private static DrivetrainSpec Measured()
    {
        var derailleur = Bikes.Double.RearDerailleur!;
        CagePulley Tip(CagePulley pulley) =>
            pulley with
            {
                TipDiameterMm = 2 * Sprocket.TipRadiusMm(pulley.Teeth),
            };
        return Bikes.Double with
        {
            Cogs = Bikes.Double.Cogs with
            {
                TipDiametersMm =
                [
                    .. Bikes.Double.Cogs.Teeth.Select(z => (double?)(2 * Sprocket.TipRadiusMm(z))),
                ],
            },
            RearDerailleur = derailleur with
            {
                Cage = derailleur.Cage with
                {
                    Guide = Tip(derailleur.Cage.Guide),
                    Tension = Tip(derailleur.Cage.Tension),
                },
            },
        };
    }
}
