namespace Cogwright.Storage;

/// <summary>What a store says of a personal datum.</summary>
/// <param name="Status">What became of it.</param>
/// <param name="Fault">
/// Why it was refused: <see cref="StoreFaultKind.TooLarge"/>, <see cref="StoreFaultKind.OverQuota"/> or
/// <see cref="StoreFaultKind.Erased"/>; null otherwise.
/// </param>
public sealed record PersonalAnswer(PersonalStatus Status, StoreFault? Fault = null);
