using System.Collections.Immutable;

namespace Cogwright.Storage;

/// <summary>What a restore would do, looked at without changing anything.</summary>
/// <param name="BackupFolder">The backup.</param>
/// <param name="Into">The store that it would go into.</param>
/// <param name="Backup">What the backup holds.</param>
/// <param name="Check">What a check of the backup found; for PostgreSQL it is made after the restore, and null here.</param>
/// <param name="Present">What the store holds now; null: there is none, or it cannot be read.</param>
/// <param name="PresentFault">Why the present store cannot be read; null if it can, or if there is none.</param>
/// <param name="EntriesOnlyHere">
/// How many entries the present store has received beyond the backup. They are set aside with it; the devices that made them
/// send them again.
/// </param>
public sealed record RestorePlan(
    string BackupFolder,
    StoreOptions Into,
    BackupManifest Backup,
    CheckReport? Check,
    StoreCounts? Present,
    StoreFault? PresentFault,
    long EntriesOnlyHere
)
{
    /// <summary>Whether data are there that the backup would take the place of.</summary>
    public bool Replaces => PresentFault is not null || Present is { IsEmpty: false };

    /// <summary>What the check of the backup found, for a list.</summary>
    public ImmutableArray<CheckFinding> Findings => Check?.Findings ?? [];
}
