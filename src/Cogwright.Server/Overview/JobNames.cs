using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Setup.Jobs;

namespace Cogwright.Server;

/// <summary>The stable names of what the overview tells of jobs.</summary>
internal static class JobNames
{
    /// <summary>What is due: the look at the bike that was agreed when it went out.</summary>
    internal const string FirstCheck = "first-check";

    /// <summary>The stages in their order, by the names that entries use.</summary>
    internal static ImmutableArray<string> Stages { get; } =
    [.. Enum.GetValues<JobStage>().Select(Of)];

    internal static string Of(JobStage stage) =>
        JsonNamingPolicy.KebabCaseLower.ConvertName(stage.ToString());
}
