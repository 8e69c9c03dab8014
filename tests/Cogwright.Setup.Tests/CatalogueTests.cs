using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

public sealed class CatalogueTests
{
    private static readonly QuantityCatalogue Catalogue = Bikes.Catalogue(Bikes.Double);

    // The model's worked example (model.md §9), computed apart from the product.
    [Theory]
    [InlineData(QuantityNames.Gap, 34, 34, 6.4308)]
    [InlineData(QuantityNames.Gap, 50, 11, 7.6997)]
    [InlineData(QuantityNames.CageAngle, 50, 34, 59.6689)]
    [InlineData(QuantityNames.CageAngle, 34, 11, -77.2768)]
    [InlineData(QuantityNames.CogTeethInMesh, 34, 34, 14.8652)]
    [InlineData(QuantityNames.TopRun, 50, 17, 404.5592)]
    public void Find_WorkedExample_HasItsValueInDegreesAndMm(
        string name,
        int ring,
        int cog,
        double expected
    ) => Assert.Equal(expected, Catalogue.Find(name, (ring, cog))!.Value, 1e-4);

    [Fact]
    public void Quantities_EveryKindOfBike_AreFiniteWithUnitAndConvention() =>
        Assert.All(
            Bikes.All.SelectMany(bike => Bikes.Catalogue(bike.Spec).Quantities),
            quantity =>
            {
                Assert.True(double.IsFinite(quantity.Value));
                Assert.NotEmpty(quantity.Unit);
                Assert.NotEmpty(quantity.Convention);
            }
        );

    [Fact]
    public void Find_GapToNextOnTheLargestCog_IsNotOffered()
    {
        Assert.Null(Catalogue.Find(QuantityNames.GapToNextCog, (34, 34)));
        Assert.NotNull(Catalogue.Find(QuantityNames.GapToNextCog, (34, 30)));
    }

    [Fact]
    public void GearsNotToUse_TooShortAChain_NamesTheGearAndWhy()
    {
        // model.md §9: with 108 pitches 50/34 (which needs 109.75) is short.
        var catalogue = Bikes.Catalogue(Bikes.Double with { Chain = new() { Pitches = 108 } });
        var gear = catalogue.GearsNotToUse.Single(g => g is { RingTeeth: 50, CogTeeth: 34 });
        Assert.Contains("too short", gear.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void GearsNotToUse_OfTheSpecAndLockedOut_GiveTheReason()
    {
        // With a rear stop half way the cage cannot take up what 50/34 needs: some gears must be locked out.
        var derailleur = Bikes.Double.RearDerailleur!;
        var catalogue = Bikes.Catalogue(
            Bikes.Double with
            {
                Chain = new(),
                GearsNotUsed = [new(50, 11)],
                RearDerailleur = derailleur with
                {
                    Cage = derailleur.Cage with { RearStopRad = Example.Rad(-30) },
                },
            }
        );
        Assert.Contains(
            catalogue.GearsNotToUse,
            g =>
                g is { RingTeeth: 50, CogTeeth: 11 }
                && g.Reason.StartsWith("The spec", StringComparison.Ordinal)
        );
        Assert.Contains(
            catalogue.GearsNotToUse,
            g => g.Reason.Contains("lock this one out", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Of_NoGearAtAll_AdvisesNoChain()
    {
        // A hanger far behind the wheel: the pulleys cannot lie free of the cogs in any gear.
        var spec = Bikes.Double with
        {
            Chain = new(),
        };
        var choice = ChainChooser.Choose(spec) with
        {
            Status = ChainChoiceStatus.NoGear,
            Numbers = new(0, 106.8, 110, null, null, null),
            Table = null,
        };
        var catalogue = QuantityCatalogue.Of(spec, choice, null);
        Assert.Null(catalogue.Chain.Pitches);
        var content = WorksheetContent.Make(catalogue, Bikes.CableDouble);
        Assert.Null(content.Chain.Pitches);
        Assert.Null(content.Turns);
        Assert.Contains("No chain length", content.Chain.Headline, StringComparison.Ordinal);
        var chain = TargetList
            .Make(catalogue, Bikes.CableDouble)
            .Single(t => t.Id == TargetNames.ChainPitches);
        Assert.Null(chain.Value);
        Assert.NotNull(chain.Caution);
    }
}
