using System.Collections.Immutable;
using CsCheck;
using static Cogwright.Parts.Tests.Invented;

namespace Cogwright.Parts.Tests;

/// <summary>The search beside a twin that judges every combination, and what must hold of any answer.</summary>
public sealed class OptionTests
{
    private static readonly Gen<Part> AnyCassette =
        from first in Gen.Int[9, 13]
        from last in Gen.Int[25, 52]
        from spacing in AnyOf(3.58, 3.72, 3.95)
        from driver in AnyOf("spline-a", "spline-b")
        from stock in AnyOf<int?>(null, 0, 3)
        select Cassette
            .With(
                PartFields.Teeth,
                Numbers([
                    .. Enumerable.Range(0, 11).Select(i => i == 10 ? last : (double)first + i),
                ])
            )
            .With(PartFields.Spacing, Number(spacing))
            .With(PartFields.HubDriver, Tag(driver)) with
        {
            InStock = stock,
        };

    private static readonly Gen<Part> AnyDerailleur =
        from largest in Gen.Int[28, 52]
        from capacity in Gen.Int[20, 48]
        from ratio in AnyOf(1.1, 1.38, 1.7)
        from said in Gen.Bool
        select Derailleur
            .With(PartFields.LargestCog, said ? Number(largest) : null)
            .With(PartFields.Capacity, Number(capacity))
            .With(PartFields.ShiftRatio, Number(ratio));

    private static readonly Gen<Part> AnyRings =
        from small in Gen.Int[26, 40]
        from difference in Gen.Int[0, 16]
        select Rings.With(PartFields.Teeth, Numbers(small, small + difference));

    private static readonly Gen<OptionQuestion> AnyQuestion =
        from cassettes in AnyCassette.Array[0, 6]
        from derailleurs in AnyDerailleur.Array[1, 6]
        from rings in AnyRings.Array[1, 4]
        select new OptionQuestion
        {
            Now = new(Frame, Wheel, Crank, Cassette, Rings, Derailleur, Shifter),
            Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>
                .Empty.Add(PartKind.Cassette, Named(cassettes))
                .Add(PartKind.RearDerailleur, Named(derailleurs))
                .Add(PartKind.Rings, Named(rings)),
            Most = 1000,
        };

    [Fact]
    public void Find_AnyQuestion_AnswersAsTheTwinThatJudgesAll() =>
        AnyQuestion.Sample(
            question =>
            {
                var found = OptionSearch.Find(question);
                var twin = OptionTwin.Find(question);

                Assert.Equal(twin.Select(Line), found.Options.Select(Line));
            },
            iter: 200
        );

    [Fact]
    public void Find_FewerListed_AreTheFirstOfAll() =>
        AnyQuestion.Sample(
            question =>
                Assert.Equal(
                    OptionSearch.Find(question).Options.Take(3).Select(Line),
                    OptionSearch.Find(question with { Most = 3 }).Options.Select(Line)
                ),
            iter: 200
        );

    /// <summary>A derailleur that takes more can only add options.</summary>
    [Fact]
    public void Find_DerailleurThatTakesMore_NeverRemovesAnOption() =>
        AnyQuestion.Sample(
            question =>
            {
                var looser = question with
                {
                    Candidates = question.Candidates.SetItem(
                        PartKind.RearDerailleur,
                        [.. question.Candidates[PartKind.RearDerailleur].Select(Looser)]
                    ),
                };
                var before = OptionSearch.Find(question).Options.Select(Parts);
                var after = OptionSearch.Find(looser).Options.Select(Parts).ToHashSet();

                Assert.All(before, option => Assert.Contains(option, after));
            },
            iter: 200
        );

    /// <summary>One candidate more never removes what was found without it.</summary>
    [Fact]
    public void Find_OneCandidateMore_NeverRemovesAnOption() =>
        Gen.Select(AnyQuestion, AnyCassette)
            .Sample(
                (question, more) =>
                {
                    var wider = question with
                    {
                        Candidates = question.Candidates.SetItem(
                            PartKind.Cassette,
                            question.Candidates[PartKind.Cassette].Add(more with { Id = "more" })
                        ),
                    };
                    var after = OptionSearch.Find(wider).Options.Select(Line).ToHashSet();

                    Assert.All(
                        OptionSearch.Find(question).Options.Select(Line),
                        option => Assert.Contains(option, after)
                    );
                },
                iter: 200
            );

    [Fact]
    public void Find_Cancelled_Ends()
    {
        using var cancelled = new CancellationTokenSource();
        cancelled.Cancel();
        var many = Enumerable
            .Range(0, 100)
            .Select(i => Rings with { Id = $"r{i}" })
            .ToImmutableArray();
        var question = new OptionQuestion
        {
            Now = new(Frame, Wheel, Shifter),
            Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>
                .Empty.Add(PartKind.Rings, many)
                .Add(
                    PartKind.RearDerailleur,
                    [.. Enumerable.Range(0, 100).Select(i => Derailleur with { Id = $"d{i}" })]
                ),
        };

        Assert.Throws<OperationCanceledException>(() =>
            OptionSearch.Find(question, null, cancelled.Token)
        );
    }

    /// <summary>Whatever is asked, memory and patience have an end: it is told what there would be too much of.</summary>
    [Fact]
    public void Find_MoreThanCanBeSearched_SaysOfWhatThereIsTooMuch()
    {
        ImmutableArray<Part> Many(Part part, int count) =>
            [.. Enumerable.Range(0, count).Select(i => part with { Id = $"{part.Id}-{i}" })];
        var question = new OptionQuestion
        {
            Now = new(),
            Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>
                .Empty.Add(PartKind.Rings, Many(Rings, 900))
                .Add(PartKind.RearDerailleur, Many(Derailleur, 900))
                .Add(PartKind.Cassette, Many(Cassette, 900)),
        };

        var result = OptionSearch.Find(
            question,
            cancellation: TestContext.Current.CancellationToken
        );

        Assert.Empty(result.Options);
        Assert.Equal(900L * 900 * 900, result.Combinations);
        Assert.Equal([900, 900, 900], result.TooMany.Select(each => each.Parts));
    }

    [Fact]
    public void Find_NothingLeft_NamesTheRuleThatRuledOut()
    {
        var question = new OptionQuestion
        {
            Now = new(Wheel),
            Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>.Empty.Add(
                PartKind.Cassette,
                [Cassette.With(PartFields.HubDriver, Tag("spline-b"))]
            ),
        };

        var result = OptionSearch.Find(
            question,
            cancellation: TestContext.Current.CancellationToken
        );

        Assert.Empty(result.Options);
        Assert.Equal([("Hub driver", 1L)], result.Blocking);
    }

    [Theory]
    [InlineData(2, true)]
    [InlineData(0, false)]
    [InlineData(null, null)]
    public void Find_OptionThatNeedsAnAdapter_IsInStockOnlyWithTheAdapter(int? count, bool? all)
    {
        var adapter = Of(PartKind.Adapter, "spacer")
            .With(PartFields.Joins, Tag(PartFields.HubDriver.Name))
            .With(PartFields.From, Tag("spline-a"))
            .With(PartFields.To, Tag("spline-b")) with
        {
            InStock = count,
        };
        var other = Cassette.With(PartFields.HubDriver, Tag("spline-b")) with
        {
            Id = "other",
            InStock = 1,
        };
        var question = new OptionQuestion
        {
            Now = new(Wheel, Cassette),
            AdaptersAtHand = [adapter],
            Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>.Empty.Add(
                PartKind.Cassette,
                [other]
            ),
        };

        var atHand = Assert.Single(OptionsOf(question));
        var fitted = Assert.Single(
            OptionsOf(question with { Now = new(Wheel, Cassette, adapter) })
        );

        Assert.Equal(Compatibility.YesWith, atHand.Answer);
        Assert.Equal(all, atHand.AllInStock);
        Assert.True(fitted.AllInStock);
        Assert.Empty(OptionsOf(question with { AdaptersAtHand = [] }));

        static ImmutableArray<BuildOption> OptionsOf(OptionQuestion asked) =>
            OptionSearch.Find(asked, cancellation: TestContext.Current.CancellationToken).Options;
    }

    private static Gen<T> AnyOf<T>(params T[] values) =>
        Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Part Looser(Part derailleur) =>
        derailleur
            .With(PartFields.Capacity, Number(derailleur.Number(PartFields.Capacity)!.Value + 5))
            .With(
                PartFields.LargestCog,
                derailleur.Number(PartFields.LargestCog) is { } largest ? Number(largest + 4) : null
            );

    private static ImmutableArray<Part> Named(Part[] parts) =>
        [.. parts.Select((part, i) => part with { Id = $"{part.Id}-{i}" })];

    private static string Parts(BuildOption option) =>
        string.Join(' ', option.Build.Parts.Select(part => part.Id));

    private static string Line(BuildOption option) =>
        $"{Parts(option)} {option.Answer} {option.Reserve:0.000} {option.Changes} {option.AllInStock}";
}
