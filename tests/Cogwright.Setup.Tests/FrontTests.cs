using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

/// <summary>The front derailleur that the model knows, in quantities, targets and readings.</summary>
public sealed class FrontTests
{
    private static readonly FrontDerailleur Front = new()
    {
        RearXMm = -95,
        FrontXMm = 0,
        InnerPlate = new(-8.5, -6, 1),
        OuterPlate = new(6, 6, 1),
        LinkLengthMm = 30,
        LinkAngleRad = Example.Rad(-80),
        HeightMm = 1.5,
        OutboardStopMm = 48.4,
        InboardStopMm = 41,
        Trims = [new(34, 1.8)],
    };

    private static DrivetrainSpec Bike(FrontDerailleur front) =>
        Bikes.Double with
        {
            FrontDerailleur = front,
            GearsNotUsed = [new(50, 34)],
            Adjusters =
            [
                new()
                {
                    Name = "low screw",
                    Moves = Moves.FrontInboardStop,
                    ThreadPitchMm = 0.5,
                    LeverRadiusMm = 12,
                },
            ],
        };

    private static Target Find(DrivetrainSpec spec, string id) =>
        TargetList.Make(Bikes.Catalogue(spec), Bikes.CableDouble).Single(target => target.Id == id);

    /// <summary>Setting up does not see the mechanism's constants: without a described front its own table must say the same.</summary>
    [Theory]
    [InlineData(TargetNames.FrontHeight, FrontSettingKind.Height)]
    [InlineData(TargetNames.FrontInnerGap, FrontSettingKind.InnerGap)]
    [InlineData(TargetNames.FrontOuterGap, FrontSettingKind.OuterGap)]
    public void CommonPractice_InBothRooms_IsTheSame(string id, FrontSettingKind kind)
    {
        var target = Find(Bikes.Double, id);

        Assert.Equal(FrontPractice.Range(kind).LowerMm, target.Lower);
        Assert.Equal(FrontPractice.Range(kind).UpperMm, target.Upper);
    }

    [Fact]
    public void Quantities_OfAKnownFront_AreThoseOfTheModel()
    {
        var catalogue = Bikes.Catalogue(Bike(Front));
        var report = FrontClearances.Of(GearTableSolver.Solve(Bike(Front), 110))!;

        Assert.Equal(
            report.SettingOf(FrontSettingKind.OuterGap)!.Value.GapMm,
            catalogue.Find(TargetNames.FrontOuterGap, (50, 11))!.Value
        );
        Assert.Equal(
            report.SettingOf(FrontSettingKind.InnerGap)!.Value.GapMm,
            catalogue.Find(TargetNames.FrontInnerGap, (34, 34))!.Value
        );
        Assert.Equal(1.5, catalogue.Find(TargetNames.FrontHeight)!.Value);
        Assert.False(catalogue.Find(TargetNames.FrontOuterGap, (50, 11))!.DependsOnAssumed);
        Assert.True(
            Bikes
                .Catalogue(Bike(Front with { OutboardStopMm = null }))
                .Find(TargetNames.FrontOuterGap, (50, 11))!
                .DependsOnAssumed
        );
    }

    [Fact]
    public void Targets_StatedByThePart_AreTheSpecs()
    {
        var stated = Find(
            Bike(Front with { WantedInnerGap = new(1, 2) }),
            TargetNames.FrontInnerGap
        );
        var usual = Find(Bike(Front), TargetNames.FrontInnerGap);

        Assert.Equal((1, 2, TargetSource.Spec), (stated.Lower, stated.Upper, stated.Source));
        Assert.Equal(
            (0.5, 1, TargetSource.CommonPractice),
            (usual.Lower, usual.Upper, usual.Source)
        );
    }

    [Fact]
    public void TrimCheck_OfAKnownFront_NamesTheGearsThatRub()
    {
        var target = Find(Bike(Front), "front-trim");

        Assert.Equal(TargetSource.Spec, target.Source);
        Assert.Contains("34/11", target.Note, StringComparison.Ordinal);
        Assert.Contains("until trimmed", target.Note, StringComparison.Ordinal);
        Assert.DoesNotContain("50/34", target.Note, StringComparison.Ordinal);
        Assert.Equal(TargetSource.CommonPractice, Find(Bikes.Double, "front-trim").Source);
    }

    [Fact]
    public void Judge_InnerGapTooWide_SaysWhatToTurnAndWhatFollows()
    {
        var catalogue = Bikes.Catalogue(Bike(Front));
        var result = Assert.Single(
            ReadingReview.Judge(
                catalogue,
                TargetList.Make(catalogue, Bikes.CableDouble),
                Bikes.CableDouble,
                [new(TargetNames.FrontInnerGap, (34, 34), new(2, 0.02))]
            )
        );

        Assert.Equal(Verdict.Outside, result.Judgement!.Verdict);
        Assert.Contains("low screw", Assert.Single(result.ToDo), StringComparison.Ordinal);
        Assert.Contains(" clockwise", result.ToDo[0], StringComparison.Ordinal);
        Assert.Equal(24, result.After.Length);
    }

    [Fact]
    public void Judge_OuterGapReadTwice_LearnsWhatATurnDoes()
    {
        var bike = Bike(Front) with { Adjusters = [] };
        var catalogue = Bikes.Catalogue(bike);
        var results = ReadingReview.Judge(
            catalogue,
            TargetList.Make(catalogue, Bikes.CableDouble),
            Bikes.CableDouble,
            [
                new(TargetNames.FrontOuterGap, (50, 11), new(1.7, 0.02)),
                new(TargetNames.FrontOuterGap, (50, 11), new(1.3, 0.02), Turned: 0.5),
                new(TargetNames.FrontOuterGap, (50, 11), new(1.3, 0.02), Turned: 0.5),
            ]
        );

        Assert.Equal(AdjusterKind.TryHalfTurn, results[0].Adjustment!.Kind);
        Assert.Empty(results[0].After);
        Assert.Equal(AdjusterKind.Turn, results[1].Adjustment!.Kind);
        Assert.Equal(-0.8, results[1].Adjustment!.MmPerTurn!.Value, 9);
        Assert.Equal(1, results[1].Adjustment!.Turns);
        Assert.Equal(0.5, results[1].Adjustment!.ExpectedMm!.Value, 9);
        Assert.Equal(AdjusterKind.NoEffect, results[2].Adjustment!.Kind);
        Assert.Contains("touch its stop", results[2].ToDo[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_InnerGapWithin_TurnsNothing()
    {
        var catalogue = Bikes.Catalogue(Bike(Front));

        Assert.Empty(
            Assert
                .Single(
                    ReadingReview.Judge(
                        catalogue,
                        TargetList.Make(catalogue, Bikes.CableDouble),
                        Bikes.CableDouble,
                        [new(TargetNames.FrontInnerGap, (34, 34), new(0.75, 0.02))]
                    )
                )
                .ToDo
        );
    }
}
