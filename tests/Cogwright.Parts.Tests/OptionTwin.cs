using System.Collections.Immutable;

namespace Cogwright.Parts.Tests;

/// <summary>
/// The twin of <see cref="OptionSearch"/> without any of its short cuts: every combination, every rule and, where asked
/// for, every mechanism, put into the order that the search promises.
/// </summary>
internal static class OptionTwin
{
    internal static ImmutableArray<BuildOption> Find(OptionQuestion question)
    {
        var kinds = question.Candidates.Keys.Order().ToList();
        IEnumerable<Build> builds = [question.Now];
        foreach (var kind in kinds)
        {
            builds =
            [
                .. builds.SelectMany(build =>
                    question.Candidates[kind].Select(part => build.With(part))
                ),
            ];
        }
        return
        [
            .. builds
                .Select((build, place) => (Option: Judge(question, kinds, build), Place: place))
                .Where(judged => judged.Option.Answer != Compatibility.No)
                .OrderByDescending(judged => judged.Option.Answer)
                .ThenByDescending(judged =>
                    judged.Option.Reserve is { } reserve
                        ? Math.Min(10, (int)Math.Floor(reserve * 10))
                        : 10
                )
                .ThenBy(judged => judged.Option.Changes)
                .ThenBy(judged =>
                    judged.Option.AllInStock switch
                    {
                        true => 0,
                        null => 1,
                        false => 2,
                    }
                )
                .ThenBy(judged => judged.Place)
                .Take(question.Most)
                .Select(judged => judged.Option),
        ];
    }

    private static BuildOption Judge(OptionQuestion question, List<PartKind> kinds, Build build)
    {
        var answers = CompatibilityReport
            .Of(build, question.SpecOf?.Invoke(build))
            .Answers.Where(answer =>
                answer.RuleId.StartsWith("mechanism-", StringComparison.Ordinal)
                || answer.Kinds.Any(kinds.Contains)
            )
            .ToList();
        var changed = build.Parts.Where(part => question.Now[part.Kind]?.Id != part.Id).ToList();
        return new(
            build,
            answers.Select(answer => answer.Answer).DefaultIfEmpty(Compatibility.Yes).Min(),
            answers.Min(answer => answer.Reserve),
            changed.Count,
            changed.Exists(part => part.InStock <= 0) ? false
                : changed.Exists(part => part.InStock is null) ? null
                : true
        );
    }
}
