using System.Collections.Immutable;
using Cogwright.Files;
using static Cogwright.Parts.Tests.Invented;

namespace Cogwright.Parts.Tests;

/// <summary>The search with the mechanism in it, beside the twin that solves every combination.</summary>
public sealed class MechanismOptionTests
{
    private const string Bike = """
        name: Invented
        frame: {class: touring}
        hanger: {class: mountain}
        rings: [46, 30]
        cogs: {teeth: 11-13-15-17-20-23-26-30-34, hubSpacing: 135}
        rearDerailleur: {class: touring-long}
        """;

    private static readonly ImmutableArray<Part> Cassettes =
    [
        Cogs("narrow", 11, 12, 13, 14, 15, 17, 19, 21, 23),
        Cogs("usual", 11, 13, 15, 17, 20, 23, 26, 30, 34),
        Cogs("wide", 11, 13, 15, 18, 21, 24, 28, 34, 40) with
        {
            InStock = 2,
        },
        Cogs("wider", 11, 13, 16, 19, 22, 26, 32, 39, 46),
    ];

    private static readonly ImmutableArray<Part> RingSets =
    [
        Rings with
        {
            Id = "compact",
        },
        Rings.With(PartFields.Teeth, Numbers(30, 46)) with
        {
            Id = "small",
            InStock = 1,
        },
        Rings.With(PartFields.Teeth, Numbers(28, 38, 48)) with
        {
            Id = "triple",
            InStock = 0,
        },
    ];

    private static readonly ImmutableArray<Part> Derailleurs =
    [
        Made("road-short", 28, 30),
        Made("road-medium", 34, 37),
        Made("touring-long", 36, 45),
        Made("trail-long", 52, 47),
        // No reserve by the rules on the usual cassette: when one is asked for, the mechanism need not be asked of it.
        Made("just-enough", 34, 39, "road-medium"),
    ];

    private static OptionQuestion Question
    {
        get
        {
            var fitting = SpecFitting.Of(Bike, "a.yaml", PartLibrary.Empty).Fitting!;
            return new()
            {
                Now = fitting.Build,
                Candidates = ImmutableDictionary<PartKind, ImmutableArray<Part>>
                    .Empty.Add(PartKind.Cassette, Cassettes)
                    .Add(PartKind.Rings, RingSets)
                    .Add(PartKind.RearDerailleur, Derailleurs),
                SpecOf = build => fitting.Fit(build).Spec?.Drivetrain,
            };
        }
    }

    [Fact]
    public void Find_WithMechanism_AnswersAsTheTwinThatSolvesAll()
    {
        var found = OptionSearch
            .Find(Question, cancellation: TestContext.Current.CancellationToken)
            .Options;

        Assert.NotEmpty(found);
        Assert.Equal(OptionTwin.Find(Question).Select(Line), found.Select(Line));
    }

    [Fact]
    public void Find_OneListed_IsTheBestAndSolvesFewer()
    {
        var token = TestContext.Current.CancellationToken;
        var all = OptionSearch.Find(Question, cancellation: token);
        var one = OptionSearch.Find(Question with { Most = 1 }, cancellation: token);

        Assert.Equal(Line(all.Options[0]), Line(Assert.Single(one.Options)));
        Assert.True(one.Solved < all.Solved);
    }

    private static string Line(BuildOption option) =>
        string.Join(' ', option.Build.Parts.Select(part => part.Id))
        + $" {option.Answer} {option.Reserve:0.000} {option.Changes} {option.AllInStock}";

    private static Part Cogs(string id, params double[] teeth) =>
        Of(PartKind.Cassette, id).With(PartFields.Teeth, Numbers(teeth));

    private static Part Made(string id, int largestCog, int capacity, string? like = null) =>
        Of(PartKind.RearDerailleur, id)
            .With(PartFields.LargestCog, Number(largestCog))
            .With(PartFields.Capacity, Number(capacity)) with
        {
            SpecValues = ImmutableSortedDictionary
                .Create<string, string>(StringComparer.Ordinal)
                .Add("rearDerailleur.class", like ?? id),
        };
}
