using System.Collections.Immutable;

namespace Cogwright.Server;

/// <summary>Ends a request with a problem.</summary>
/// <param name="problem">Its sort.</param>
/// <param name="about">What fills the places of its explanation; nothing secret or personal, for it is shown.</param>
internal sealed class ProblemException(Problem problem, params object?[] about)
    : Exception(problem.Code)
{
    internal Problem Problem { get; } = problem;

    internal object?[] About { get; } = about;

    /// <summary>The places of a file that are wrong; empty: it is about no file.</summary>
    internal ImmutableArray<PlaceAnswer> Places { get; init; } = [];

    /// <summary>How long to wait before trying again; null: that would not help.</summary>
    internal TimeSpan? RetryAfter { get; init; }
}
