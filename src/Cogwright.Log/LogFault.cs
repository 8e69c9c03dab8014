namespace Cogwright.Log;

/// <summary>Why something was refused.</summary>
/// <param name="Kind">For programs.</param>
/// <param name="Text">For people: what, where, what to do next.</param>
public sealed record LogFault(LogFaultKind Kind, string Text)
{
    /// <summary>The sentence.</summary>
    public override string ToString() => Text;
}
