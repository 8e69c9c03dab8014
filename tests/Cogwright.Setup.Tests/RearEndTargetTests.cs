using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Setup.Tests;

/// <summary>The gap carries the position of the rear end; on suspension it is set at sag.</summary>
public class RearEndTargetTests
{
    private static readonly DrivetrainSpec Suspended = Bikes.Double with
    {
        Frame = Bikes.Double.Frame with
        {
            Suspension = new()
            {
                Linkage = new SinglePivot(new(10, 40)),
                TravelMm = 100,
                SagFraction = 0.25,
            },
        },
    };

    [Fact]
    public void GapTarget_RigidRearEnd_SaysSo()
    {
        var gap = Gap(Bikes.Double);
        Assert.Contains("rigid rear end", gap.Convention, StringComparison.Ordinal);
        Assert.DoesNotContain("travel", gap.Note!, StringComparison.Ordinal);
    }

    [Fact]
    public void GapTarget_OnSuspension_IsSetAtSagAndTellsTheExtendedGap()
    {
        var gap = Gap(Suspended);
        Assert.Contains("at sag, 25 mm", gap.Convention, StringComparison.Ordinal);
        Assert.Contains("25 mm of travel", gap.Note!, StringComparison.Ordinal);
        var catalogue = Bikes.Catalogue(Suspended);
        Assert.Equal(25, catalogue.SetUpTravelMm);
        var extended = catalogue.ExtendedGapMm((34, 34), gap.Value!.Value)!.Value;
        Assert.NotEqual(gap.Value.Value, extended, 0.01);
    }

    /// <summary>A travel that is the shock's stroke is never called travel at the wheel, or bare travel.</summary>
    [Fact]
    public void Targets_WhereTravelIsTheShocksStroke_SayStroke()
    {
        var targets = Bikes.Targets(Bikes.HighPivot, new());
        var gap = targets.Single(t => t.Id == TargetNames.Gap);
        Assert.Contains("mm of shock stroke", gap.Convention, StringComparison.Ordinal);
        Assert.Contains("mm of shock stroke", gap.Note!, StringComparison.Ordinal);
        Assert.All(
            targets.SelectMany(t => new[] { t.Note, t.Convention, t.ConventionInShort }),
            words => Assert.DoesNotMatch("mm of travel", words ?? "")
        );
    }

    /// <summary>The chain is counted on the stand, where the wheel hangs; the longest position is told beside it.</summary>
    [Fact]
    public void ChainTargets_OnSuspension_SayHowTheRearEndStands()
    {
        var targets = Bikes.Targets(Suspended, Bikes.CableDouble);
        var rigid = Bikes.Targets(Bikes.Double, Bikes.CableDouble);
        var direct = targets.Single(t => t.Id == TargetNames.DirectPath);

        Assert.Contains("wheel hanging", direct.Convention, StringComparison.Ordinal);
        Assert.Equal(
            rigid.Single(t => t.Id == TargetNames.DirectPath).Value!.Value,
            direct.Value!.Value,
            1e-9
        );
        var longest = ChainChooser.Choose(Suspended).Numbers.DirectLargestPitches;
        Assert.True(longest > direct.Value + 0.1);
        Assert.Contains($"{longest:0.00} pitches", direct.Note!, StringComparison.Ordinal);
        Assert.Contains(
            "wheel hanging",
            targets.Single(t => t.Id == "loose-end").Convention,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            targets,
            t =>
                t.Convention.Contains("rigid", StringComparison.Ordinal)
                || (t.ConventionInShort ?? "").Contains("rigid", StringComparison.Ordinal)
        );
    }

    /// <summary>Common practice reads about 11 mm on a wide cassette without sag: there the target at sag must show just that.</summary>
    [Fact]
    public void GapTarget_OfAWideCassetteOnSuspension_IsThePracticeCarriedToSag()
    {
        var wide = Suspended with
        {
            Rings = [new(32, 52)],
            Cogs = Suspended.Cogs with { Teeth = [10, 12, 14, 16, 18, 21, 24, 28, 33, 39, 45, 51] },
            Chain = new(),
            RearDerailleur = Suspended.RearDerailleur! with
            {
                BodyAngleRad = Example.Rad(8),
                UpperPivotMm = new(-22, -39),
                LinkLengthMm = 69,
                LinkAngleRad = Example.Rad(-41),
                SlantRad = Example.Rad(59),
                Cage = Suspended.RearDerailleur.Cage with
                {
                    Guide = new(new(-22, 0), 13),
                    Tension = new(new(-4, -92), 13),
                },
            },
        };
        var catalogue = Bikes.Catalogue(wide);
        var gap = Gap(wide, new());

        Assert.Equal(10, catalogue.ExtendedGapMm((32, 51), gap.Lower!.Value)!.Value, 1e-6);
        Assert.Equal(12, catalogue.ExtendedGapMm((32, 51), gap.Upper!.Value)!.Value, 1e-6);
        Assert.NotEqual(10, gap.Lower.Value, 0.1);
        Assert.Contains("without sag", gap.Note!, StringComparison.Ordinal);
    }

    [Fact]
    public void GapQuantities_OnSuspension_AllCarryThePosition()
    {
        var gaps = Bikes
            .Catalogue(Suspended)
            .Quantities.Where(q => q.Name is QuantityNames.Gap or QuantityNames.GapToNextCog)
            .ToList();
        Assert.NotEmpty(gaps);
        Assert.All(
            gaps,
            gap => Assert.Contains("at sag, 25 mm", gap.Convention, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void ExtendedGap_OfTheModelsOwnGapAtSag_IsTheModelsGapFullyExtended()
    {
        var catalogue = Bikes.Catalogue(Suspended);
        var atSag = catalogue.Find(QuantityNames.Gap, (34, 34))!.Value;
        var choice = ChainChooser.Choose(Suspended);
        var extended = GearTableSolver
            .Solve(Suspended, ChainChooser.PitchesFor(Suspended, choice), null, 0)
            .Find(new(34, 34))!
            .Value.GapMm;
        Assert.Equal(extended, catalogue.ExtendedGapMm((34, 34), atSag)!.Value, 1e-6);
    }

    [Fact]
    public void GapTarget_SuspensionWithoutSag_IsSetFullyExtended()
    {
        var spec = Suspended with
        {
            Frame = Suspended.Frame with
            {
                Suspension = Suspended.Frame.Suspension! with { SagFraction = null },
            },
        };
        Assert.Contains("fully extended", Gap(spec).Convention, StringComparison.Ordinal);
    }

    // 25 % of 100 mm, by hand.
    [Theory]
    [InlineData(0.25, 25.0)]
    [InlineData(0.0, 0.0)]
    [InlineData(null, null)]
    public void SagTravel_ForAProcedure_IsThatOfTheSpec_WhereverTheTableStands(
        double? sag,
        double? travelMm
    )
    {
        var spec = Suspended with
        {
            Frame = Suspended.Frame with
            {
                Suspension = Suspended.Frame.Suspension! with { SagFraction = sag },
            },
        };
        var choice = ChainChooser.Choose(spec);
        var table = GearTableSolver.Solve(
            spec,
            ChainChooser.PitchesFor(spec, choice),
            travelMm: 60
        );

        Assert.Equal(
            travelMm,
            SpecQuantities
                .Of(QuantityCatalogue.Of(spec, choice, table), Bikes.CableDouble)
                .Find("sagTravel")
        );
    }

    private static Target Gap(DrivetrainSpec spec) => Gap(spec, Bikes.CableDouble);

    private static Target Gap(DrivetrainSpec spec, WorkSpec work) =>
        Bikes.Targets(spec, work).Single(target => target.Id == TargetNames.Gap);
}
