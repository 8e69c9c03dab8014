using System.Text.RegularExpressions;

namespace Cogwright.Architecture.Tests;

/// <summary>The names that say nothing about what is inside, and so invite everything.</summary>
public static partial class Names
{
    private static readonly HashSet<string> Empty =
    [
        "core",
        "common",
        "shared",
        "util",
        "utils",
        "utility",
        "utilities",
        "helper",
        "helpers",
        "manager",
        "managers",
        "misc",
    ];

    /// <summary>
    /// Whether a name says nothing. The last word decides: it is what the thing is. (So a
    /// CommonPractice is fine, which is a term of the trade, and a ChainHelper is not.)
    /// </summary>
    public static bool SaysNothing(string name)
    {
        var words = Words().Matches(name);
        return words.Count > 0 && Empty.Contains(words[^1].Value.ToLowerInvariant());
    }

    [GeneratedRegex("[A-Z]+(?![a-z])|[A-Z]?[a-z]+|[0-9]+")]
    private static partial Regex Words();
}
