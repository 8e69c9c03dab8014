using Cogwright.Web.Bikes;
using Cogwright.Web.Quick;

namespace Cogwright.Web.Tests;

public sealed class QuickTests
{
    private static QuickAnswer Answer(QuickEntry entry)
    {
        var sheet = QuickSheet.Of(entry);
        Assert.True(
            sheet.Sheet is not null,
            string.Join(' ', sheet.Errors.Values.Concat(sheet.Missing))
        );
        var reading = sheet.Sheet.Check();
        Assert.True(reading.Spec is not null, string.Join('\n', reading.Problems));
        return QuickAnswer.Of(ComputedBike.Of(reading.Spec), sheet.IsSuspended);
    }

    // Gears as bikes of each kind are sold with; the generic classes must serve them.
    [Theory]
    [InlineData("road", "50", "34", "", "11", "34", "12")]
    [InlineData("road", "52", "36", "", "11", "30", "11")]
    [InlineData("gravel", "40", "", "", "10", "44", "12")]
    [InlineData("trail", "32", "", "", "10", "51", "12")]
    [InlineData("touring", "48", "36", "26", "11", "34", "9")]
    [InlineData("city", "42", "", "", "11", "32", "8")]
    public void Answer_OfAnUsualBike_GivesChainGapAndNoBadNews(
        string kind,
        string ring1,
        string ring2,
        string ring3,
        string smallest,
        string largest,
        string count
    )
    {
        var answer = Answer(
            new()
            {
                Kind = kind,
                Rear = QuickEntry.Rigid,
                Ring1 = ring1,
                Ring2 = ring2,
                Ring3 = ring3,
                Smallest = smallest,
                Largest = largest,
                Count = count,
            }
        );
        Assert.NotNull(answer.Pitches);
        Assert.NotNull(answer.Gap);
        Assert.NotNull(answer.Capacity);
        Assert.NotEmpty(answer.Why);
        Assert.NotEmpty(answer.Assumed);
        Assert.DoesNotContain(answer.News, news => news.IsBad);
    }

    [Fact]
    public void Answer_OfASingleSpeed_IsAChainWithoutGap()
    {
        var answer = Answer(
            new()
            {
                Kind = "single",
                Ring1 = "44",
                Smallest = "16",
                Chainstay = "400",
            }
        );
        Assert.Equal(0, answer.Pitches % 2);
        Assert.Equal("The one gear is served", answer.News[0].Text);
        Assert.Null(answer.Gap);
        Assert.Null(answer.Capacity);
    }

    [Fact]
    public void Answer_WithMoreTeethThanTheCageTakes_IsBadNewsFirst()
    {
        var answer = Answer(
            new()
            {
                Kind = "road",
                Rear = QuickEntry.Rigid,
                Derailleur = "road-short",
                Ring1 = "52",
                Ring2 = "34",
                Smallest = "11",
                Largest = "42",
                Count = "11",
            }
        );
        Assert.StartsWith(
            "Largest cog out of reach by",
            answer.News[0].Text,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Cage short by",
            answer.News.Last(news => news.IsBad).Text,
            StringComparison.Ordinal
        );
        Assert.Equal("", answer.WhyInShort);
        Assert.Contains("missing", answer.Capacity, StringComparison.Ordinal);
    }

    private static readonly QuickEntry Trail = new()
    {
        Kind = "trail",
        Ring1 = "32",
        Smallest = "10",
        Largest = "51",
        Count = "12",
    };

    [Fact]
    public void Sheet_OfABikeWithADerailleur_AsksWhetherItsRearEndIsSuspended()
    {
        Assert.Equal(["Rear"], QuickSheet.Of(Trail).Missing);
        Assert.Null(QuickSheet.Of(Trail).Sheet);
        Assert.NotNull(QuickSheet.Of(Trail with { Rear = QuickEntry.Rigid }).Sheet);
        Assert.DoesNotContain("Rear", QuickSheet.Of(Trail with { Kind = "single" }).Missing);
    }

    [Fact]
    public void Answer_OfASuspendedRearEnd_NeedsItsLongestPositionAndHoldsForThatAlone()
    {
        var suspended = Trail with { Rear = QuickEntry.Suspended };
        // A class's chainstay is that of a rear end at rest: it will not do.
        Assert.Equal(["Chainstay"], QuickSheet.Of(suspended).Missing);

        var extended = Answer(Trail with { Rear = QuickEntry.Rigid, Chainstay = "437" });
        var longest = Answer(suspended with { Chainstay = "465" });
        Assert.True(longest.Pitches > extended.Pitches);
        Assert.Equal(
            longest.Pitches,
            Answer(Trail with { Rear = QuickEntry.Rigid, Chainstay = "465" }).Pitches
        );
        Assert.Equal("All 12 gears served with the rear end at its longest", longest.News[0].Text);
        Assert.StartsWith("Suspended rear end: ", longest.News[1].Text, StringComparison.Ordinal);
        Assert.EndsWith("the rear end at sag.", longest.GapConvention, StringComparison.Ordinal);
        Assert.Null(longest.GapNow);
        Assert.NotNull(extended.GapNow);
        Assert.True(longest.IsSuspended);
        Assert.False(extended.IsSuspended);
        Assert.DoesNotContain(
            extended.News,
            news => news.Text.Contains("uspended", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("", "Trail 1×12, suspended: chainstay at its longest")]
    [InlineData("Tag 7", "Tag 7, suspended: chainstay at its longest")]
    public void Sheet_OfASuspendedRearEnd_SaysSoInItsName(string given, string name)
    {
        var entry = Trail with { Rear = QuickEntry.Suspended, Chainstay = "465", Name = given };
        Assert.Equal(name, QuickSheet.Of(entry).Sheet!["name"]);
    }

    [Fact]
    public void Sheet_OfNothing_NamesWhatIsNeededInReadingOrder() =>
        Assert.Equal(
            ["Kind", "Ring1", "Smallest", "Largest", "Count"],
            QuickSheet.Of(new()).Missing
        );

    [Fact]
    public void Sheet_OfRingsInAnyOrder_PutsTheLargestFirst()
    {
        var sheet = QuickSheet.Of(
            new()
            {
                Kind = "road",
                Rear = QuickEntry.Rigid,
                Ring1 = "34",
                Ring2 = "50",
                IsListed = true,
                Cogs = "34 11,13-15 17 21/28",
            }
        );
        Assert.Equal("50", sheet.Sheet!["rings[0].teeth"]);
        Assert.Equal([11, 13, 15, 17, 21, 28, 34], sheet.Cogs);
        Assert.False(sheet.AreFilled);
    }

    [Theory]
    [InlineData("Ring1", "5")]
    [InlineData("Ring1", "5o")]
    [InlineData("Ring2", "50")]
    [InlineData("Largest", "11")]
    [InlineData("Count", "14")]
    [InlineData("Chainstay", "43 in")]
    [InlineData("Chainstay", "long")]
    [InlineData("Cogs", "11-11-13")]
    [InlineData("Cogs", "11-x")]
    public void Sheet_OfAWrongField_SaysSoAtIt(string field, string text)
    {
        var entry = new QuickEntry
        {
            Kind = "road",
            Rear = QuickEntry.Rigid,
            Ring1 = "50",
            Smallest = "11",
            Largest = "34",
            Count = "11",
        };
        entry = field switch
        {
            "Ring1" => entry with { Ring1 = text },
            "Ring2" => entry with { Ring2 = text },
            "Largest" => entry with { Largest = text },
            "Count" => entry with { Count = text },
            "Chainstay" => entry with { Chainstay = text },
            _ => entry with { IsListed = true, Cogs = text },
        };
        var sheet = QuickSheet.Of(entry);
        Assert.Null(sheet.Sheet);
        Assert.Equal([field], sheet.Errors.Keys);
    }

    [Fact]
    public void Sheet_OfAnEmptiedList_AsksForItAndTakesNoHiddenField()
    {
        var entry = new QuickEntry
        {
            Kind = "road",
            Rear = QuickEntry.Rigid,
            Ring1 = "50",
            Smallest = "11",
            Largest = "34",
            Count = "11",
            IsListed = true,
            Cogs = " ",
        };
        var sheet = QuickSheet.Of(entry);
        Assert.Null(sheet.Sheet);
        Assert.Equal([nameof(entry.Cogs)], sheet.Missing);
        // The list is kept while the ends are asked for.
        var ends = QuickSheet.Of(entry with { IsListed = false, Cogs = "11-12-13" });
        Assert.Equal(11, ends.Cogs.Length);
    }

    [Fact]
    public void Kinds_AndDerailleurs_AllHaveWords()
    {
        Assert.All(BikeKind.All, kind => Assert.NotEqual("", Texts.Get($"new.kind.{kind.Id}")));
        Assert.All(
            BikeKind.All,
            kind =>
                Assert.True(
                    kind.Derailleur is null || BikeKind.Derailleurs.Contains(kind.Derailleur)
                )
        );
        Assert.All(
            BikeKind.Derailleurs,
            name => Assert.NotEqual("", Texts.Get($"new.derailleur.{name}"))
        );
    }
}
