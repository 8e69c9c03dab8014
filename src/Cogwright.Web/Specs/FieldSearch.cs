using System.Collections.Immutable;
using Cogwright.Files;

namespace Cogwright.Web.Specs;

/// <summary>Finds fields by words of their name, their group, their explanation or their path.</summary>
public static class FieldSearch
{
    /// <summary>The groups with nothing left in them but what was asked for; every word must be found.</summary>
    /// <param name="groups">All groups.</param>
    /// <param name="asked">What somebody typed.</param>
    public static ImmutableArray<SpecFieldGroup> Find(
        ImmutableArray<SpecFieldGroup> groups,
        string asked
    )
    {
        ArgumentNullException.ThrowIfNull(asked);
        var words = asked.Split(
            ' ',
            StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
        );
        if (words.Length == 0)
        {
            return groups;
        }
        return
        [
            .. groups
                .Select(group =>
                    group with
                    {
                        Fields = [.. group.Fields.Where(field => Matches(group, field, words))],
                        Lists =
                        [
                            .. group.Lists.Where(list =>
                                Array.TrueForAll(
                                    words,
                                    word =>
                                        Has(group.Label, word)
                                        || Has(list.Label, word)
                                        || list.Entries.Any(entry =>
                                            entry.Any(f => Has(f.Label, word))
                                        )
                                )
                            ),
                        ],
                    }
                )
                .Where(group => group.Fields.Length + group.Lists.Length > 0),
        ];
    }

    private static bool Matches(SpecFieldGroup group, SpecField field, string[] words) =>
        Array.TrueForAll(
            words,
            word =>
                Has(field.Label, word)
                || Has(group.Label, word)
                || Has(field.About, word)
                || Has(field.Path, word)
        );

    private static bool Has(string text, string word) =>
        text.Contains(word, StringComparison.OrdinalIgnoreCase);
}
