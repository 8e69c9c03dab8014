using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>The stable names of what entries of jobs, and lists of them, choose from: small letters with hyphens.</summary>
public static class JobNames
{
    /// <summary>The stages in their order.</summary>
    public static ImmutableArray<string> Stages { get; } =
    [.. Enum.GetValues<JobStage>().Select(Of)];

    /// <summary>The name of a choice; "first-check" of <see cref="Care.CareKind.FirstCheck"/>.</summary>
    /// <param name="value">The choice.</param>
    public static string Of<T>(T value)
        where T : struct, Enum =>
        Choices<T>.Names.TryGetValue(value, out var name) ? name : Made(value);

    /// <summary>The choice of a name, or null when this version knows none.</summary>
    /// <param name="name">The name.</param>
    public static T? Find<T>(string name)
        where T : struct, Enum => Choices<T>.Values.TryGetValue(name, out var value) ? value : null;

    private static string Made<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());

    // Every entry names one: they are made once.
    private static class Choices<T>
        where T : struct, Enum
    {
        internal static readonly Dictionary<T, string> Names = Enum.GetValues<T>()
            .ToDictionary(value => value, Made);

        internal static readonly Dictionary<string, T> Values = Names.ToDictionary(
            each => each.Value,
            each => each.Key,
            StringComparer.Ordinal
        );
    }
}
