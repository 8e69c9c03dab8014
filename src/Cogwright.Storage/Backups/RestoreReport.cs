namespace Cogwright.Storage;

/// <summary>What a restore did.</summary>
/// <param name="Epoch">The life of the store that began with it.</param>
/// <param name="SetAside">Where the data lie that were there before: a folder, or a schema; null: there were none.</param>
/// <param name="ErasedAgain">Personal data that the backup held and that had been erased since; erased once more.</param>
/// <param name="Check">What a check of the restored store found.</param>
public sealed record RestoreReport(
    Guid Epoch,
    string? SetAside,
    long ErasedAgain,
    CheckReport Check
)
{
    /// <summary>Accounts that the backup held as active and that had been switched off or taken out since; switched off.</summary>
    public long ShutOutAgain { get; init; }
}
