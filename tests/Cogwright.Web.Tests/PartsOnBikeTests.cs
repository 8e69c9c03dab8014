using Cogwright.Drivetrain.Bench;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Web.Bikes;
using Cogwright.Web.Parts;

namespace Cogwright.Web.Tests;

/// <summary>Parts on a bike that was measured: it is judged as it was measured, as long as what was measured is on it.</summary>
public sealed class PartsOnBikeTests
{
    private static readonly SpecSheet Sheet = DemoWorkshop.Sheet("demo-measured-2x12");
    private static readonly BenchFit Fit = BenchGeometry.Fit(Sheet.Check().Spec!.Drivetrain);

    private readonly PartsOnBike parts = PartsOnBike.Of(Sheet, DemoParts.Library, Fit)!;

    private static Part First(PartKind kind, Func<Part, bool>? which = null) =>
        DemoParts.Library.Of(kind).First(part => which is null || which(part));

    private static Part OtherCogs =>
        First(
            PartKind.Cassette,
            part =>
                part.Values[PartFields.Teeth] is PartValue.Numbers { Values.Length: 12 } teeth
                && teeth.Values[^1] != 34
        );

    [Fact]
    public void Now_OfAMeasuredBike_IsTheMechanismThatEveryOtherPageShows()
    {
        var shown = ComputedBike.Of(Sheet.Check().Spec!, Fit);

        Assert.Equal(shown.Spec.RearDerailleur, parts.Now.Table.Spec.RearDerailleur);
        Assert.Equal(
            shown.Table.Gears.Select(g => g.GapMm),
            parts.Now.Table.Gears.Select(g => g.GapMm)
        );
        Assert.False(parts.IsWithoutMeasured);
        Assert.True(PartsOnBike.Of(Sheet, DemoParts.Library, null)!.IsWithoutMeasured);
    }

    [Fact]
    public void Try_AnotherCassette_KeepsWhatWasMeasuredOfTheDerailleur()
    {
        var after = parts.Try(OtherCogs).After;

        Assert.NotNull(after);
        Assert.Equal(Fit.Spec.RearDerailleur, after.Table.Spec.RearDerailleur);
        Assert.NotEqual(34, after.Table.Spec.Cogs.Teeth[^1]);
        Assert.Contains(
            after.Table.Spec.Fitted,
            value => value.Path.StartsWith("rearD", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            after.Table.Spec.Fitted,
            value => value.Path.StartsWith("cogs", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData(PartKind.RearDerailleur)]
    [InlineData(PartKind.Hanger)]
    [InlineData(PartKind.Frame)]
    public void Try_APartThatItWasMeasuredOn_LeavesTheMeasurementsOut(PartKind kind)
    {
        var after = parts.Try(First(kind)).After;

        Assert.NotNull(after);
        Assert.Empty(after.Table.Spec.Fitted);
        Assert.NotEqual(Fit.Spec.RearDerailleur, after.Table.Spec.RearDerailleur);
    }

    [Fact]
    public void Question_OfAMeasuredBike_SolvesWhatWasMeasured()
    {
        var question = parts.Question([PartKind.Cassette], inStock: false, most: 5);

        var spec = question.SpecOf!(question.Now.With(OtherCogs));

        Assert.Equal(Fit.Spec.RearDerailleur, spec!.RearDerailleur);
    }
}
