using System.Collections.Immutable;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Server;

/// <summary>Which parts of the shop's library would work on a bike.</summary>
internal static class OptionRoutes
{
    private const int UsualOptions = 20;
    private const int MostOptions = 200;
    private const int MostNameCharacters = 128;
    private const int RulesTold = 5;

    /// <summary>Of so many options, the best, the rules are told: for that each is solved once more.</summary>
    private const int MostExplained = 20;

    internal static void MapOptions(this IEndpointRouteBuilder api) =>
        api.MapPost("/options", SearchAsync)
            .WithTags("Parts")
            .WithMetadata(BodyLimit.Spec)
            .Produces<SearchDone>(200, JsonLines.MediaType)
            .WithSummary(
                "Searches the library for parts that would work on a bike. Lines of JSON: \"searching\" with how far it is, at the end \"done\" with the options, the best first, or \"failed\". Whoever goes away ends it. One search at a time for each session."
            );

    private static async Task SearchAsync(
        OptionsRequest sent,
        HttpContext context,
        PartShelf shelf,
        RunningSearches running,
        TimeProvider clock,
        ILogger<ProblemAnswers> log
    )
    {
        var kinds = KindsOf(sent);
        var most = sent.Most ?? UsualOptions;
        if (most is < 1 or > MostOptions)
        {
            throw new ProblemException(
                Problem.BadField,
                "most",
                Texts.Get("field.from1to", MostOptions)
            );
        }
        using var place = running.Begin(SessionRoutes.CallerOf(context));
        using var lines = new JsonLines(context, log);
        await lines.RunAsync(async () =>
        {
            var held = await shelf.PresentAsync(lines.Cancellation);
            var fitting = FittingOf(sent, held.Library);
            var question = fitting.Ask(held.Library, kinds, sent.InStockOnly, most);
            using var ending = CancellationTokenSource.CreateLinkedTokenSource(lines.Cancellation);
            var progress = new LatestOf<OptionProgress>(clock);
            var done = await progress.WhileAsync(
                () =>
                    Task.Run(
                        () =>
                        {
                            var result = OptionSearch.Find(question, progress, ending.Token);
                            if (!result.TooMany.IsEmpty)
                            {
                                throw new ProblemException(
                                    Problem.TooManyOptions,
                                    string.Join(
                                        " × ",
                                        result.TooMany.Select(each =>
                                            $"{PartKinds.TitleOf(each.Kind)}: {each.Parts}"
                                        )
                                    ),
                                    OptionSearch.MostOfAKind,
                                    OptionSearch.MostCombinations
                                );
                            }
                            return new SearchDone(
                                "done",
                                held.Revision,
                                result.Combinations,
                                result.ByRules,
                                result.Solved,
                                [
                                    .. result.Options.Select(
                                        (option, place) =>
                                            AnswerOf(
                                                option,
                                                kinds,
                                                place < MostExplained
                                                    ? WhyOf(option, kinds, question, ending.Token)
                                                    : []
                                            )
                                    ),
                                ],
                                [
                                    .. result.Blocking.Select(each => new BlockingAnswer(
                                        each.RuleTitle,
                                        each.Count
                                    )),
                                ]
                            );
                        },
                        ending.Token
                    ),
                at => lines.WriteAsync(new SearchProgress("searching", at.Seen, at.All, at.Solved)),
                ending.CancelAsync
            );
            await lines.WriteAsync(done);
        });
    }

    private static ImmutableArray<PartKind> KindsOf(OptionsRequest sent)
    {
        ImmutableArray<PartKind> kinds =
        [
            .. sent.Kinds.Select(name => PartRoutes.KindOf(name, "kinds")).Distinct().Order(),
        ];
        return kinds.IsEmpty || kinds.Contains(PartKind.Adapter)
            ? throw new ProblemException(
                Problem.BadField,
                "kinds",
                Texts.Get(
                    "field.kinds",
                    string.Join(
                        ", ",
                        PartKinds
                            .All.Where(kind => kind != PartKind.Adapter)
                            .Select(PartKinds.NameOf)
                    )
                )
            )
            : kinds;
    }

    private static SpecFitting FittingOf(OptionsRequest sent, PartLibrary library)
    {
        var name = sent.Name is { Length: > 0 and <= MostNameCharacters } said ? said : "spec";
        var (fitting, reading) = SpecFitting.Of(sent.Spec, name, library);
        return fitting?.WithMeasured()
            ?? throw new ProblemException(
                Problem.BadSpec,
                reading.Problems.Count(problem => problem.IsError)
            )
            {
                Places = PlaceAnswer.Of(reading.Problems),
            };
    }

    private static OptionAnswer AnswerOf(
        BuildOption option,
        ImmutableArray<PartKind> kinds,
        ImmutableArray<RuleSaid> why
    ) =>
        new(
            kinds.ToImmutableSortedDictionary(
                PartKinds.NameOf,
                kind => option.Build[kind]!.Id,
                StringComparer.Ordinal
            ),
            RuleSaid.NameOf(option.Answer),
            option.Reserve,
            option.Changes,
            option.AllInStock,
            why
        );

    private static ImmutableArray<RuleSaid> WhyOf(
        BuildOption option,
        ImmutableArray<PartKind> kinds,
        OptionQuestion question,
        CancellationToken cancellation
    )
    {
        cancellation.ThrowIfCancellationRequested();
        return
        [
            .. CompatibilityReport
                .Of(option.Build, question.SpecOf!(option.Build))
                .Answers.Where(answer => answer.Kinds.Any(kind => kinds.Contains(kind)))
                .OrderBy(answer => answer.Answer)
                .ThenBy(answer => answer.Reserve ?? double.PositiveInfinity)
                .Where((answer, i) => i == 0 || answer.Answer != Compatibility.Yes)
                .Take(RulesTold)
                .Select(RuleSaid.Of),
        ];
    }
}
