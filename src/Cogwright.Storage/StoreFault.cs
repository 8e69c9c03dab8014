namespace Cogwright.Storage;

/// <summary>Why a store did not do what it was asked.</summary>
/// <param name="Kind">For programs.</param>
/// <param name="Text">For people: what, where, what to do next.</param>
public sealed record StoreFault(StoreFaultKind Kind, string Text)
{
    /// <summary>The sentence.</summary>
    public override string ToString() => Text;
}
