using Cogwright.Drivetrain;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

/// <summary>Hanger, index and stops from readings to what to do.</summary>
public sealed class HangerIndexTests
{
    private static readonly DrivetrainSpec Cable = Bikes.Double with
    {
        Shifting = new() { PullMm = [.. Enumerable.Repeat(3.0, 11)], ShiftRatio = 1.2 },
        Adjusters =
        [
            new()
            {
                Name = "inboard stop screw",
                Moves = Moves.RearInboardStop,
                ThreadPitchMm = 0.7,
                LeverRadiusMm = 15,
            },
        ],
    };

    private static readonly WorkSpec Work = Bikes.CableDouble;

    private static TakenReading Read(
        string quantity,
        double mm,
        (int, int)? gear = null,
        double u = 0.1,
        double? turned = null
    ) => new(quantity, gear, new(mm, u), turned);

    private static HangerResult? Hanger(DrivetrainSpec spec, params TakenReading[] readings) =>
        HangerReview.Judge(Bikes.Catalogue(spec), Bikes.Targets(spec, Work), [.. readings]);

    private static DrivetrainSpec Metal(HangerMaterial material, int bends) =>
        Cable with
        {
            Hanger = Cable.Hanger! with { Material = material, Bends = bends },
        };

    private static readonly TakenReading[] TopOutboard =
    [
        Read("hanger-12", 43),
        Read("hanger-3", 40),
        Read("hanger-6", 37),
        Read("hanger-9", 40),
    ];

    [Fact]
    public void Hanger_TopOutboard_AsksForTheWheelFirstAndPullsTheBottomOut()
    {
        var result = Hanger(Metal(HangerMaterial.Steel, 0), TopOutboard)!;
        Assert.Equal(Verdict.Outside, result.Judgement!.Verdict);
        Assert.StartsWith(
            "First: is the wheel fully seated",
            result.Questions[0],
            StringComparison.Ordinal
        );
        Assert.Contains(
            "At 6 o'clock (bottom) pull the tip outboard by 3.0 mm at the rim; pushing it inboard as far at 12 o'clock (top) does the same.",
            result.ToDo
        );
        Assert.Contains(
            result.Sentences,
            s => s.Contains("hangs inboard", StringComparison.Ordinal)
        );
        Assert.Contains(
            result.Sentences,
            s => s.Contains("indexing hides", StringComparison.Ordinal)
        );
        Assert.Equal(24, result.Now!.Gears.Length);
    }

    /// <summary>A derailleur that hangs inboard nears the spokes by lean times its depth below the bolt: said before all else.</summary>
    [Fact]
    public void Hanger_TopOutboard_TellsTheRoomToTheSpokesFirst()
    {
        var known = Cable with
        {
            Lateral = new()
            {
                CageInnerFaceMm = 4.8,
                Spokes = new()
                {
                    FlangeLateralMm = 17,
                    FlangeRadiusMm = 22,
                    RimLateralMm = 0,
                    RimRadiusMm = 298,
                },
            },
        };
        var straight = Hanger(
            known,
            Read("hanger-12", 40),
            Read("hanger-6", 40),
            Read("hanger-9", 40)
        )!;
        var bent = Hanger(known, TopOutboard)!;

        Assert.Contains("with the hanger as read", bent.Sentences[0], StringComparison.Ordinal);
        Assert.Contains("after a knock", bent.Sentences[1], StringComparison.Ordinal);
        // 6 mm at the rim is a slope of 0.00965: some 50 mm below the bolt that is half a millimetre.
        Assert.InRange(Room(straight) - Room(bent), 0.3, 1);

        static double Room(HangerResult result) =>
            double.Parse(
                System
                    .Text.RegularExpressions.Regex.Match(result.Sentences[0], @"([\d.]+) mm")
                    .Groups[1]
                    .Value,
                System.Globalization.CultureInfo.InvariantCulture
            );
    }

    [Fact]
    public void Hanger_AluminiumBentOften_IsReplacedAndNotBent()
    {
        var result = Hanger(Metal(HangerMaterial.Aluminium, 3), TopOutboard)!;
        Assert.StartsWith(
            "Replace the hanger",
            Assert.Single(result.ToDo),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Hanger_ReadAgainAfterBending_TellsBeforeAndJudgesNow()
    {
        var result = Hanger(
            Cable,
            [
                .. TopOutboard,
                Read("hanger-12", 40.2),
                Read("hanger-6", 40.1),
                Read("hanger-9", 40.1),
            ]
        )!;
        Assert.Equal(Verdict.Within, result.Judgement!.Verdict);
        Assert.Equal(6, result.Before!.GreatestDifferenceMm, 9);
        Assert.Contains(
            result.Sentences,
            s => s.StartsWith("Before: lean +0.55°", StringComparison.Ordinal)
        );
        Assert.Empty(result.Questions);
    }

    [Fact]
    public void Hanger_TwoPositions_AsksForAThird()
    {
        var result = Hanger(Cable, Read("hanger-12", 40), Read("hanger-6", 41))!;
        Assert.Null(result.Judgement);
        Assert.Contains(
            "three clock positions",
            Assert.Single(result.Questions),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Hanger_OtherReadingsOnly_IsNothing() =>
        Assert.Null(Hanger(Cable, Read("hanger-straight", 1), Read("gap", 7, (34, 34))));

    [Theory]
    [InlineData("hanger-12", 12.0)]
    [InlineData("hanger-10.5", 10.5)]
    [InlineData("hanger-straight", null)]
    [InlineData("hanger-0", null)]
    [InlineData("hanger-13", null)]
    [InlineData("hanger--3", null)]
    public void Name_OfAClockPosition_IsRead(string name, double? hours) =>
        Assert.Equal(hours, ReadingNames.ClockHours(name));

    private static IndexResult? Index(DrivetrainSpec spec, params TakenReading[] readings) =>
        IndexReview.Judge(Bikes.Catalogue(spec), Work, [.. readings]);

    [Fact]
    public void Index_PartsThatBelongTogether_IsFineWithoutReadings()
    {
        var result = Index(Cable)!;
        Assert.True(result.IsFine);
        Assert.Equal(0, result.Model!.GreatestResidualMm, 9);
        Assert.Contains("Leave the barrel adjuster", result.ToDo[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void Index_PulledTooLittle_SaysThatThePartsDoNotBelongTogether()
    {
        var result = Index(Cable with { Shifting = Cable.Shifting! with { ShiftRatio = 1.1 } })!;
        Assert.False(result.IsFine);
        Assert.Contains(
            "Every click moves the pulley about 0.30 mm too little: pull, shift ratio and cog spacing do not belong together.",
            result.Sentences
        );
        Assert.NotEmpty(result.Questions);
    }

    [Fact]
    public void Index_ReadOutboardEverywhere_TightensTheCable()
    {
        var result = Index(
            Cable,
            Read("index-up", 0.6, (50, 12), 0.02),
            Read("index-down", 0.5, (50, 12), 0.02),
            Read("index-up", 0.4, (50, 24), 0.02),
            Read("index-down", 0.3, (50, 24), 0.02)
        )!;
        Assert.Equal(Verdict.Within, result.Friction!.Verdict);
        Assert.Equal(-0.45, result.Read!.BestMoveMm, 9);
        // 0.45 mm over 0.8 mm × 1.2 per turn is 0.47 turn; tightening is anticlockwise.
        Assert.Equal(-0.5, result.Read.Advice.Turns);
        Assert.StartsWith(
            "Turn the barrel adjuster ½ turn anticlockwise",
            result.ToDo[0],
            StringComparison.Ordinal
        );
        Assert.Contains("12: +0.07 mm, 24: -0.13 mm", result.ToDo[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Index_UpAndDownFarApart_IsFrictionFirst()
    {
        var result = Index(
            Cable,
            Read("index-up", 0.5, (50, 15), 0.02),
            Read("index-down", -0.3, (50, 15), 0.02)
        )!;
        Assert.Equal(Verdict.Outside, result.Friction!.Verdict);
        Assert.StartsWith(
            "First put the friction right",
            Assert.Single(result.ToDo),
            StringComparison.Ordinal
        );
        Assert.False(result.IsFine);
    }

    [Fact]
    public void Index_Motor_CountsStepsAndTheirEnd()
    {
        var spec = Bikes.Double with
        {
            Shifting = new()
            {
                PositionsMm = [.. Enumerable.Range(0, 12).Select(i => 65.3 - (i * 3.6))],
                OffsetStepMm = 0.25,
                StepsLeftInboard = 3,
            },
        };
        var result = Index(spec)!;
        var advice = result.Model!.Advice!;
        Assert.Equal(AdjusterKind.OutOfTravel, advice.Kind);
        Assert.Equal(-3, advice.Turns);
        Assert.StartsWith(
            "Set the offset 3 steps inboard",
            result.ToDo[0],
            StringComparison.Ordinal
        );
        Assert.Contains("Steps that run out", result.ToDo[^1], StringComparison.Ordinal);
    }

    private static ReadingResult Last(DrivetrainSpec spec, params TakenReading[] readings) =>
        ReadingReview.Judge(Bikes.Catalogue(spec), Bikes.Targets(spec, Work), Work, [.. readings])[
            ^1
        ];

    [Fact]
    public void Stop_TooFarIn_IsTurnedInAndProvenAgain()
    {
        var result = Last(Cable, Read("inboard-overshoot", 2));
        Assert.Equal(Verdict.Outside, result.Judgement!.Verdict);
        Assert.True(result.Adjustment!.Turns > 0, "A stop screw turned in narrows the range.");
        Assert.Contains("prove the stop by hand", result.ToDo[^1], StringComparison.Ordinal);
        Assert.Contains("touch its tab", Assert.Single(result.Questions), StringComparison.Ordinal);
    }

    /// <summary>3 mm measured on the cog: 2.5 mm past it leaves 0.5, and the turned screw says what is left then.</summary>
    [Fact]
    public void InboardStop_RoomToTheSpokesKnown_IsToldAsReadAndAfterTheTurn()
    {
        var measured = Cable with { Lateral = new() { Spokes = new() { CageToSpokesMm = 3 } } };
        var result = Last(measured, Read("inboard-overshoot", 2.5));
        Assert.StartsWith("TOO CLOSE", result.Sentences[0], StringComparison.Ordinal);
        Assert.Contains("0.5 mm", result.Sentences[0], StringComparison.Ordinal);
        var left = 3 + result.Adjustment!.ExpectedMm!.Value;
        Assert.Contains(
            result.ToDo,
            step =>
                step.StartsWith("Then: Clear", StringComparison.Ordinal)
                && step.Contains($"{left:0.0} mm", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void InboardStop_RoomToTheSpokesUnknown_SaysThatItCannotTell() =>
        Assert.StartsWith(
            "CANNOT SAY",
            Last(Cable, Read("inboard-overshoot", 0.5)).Sentences[0],
            StringComparison.Ordinal
        );

    /// <summary>A motor-driven mechanism is never pushed by hand.</summary>
    [Fact]
    public void Stop_OnAMotor_IsReachedByTheOffsetAndNotByHand()
    {
        var motor = Bikes.Double with { Shifting = null };
        var result = Assert.Single(
            ReadingReview.Judge(
                Bikes.Catalogue(motor),
                Bikes.Targets(motor, Bikes.MotorDouble),
                Bikes.MotorDouble,
                [Read("inboard-overshoot", 2)]
            )
        );
        Assert.Contains(
            "never pushed by hand",
            result.Target!.Convention,
            StringComparison.Ordinal
        );
        Assert.Contains("by hand cranking", result.ToDo[^1], StringComparison.Ordinal);
    }

    /// <summary>A spec that does not describe the shifting still says what shifts it: no housing on a motor.</summary>
    [Fact]
    public void Index_SlowOnAMotorOfWhichTheSpecKnowsNothing_LooksForPlayAndNotForCables()
    {
        var motor = Bikes.Double with { Shifting = null };
        var result = IndexReview.Judge(
            Bikes.Catalogue(motor),
            Bikes.MotorDouble,
            [Read("index-up", 0.6, (50, 17), 0.02), Read("index-down", -0.6, (50, 17), 0.02)]
        )!;
        Assert.Contains("play", Assert.Single(result.ToDo), StringComparison.Ordinal);
        Assert.All(
            result.Sentences.Concat(result.ToDo),
            s => Assert.DoesNotMatch("housing|quarter turn|That is friction", s)
        );
    }

    [Fact]
    public void Readings_OfABikeWithoutDerailleur_AreAskedAboutAndNotLost()
    {
        var work = new WorkSpec { Actuation = Actuation.None };
        var results = ReadingReview.Judge(
            Bikes.Catalogue(Bikes.Single),
            Bikes.Targets(Bikes.Single, work),
            work,
            [Read("index-up", 0.2, (46, 17)), Read("inboard-overshoot", 1, (99, 99))]
        );
        Assert.All(results, result => Assert.Equal(ReadingStatus.Asked, result.Status));
        Assert.Contains("no index", results[0].Questions.Single(), StringComparison.Ordinal);
        Assert.Contains("99/99", results[1].Questions.Single(), StringComparison.Ordinal);
    }

    [Fact]
    public void Stop_LeverUnknown_TriesHalfATurnAndLearns()
    {
        var first = Last(Cable, Read("outboard-overshoot", 2));
        Assert.Equal(AdjusterKind.TryHalfTurn, first.Adjustment!.Kind);
        var second = Last(
            Cable,
            Read("outboard-overshoot", 2),
            Read("outboard-overshoot", 1.4, turned: 0.5)
        );
        Assert.Equal(AdjusterKind.Turn, second.Adjustment!.Kind);
        Assert.Equal(0.75, second.Adjustment.Turns);
        Assert.Equal(0.5, second.Adjustment.ExpectedMm!.Value, 9);
    }

    [Fact]
    public void Stop_TurnWithoutEffect_IsAskedAbout()
    {
        var result = Last(
            Cable,
            Read("outboard-overshoot", 2),
            Read("outboard-overshoot", 1.9, turned: 0.5)
        );
        Assert.Equal(AdjusterKind.NoEffect, result.Adjustment!.Kind);
        Assert.Contains("changed nothing", result.ToDo[0], StringComparison.Ordinal);
    }

    [Fact]
    public void ReadingsOfSeveral_InTheReview_AreTakenUpAndNotAskedAbout() =>
        Assert.All(
            ReadingReview.Judge(
                Bikes.Catalogue(Cable),
                Bikes.Targets(Cable, Work),
                Work,
                [.. TopOutboard, Read("index-up", 0.1, (50, 11))]
            ),
            result => Assert.Equal(ReadingStatus.OneOfSeveral, result.Status)
        );
}
