using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Files.Tests;

/// <summary>Parts fitted on a sheet: what it said of the old one goes, the rest stands.</summary>
public sealed class SheetPartsTests
{
    private static readonly SpecSheet Sheet = SpecSheet
        .Read(
            """
            name: Invented
            frame: {class: touring, chainstay: 451}
            hanger: {class: mountain}
            rearDerailleur: {class: touring-long}
            rings: [42]
            cogs: {teeth: 11-13-15-18-21-24-28-32, spacing: 4.8}
            chain: {pitches: 110, width: 7.1}
            """,
            "a.yaml"
        )
        .Sheet!;

    [Fact]
    public void Fit_Cassette_NamesItAndDropsTheOldOnesFigures()
    {
        var fitted = Sheet.Fit(Some(PartKind.Cassette, "eight"));

        Assert.Equal("eight", fitted["parts.cassette"]);
        Assert.Null(fitted["cogs.teeth"]);
        Assert.Null(fitted["cogs.spacing"]);
        Assert.Equal("110", fitted["chain.pitches"]);
        Assert.Equal("451", fitted["frame.chainstay"]);
    }

    [Fact]
    public void Fit_Chain_ForgetsTheOldChainsLength()
    {
        var fitted = Sheet.Fit(Some(PartKind.Chain, "new"));

        Assert.Null(fitted["chain.pitches"]);
        Assert.Null(fitted["chain.width"]);
    }

    [Fact]
    public void Fit_Rings_TakesTheWholeListOut() =>
        Assert.DoesNotContain(
            Sheet.Fit(Some(PartKind.Rings, "ring")).Values.Keys,
            path => path.StartsWith("rings", StringComparison.Ordinal)
        );

    /// <summary>What was measured with the old part says nothing of the new one: least of all how near the spokes are.</summary>
    [Theory]
    [InlineData(PartKind.Hanger, "wheel.cageToSpokes")]
    [InlineData(PartKind.Cage, "wheel.cageToSpokes")]
    [InlineData(PartKind.Frame, "wheel.cageToSpokes")]
    [InlineData(PartKind.Cassette, "wheel.cageToSpokes")]
    [InlineData(PartKind.RearDerailleur, "wheel.cageToSpokes")]
    [InlineData(PartKind.RearWheel, "wheel.cageToSpokes")]
    [InlineData(PartKind.RearWheel, "cogs.smallestLateral")]
    [InlineData(PartKind.Cassette, "wheel.cogToSpokes")]
    [InlineData(PartKind.Crank, "rings[0].lateral")]
    [InlineData(PartKind.RearDerailleur, "work.actuation")]
    [InlineData(PartKind.Hanger, "measured.sigma")]
    public void Fit_AnyPart_ForgetsWhatWasMeasuredWithTheOldOne(PartKind kind, string path)
    {
        var measured = Sheet.With(path, "4");

        var fitted = measured.Fit(Some(kind, "new"));

        Assert.Equal("4", measured[path]);
        Assert.Null(fitted[path]);
    }

    [Fact]
    public void Fit_RearDerailleur_TakesItsStopScrewsAndLeavesTheBarrelAdjuster()
    {
        var sheet = Sheet
            .With("adjusters[0].moves", "rear-inboard-stop")
            .With("adjusters[0].turnsLeftIn", "3")
            .With("adjusters[1].moves", "cable-length");

        var fitted = sheet.Fit(Some(PartKind.RearDerailleur, "new"));

        Assert.Equal(1, fitted.CountOf("adjusters"));
        Assert.Equal("cable-length", fitted["adjusters[0].moves"]);
    }

    [Fact]
    public void Fit_TwoAdapters_KeepsBoth_AndTheReaderFindsThem()
    {
        var one = Some(PartKind.Adapter, "spacer");
        var two = Some(PartKind.Adapter, "extender");

        var reading = SpecReader.Read(
            Sheet.Fit(one).Fit(two).ToYaml(),
            "a.yaml",
            new PartLibrary([one, two])
        );

        Assert.Equal(["spacer", "extender"], reading.Spec!.Parts.Adapters.Select(part => part.Id));
    }

    private static Part Some(PartKind kind, string id) =>
        new()
        {
            Id = id,
            Kind = kind,
            Name = id,
            Values = ImmutableDictionary<PartField, PartValue>.Empty,
        };
}
