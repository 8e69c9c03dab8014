using Cogwright.Drivetrain;
using Cogwright.Setup.Catalogue;

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

    private static Target Gap(DrivetrainSpec spec) =>
        Bikes.Targets(spec, Bikes.CableDouble).Single(target => target.Id == TargetNames.Gap);
}
