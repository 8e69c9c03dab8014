using System.Collections.Immutable;
using Cogwright.Files;
using Cogwright.Log;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>One bike's log in memory, with what it comes to.</summary>
public sealed class BikeLog
{
    private readonly LiveFold<BikeState> fold;
    private readonly ConflictFinder finder;

    /// <summary>An empty log.</summary>
    /// <param name="id">Its id.</param>
    public BikeLog(LogId id)
    {
        Log = new EntryLog(id);
        fold = new(Log, new BikeFold());
        finder = new(Log, new BikeSubjects());
    }

    /// <summary>The entries.</summary>
    public EntryLog Log { get; }

    /// <summary>How many rows of it were on the device when it was last looked at.</summary>
    public int RowsSeen { get; set; } = -1;

    /// <summary>Whether what the device holds of it was read when it was last looked at.</summary>
    public bool IsRead { get; set; }

    /// <summary>Keys of rows whose bytes this version cannot read: kept as they are.</summary>
    public HashSet<string> Unreadable { get; } = [];

    /// <summary>What it comes to now.</summary>
    public BikeState State => fold.State;

    /// <summary>Fields that nobody has settled.</summary>
    /// <param name="own">This device.</param>
    public ImmutableArray<FieldConflict> Conflicts(DeviceId own)
    {
        var sheet = State.History.Sheet;
        return
        [
            .. finder
                .Open.Where(conflict => !IsStep(conflict.Subject))
                .Select(conflict => new FieldConflict(
                    conflict.Subject,
                    [
                        .. conflict.Entries.Select(entry =>
                        {
                            var value = Value(entry, conflict.Subject);
                            return new FieldVersion(
                                value,
                                entry.Device.ToString()[..8],
                                entry.Device == own,
                                entry.WallClockTicks,
                                value == sheet[conflict.Subject]
                            );
                        }),
                    ]
                ))
                // Two who wrote the same agree.
                .Where(conflict => conflict.Versions.Select(v => v.Value).Distinct().Count() > 1),
        ];
    }

    /// <summary>
    /// Steps that devices did without having seen one another, and nobody has done since. Where the same was only looked at twice
    /// and came to the same, the two agree.
    /// </summary>
    /// <param name="own">This device.</param>
    public ImmutableArray<StepConflict> StepConflicts(DeviceId own) =>
        [
            .. finder
                .Open.Where(conflict => IsStep(conflict.Subject))
                .Select(conflict => new StepConflict([
                    .. conflict.Entries.Select(entry => new StepVersion(
                        (StepDone)JobEntry.Read(entry)!,
                        entry.Device.ToString()[..8],
                        entry.Device == own
                    )),
                ]))
                .Where(conflict =>
                    conflict.Versions.Any(version => !version.Done.Held)
                    || conflict
                        .Versions.Select(version => (version.Done.Outcome, version.Done.Value))
                        .Distinct()
                        .Count() > 1
                ),
        ];

    private static bool IsStep(string subject) =>
        subject.StartsWith("step:", StringComparison.Ordinal);

    // As the sheet takes it: white space alone is no text.
    private static string? Value(Entry entry, string path) =>
        SpecSheet.Empty.With(path, SpecEntry.Read(entry)!.Fields[path])[path];
}
