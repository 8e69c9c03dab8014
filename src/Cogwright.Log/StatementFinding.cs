namespace Cogwright.Log;

/// <summary>One thing that does not match a countersigned statement.</summary>
/// <param name="Status">What it is.</param>
/// <param name="Serial">The number of the statement.</param>
/// <param name="Tip">The end of the chain concerned; null if it is not about a chain.</param>
/// <param name="Text">What, where, and what to do next.</param>
public sealed record StatementFinding(
    StatementStatus Status,
    long Serial,
    ChainTip? Tip,
    string Text
);
