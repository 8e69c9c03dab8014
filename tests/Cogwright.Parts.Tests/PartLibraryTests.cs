using System.Collections.Immutable;
using CsCheck;

namespace Cogwright.Parts.Tests;

/// <summary>Parts are found by id and by words, and a library that takes more parts tells what became of each.</summary>
public sealed class PartLibraryTests
{
    private static readonly Part Wide = new()
    {
        Id = "fenwold-11-34",
        Kind = PartKind.Cassette,
        Name = "Fenwold 11-34",
        Maker = "Osmead Cogs",
        Values = ImmutableDictionary<PartField, PartValue>.Empty.Add(
            PartFields.HubDriver,
            new PartValue.Tags(["spline-35"])
        ),
    };

    private static readonly Part Narrow = Wide with
    {
        Id = "fenwold-11-28",
        Name = "Fenwold 11-28",
    };

    private static readonly Part Chain = new()
    {
        Id = "osmead-chain",
        Kind = PartKind.Chain,
        Name = "Quiet 12",
        Maker = "Osmead Cogs",
    };

    private static readonly PartLibrary Three = new([Chain, Wide, Narrow]);

    [Fact]
    public void Find_KnownAndUnknownId_GivesThePartOrNothing()
    {
        Assert.Same(Wide, Three.Find("fenwold-11-34"));
        Assert.Null(Three.Find("fenwold-11-32"));
    }

    [Fact]
    public void Of_Kind_GivesItsPartsById() =>
        Assert.Equal([Narrow, Wide], Three.Of(PartKind.Cassette));

    [Theory]
    [InlineData("fen", "fenwold-11-28 fenwold-11-34")]
    [InlineData("34 FENW", "fenwold-11-34")]
    [InlineData("osmead", "fenwold-11-28 fenwold-11-34 osmead-chain")]
    [InlineData("cass spline 11", "fenwold-11-28 fenwold-11-34")]
    [InlineData("chain", "osmead-chain")]
    [InlineData("wick", "")]
    [InlineData("fen 99", "")]
    [InlineData("fenwold-11-34", "fenwold-11-34")]
    [InlineData("--", "fenwold-11-28 fenwold-11-34 osmead-chain")]
    public void Search_Words_MatchesEachAsTheBeginningOfAWord(string words, string ids) =>
        Assert.Equal(ids, string.Join(' ', Three.Search(words, null, 10).Select(p => p.Id)));

    [Fact]
    public void Search_IdWrittenOut_ComesBeforeBetterNames()
    {
        var named = Chain with { Id = "a", Name = "osmead chain" };
        var library = new PartLibrary([named, Chain]);

        Assert.Equal([Chain, named], library.Search("osmead-chain", null, 5));
    }

    [Fact]
    public void Search_WholeWordInTheName_ComesBeforeABeginningElsewhere()
    {
        var whole = Chain with { Id = "z", Name = "Zest 12" };
        var begins = Chain with { Id = "a", Name = "Alder", Maker = "Zestful" };
        var library = new PartLibrary([begins, whole]);

        Assert.Equal([whole, begins], library.Search("zest", null, 5));
    }

    [Fact]
    public void Search_KindAndMost_Limit()
    {
        Assert.Equal([Chain], Three.Search("osmead", PartKind.Chain, 5));
        Assert.Equal([Narrow], Three.Search("osmead", null, 1));
        Assert.Empty(Three.Search("osmead", null, 0));
        Assert.Empty(Three.Search("osmead-chain", PartKind.Frame, 5));
    }

    [Fact]
    public void With_Parts_TellsAddedChangedAndSame()
    {
        var heavier = Chain with { Name = "Quiet 12 heavy" };
        var more = Narrow with { Id = "fenwold-12-25" };

        var change = Three.With([Wide with { }, heavier, more]);

        Assert.Equal([more], change.Added);
        Assert.Equal([new PartChange(Chain, heavier)], change.Changed);
        Assert.Equal([Wide], change.Same);
        Assert.Equal(4, change.Library.Count);
        Assert.Equal(heavier, change.Library.Find("osmead-chain"));
        Assert.Equal(Chain, Three.Find("osmead-chain"));
    }

    [Fact]
    public void With_NothingNew_IsTheSameLibrary() =>
        Assert.Same(Three, Three.With([Wide]).Library);

    [Theory]
    [InlineData("")]
    [InlineData("Fenwold")]
    [InlineData("two words")]
    public void Library_IdThatIsNone_IsRefused(string id) =>
        Assert.Throws<ArgumentException>(() => new PartLibrary([Chain with { Id = id }]));

    private static readonly Gen<Part> AnyPart =
        from number in Gen.Int[0, 400]
        from kind in Gen.Enum<PartKind>()
        from name in Gen.Char["ab 1-Ä"].Array[0, 8].Select(c => new string(c))
        from maker in Gen.Int[0, 2].Select(i => new[] { "", "Abel", "Osmead 1" }[i])
        from tag in Gen.Int[0, 2].Select(i => new[] { "spline-35", "b1", "1.37x24" }[i])
        select new Part
        {
            Id = "p" + number.ToString(System.Globalization.CultureInfo.InvariantCulture),
            Kind = kind,
            Name = name,
            Maker = maker,
            Values = ImmutableDictionary<PartField, PartValue>.Empty.Add(
                PartFields.HubDriver,
                new PartValue.Tags([tag])
            ),
        };

    [Fact]
    public void Search_RandomParts_FindsWhatLookingAtEachFinds() =>
        Gen.Select(AnyPart.Array[0, 60], Gen.Char["ab1 -ä"].Array[0, 5].Select(c => new string(c)))
            .Sample(
                (parts, words) =>
                {
                    var library = new PartLibrary(parts);
                    var found = library.Search(words, null, 1000).Select(p => p.Id).Order();
                    var naive = library.Parts.Where(p => Matches(p, words)).Select(p => p.Id);
                    Assert.Equal(naive.Order(), found);
                },
                iter: 500
            );

    /// <summary>A naive twin of the search: splits and compares every text of the part.</summary>
    private static bool Matches(Part part, string words)
    {
        var held = Words(
            $"{part.Name} {part.Maker} {part.Id} {PartKinds.TitleOf(part.Kind)} {part.Tag(PartFields.HubDriver)}"
        );
        return Words(words)
            .All(w => held.Any(h => h.StartsWith(w, StringComparison.OrdinalIgnoreCase)));
    }

    private static List<string> Words(string text) =>
        [
            .. new string([.. text.Select(c => char.IsLetterOrDigit(c) ? c : ' ')]).Split(
                ' ',
                StringSplitOptions.RemoveEmptyEntries
            ),
        ];

    /// <summary>A library far larger than a workshop's; work that grows with the square of it would not end here.</summary>
    [Fact]
    public void Search_HundredThousandParts_FindsAmongAll()
    {
        var library = new PartLibrary(
            Enumerable
                .Range(0, 100_000)
                .Select(i =>
                    Wide with
                    {
                        Id = $"part-{i}",
                        Name = $"Fenwold {i % 90} {(i % 7 == 0 ? "wide" : "narrow")}",
                        Maker = $"Maker {i % 300}",
                    }
                )
        );

        Assert.Equal("part-77777", library.Search("part-77777", null, 20)[0].Id);
        Assert.Equal(20, library.Search("f", null, 20).Length);
        Assert.All(
            library.Search("wide maker 299", null, 50),
            p => Assert.Contains("wide", p.Name, StringComparison.Ordinal)
        );
    }
}
