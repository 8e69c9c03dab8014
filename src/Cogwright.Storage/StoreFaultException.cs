namespace Cogwright.Storage;

/// <summary>A store could not do what it was asked; nothing of it was done.</summary>
/// <param name="fault">Why.</param>
/// <param name="inner">What the database or the system said; null if it said nothing.</param>
public sealed class StoreFaultException(StoreFault fault, Exception? inner = null)
    : Exception(fault?.Text, inner)
{
    /// <summary>Why.</summary>
    public StoreFault Fault { get; } = fault!;

    internal static StoreFaultException Of(
        StoreFaultKind kind,
        string text,
        Exception? inner = null
    ) => new(new StoreFault(kind, text), inner);
}
