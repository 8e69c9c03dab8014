using Cogwright.Parts;

namespace Cogwright.Files.Tests;

/// <summary>Rings and cassettes of the library to be ridden: those alone that belong together with the bike, all others counted.</summary>
public sealed class RideSetsTests
{
    private static SpecFitting Fitting(string bike, Func<string, string>? change = null)
    {
        var text = Repository.Text($"demo/specs/{bike}.yaml");
        var (fitting, reading) = SpecFitting.Of(
            change is null ? text : change(text),
            bike,
            DemoParts.Library
        );
        Assert.True(fitting is not null, string.Join('\n', reading.Problems));
        return fitting;
    }

    private static RideSets Of(SpecFitting fitting, PartLibrary? library = null)
    {
        var question = RideSets.Question(
            fitting,
            library ?? DemoParts.Library,
            RideSets.Kinds,
            inStockOnly: false
        );
        return RideSets.Of(
            question,
            OptionSearch.Find(question),
            fitting.Spec.Drivetrain.Chain.Pitches
        );
    }

    public static TheoryData<string> Bikes =>
        ["road-2x12-wireless", "full-suspension-1x12", "touring-3x9-cable", "measured-2x12"];

    [Theory]
    [MemberData(nameof(Bikes))]
    public void Of_AnyBike_EverySetIsCountedForOneReason(string bike)
    {
        var sets = Of(Fitting(bike));

        Assert.Equal(
            DemoParts.Library.Of(PartKind.Rings).Length
                * (long)DemoParts.Library.Of(PartKind.Cassette).Length,
            sets.All
        );
        Assert.Equal(
            sets.All,
            sets.Apart
                + sets.NotServed
                + sets.NotSaid
                + sets.Present
                + sets.Sets.Length
                + sets.Further
        );
        Assert.InRange(sets.NotServed, 0, sets.All);
        Assert.InRange(sets.Further, 0, sets.All);
    }

    /// <summary>Each set that is ridden is one that the rules, asked of the whole bike, do not refuse; with the teeth of its parts.</summary>
    [Theory]
    [InlineData("road-2x12-wireless", "quill-46-33+pell-12-11-34")]
    [InlineData("full-suspension-1x12", "dun-3-30+dun-12-10-51")]
    public void Of_ABikeWhosePartsAreNamed_FindsWhatBelongsTogetherAndNothingElse(
        string bike,
        string expected
    )
    {
        var fitting = Fitting(bike);
        var now = fitting.Build;

        var sets = Of(fitting);

        Assert.Contains(sets.Sets, set => set.Candidate.Id == expected);
        Assert.All(sets.Sets, set => Assert.NotNull(set.Option.Pitches));
        Assert.Contains("count its pitches", sets.ChainSaid, StringComparison.Ordinal);
        Assert.Equal(1, sets.Present);
        Assert.All(
            sets.Sets,
            set =>
            {
                var build = set.Option.Build;
                Assert.True(
                    build[PartKind.Rings]!.Id != now[PartKind.Rings]!.Id
                        || build[PartKind.Cassette]!.Id != now[PartKind.Cassette]!.Id
                );
                Assert.Equal(Teeth(build, PartKind.Rings), set.Candidate.Set.Rings);
                Assert.Equal(Teeth(build, PartKind.Cassette), set.Candidate.Set.Cogs);
                var fitted = fitting.Fit(build);
                Assert.Empty(fitted.Problems);
                Assert.DoesNotContain(
                    fitting.Judge(fitted.Spec!, DemoParts.Library).Side.Compatibility.Answers,
                    answer => answer.Answer is Compatibility.No or Compatibility.CannotSay
                );
            }
        );

        static IEnumerable<int> Teeth(Build build, PartKind kind) =>
            build[kind]!.Numbers(PartFields.Teeth).Select(teeth => (int)teeth).Order();
    }

    /// <summary>A long cage less takes up less chain: what the sheet still allows, the mechanism does not serve.</summary>
    [Fact]
    public void Of_ACageThatTakesUpTooLittle_CountsWhatWouldNotBeServed()
    {
        var sets = Of(
            Fitting(
                "road-2x12-wireless",
                text =>
                    text.Replace(
                        "  cage: {innerFace: 4.8}",
                        "  cage: {innerFace: 4.8, class: short}",
                        StringComparison.Ordinal
                    )
            )
        );

        Assert.True(sets.NotServed > 0);
        Assert.Contains(
            $"{sets.NotServed} would not be served",
            sets.Said()[0],
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Of_ABikeWhosePartsAreNotNamed_RidesNoneAndSaysWhy()
    {
        var sets = Of(Fitting("touring-3x9-cable"));

        Assert.Empty(sets.Sets);
        Assert.True(sets.NotSaid > 0);
        Assert.Contains(
            "cannot be said to belong together",
            sets.Said()[^1],
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Of_ALibraryWithoutParts_SaysThatThereIsNoOther()
    {
        var sets = Of(Fitting("road-2x12-wireless"), PartLibrary.Empty);

        Assert.Equal((0, 0), (sets.All, sets.Sets.Length));
        Assert.Contains("No other rings or cassette", sets.Said()[^1], StringComparison.Ordinal);
    }

    /// <summary>Larger cogs are found, but only with a new chain: the present one would tear the derailleur off.</summary>
    [Fact]
    public void Of_AChainThatIsTooShortForLargerCogs_StillFindsThem()
    {
        var sets = Of(
            Fitting(
                "road-2x12-wireless",
                text =>
                    text.Replace(
                        "  elongation: 0 %",
                        "  elongation: 0 %\n  pitches: 108",
                        StringComparison.Ordinal
                    )
            )
        );

        var larger = Assert.Single(
            sets.Sets,
            set => set.Candidate.Id == "quill-54-40+pell-12-11-34"
        );
        Assert.Equal((Compatibility.YesWith, 108), (larger.Answer, larger.PitchesNow));
        Assert.True(larger.Option.Pitches > 108);
        Assert.Contains("108 pitches", sets.ChainSaid, StringComparison.Ordinal);
    }

    [Fact]
    public void Question_OfAKindThatMakesNoGears_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            RideSets.Question(
                Fitting("road-2x12-wireless"),
                DemoParts.Library,
                [PartKind.Chain],
                inStockOnly: false
            )
        );
}
