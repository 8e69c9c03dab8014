using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Files.Tests;

/// <summary>Other parts fitted to a spec: what it said of the old ones is gone, all else stands.</summary>
public sealed class FittingTests
{
    private const string Text = """
        name: Invented
        frame: {class: trail, chainstay: 441}
        hanger: {class: interchangeable}
        rings: [32]
        cogs:
          teeth: 10-12-14-16-18-21-24-28-33-39-45-51
          hubSpacing: 148
          tipDiameters: [47, 55, 63, 71, 79, 91, 103, 119, 139, 163, 187, 211]
        chain: {pitches: 120}
        rearDerailleur:
          class: trail-long
          gap: {ring: 32, cog: 51, value: 8, tolerance: 1}
        gearsNotUsed: [32/10]
        """;

    private static readonly PartLibrary Library = new([
        new()
        {
            Id = "small",
            Kind = PartKind.Cassette,
            Name = "small cassette",
            Values = PartFieldsOf(11, 13, 15, 17, 19, 21, 24, 28, 32, 36, 42, 46),
        },
        new()
        {
            Id = "ring-30",
            Kind = PartKind.Rings,
            Name = "ring",
            Values = PartFieldsOf(30),
        },
    ]);

    [Fact]
    public void Fit_OtherCassette_TakesItsCogsAndForgetsWhatWasSaidOfTheOld()
    {
        var fitting = SpecFitting.Of(Text, "a.yaml", Library).Fitting!;

        var fitted = fitting.Fit(fitting.Build.With(Library.Find("small")!)).Spec!;

        Assert.Equal(
            [11, 13, 15, 17, 19, 21, 24, 28, 32, 36, 42, 46],
            fitted.Drivetrain.Cogs.Teeth
        );
        Assert.Empty(fitted.Drivetrain.Cogs.TipDiametersMm);
        Assert.Empty(fitted.Drivetrain.GearsNotUsed);
        Assert.Null(fitted.Work.Gap);
        Assert.Null(fitted.Drivetrain.Chain.Pitches);
        // What was not replaced stands.
        Assert.Equal(441, fitted.Drivetrain.Frame.ChainstayMm);
        Assert.Equal("small", fitted.Parts[PartKind.Cassette]!.Id);
        Assert.Equal([32], fitted.Drivetrain.Rings.Select(ring => ring.Teeth));
    }

    [Fact]
    public void Fit_ChainKept_KeepsItsLengthUnlessItIsReplaced()
    {
        var fitting = SpecFitting.Of(Text, "a.yaml", Library).Fitting!;

        var kept = fitting.Fit(fitting.Build.With(Library.Find("ring-30")!), keepsChain: true);

        Assert.Equal(120, kept.Spec!.Drivetrain.Chain.Pitches);
        Assert.Equal([30], kept.Spec.Drivetrain.Rings.Select(ring => ring.Teeth));
    }

    /// <summary>A trim names its ring: of another one it says nothing, and must not make the bike one that cannot be.</summary>
    [Fact]
    public void Fit_OtherRings_ForgetsTheTrimsOfTheOld()
    {
        var text = Repository.Text("demo/specs/road-2x12-wireless.yaml");
        var fitting = SpecFitting.Of(text, "a.yaml", DemoParts.Library).Fitting!;

        var fitted = fitting.Fit(fitting.Build.With(DemoParts.Library.Find("quill-46-33")!));

        Assert.Empty(fitted.Problems);
        Assert.Equal([46, 33], fitted.Spec!.Drivetrain.Rings.Select(ring => ring.Teeth));
        Assert.NotNull(fitted.Spec.Drivetrain.FrontDerailleur);
    }

    /// <summary>A chain that stays on the bike is as long as it is; one that may be replaced is cut to length.</summary>
    [Fact]
    public void Ask_ChainNotAmongTheKinds_KeepsItsLength()
    {
        var fitting = SpecFitting.Of(Text, "a.yaml", Library).Fitting!;

        var kept = fitting.Ask(Library, [PartKind.Rings], inStockOnly: false, most: 5);
        var open = fitting.Ask(Library, [PartKind.Rings, PartKind.Chain], false, 5);

        Assert.Equal(120, kept.SpecOf!(fitting.Build)!.Chain.Pitches);
        Assert.Null(open.SpecOf!(fitting.Build)!.Chain.Pitches);
    }

    [Fact]
    public void Fit_NothingReplaced_IsTheSpecWithItsChainStillToChoose()
    {
        var fitting = SpecFitting.Of(Text, "a.yaml", Library).Fitting!;

        var same = fitting.Fit(fitting.Build, keepsChain: true).Spec!;

        Assert.Equal(SpecWriter.Write(fitting.Spec), SpecWriter.Write(same));
    }

    [Fact]
    public void Of_SpecWithErrors_GivesThemAndNoFitting()
    {
        var (fitting, reading) = SpecFitting.Of("name: x\nrings: [a]", "a.yaml", Library);

        Assert.Null(fitting);
        Assert.NotEmpty(reading.Problems);
    }

    private static ImmutableDictionary<PartField, PartValue> PartFieldsOf(params double[] teeth) =>
        ImmutableDictionary<PartField, PartValue>.Empty.Add(
            PartFields.Teeth,
            new PartValue.Numbers([.. teeth])
        );
}
