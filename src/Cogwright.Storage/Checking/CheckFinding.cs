using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>One thing found by a check.</summary>
/// <param name="Severity">How bad it is.</param>
/// <param name="Log">The log; null: the database as a whole.</param>
/// <param name="Text">What, where, what to do next.</param>
public sealed record CheckFinding(CheckSeverity Severity, LogId? Log, string Text);
