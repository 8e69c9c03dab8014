using System.Collections.Immutable;

namespace Cogwright.Storage;

/// <summary>What a check of a whole store looked at and found.</summary>
/// <param name="Logs">How many logs it has read.</param>
/// <param name="Entries">How many entries.</param>
/// <param name="Statements">How many countersigned statements.</param>
/// <param name="Personal">How many personal data and photos.</param>
/// <param name="Findings">What it found; empty if everything is as it was written.</param>
/// <param name="Parts">How many parts of the library.</param>
public sealed record CheckReport(
    long Logs,
    long Entries,
    long Statements,
    long Personal,
    ImmutableArray<CheckFinding> Findings,
    long Parts = 0
)
{
    /// <summary>Whether nothing is damaged or missing; there may be notes.</summary>
    public bool IsSound => Findings.All(finding => finding.Severity == CheckSeverity.Note);
}
