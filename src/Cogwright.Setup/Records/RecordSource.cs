using System.Collections.Immutable;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Records;

/// <summary>What a record is made from. Immutable.</summary>
public sealed record RecordSource
{
    /// <summary>The work on the bike: of a job that is over as it was seen by whoever closed it, else as it is now.</summary>
    public required BikeWork Work { get; init; }

    /// <summary>The id of the job.</summary>
    public required string Job { get; init; }

    /// <summary>The name of the bike.</summary>
    public required string BikeName { get; init; }

    /// <summary>What was noted while the facts were read.</summary>
    public RecordNotes Notes { get; init; } = new();

    /// <summary>What was read off its parts.</summary>
    public ImmutableArray<RecordPart> Parts { get; init; } = [];

    /// <summary>Every gear of the spec, each ring with each cog; empty when they are not known.</summary>
    public ImmutableArray<TestGear> Gears { get; init; } = [];

    /// <summary>Gears that the spec says are not used.</summary>
    public ImmutableArray<TestGear> GearsNotUsed { get; init; } = [];

    /// <summary>
    /// What a step asks for by the spec as it is now, for entries that do not say what was asked for then; null where the spec
    /// cannot be worked out.
    /// </summary>
    public Func<ProcedureStep, StepAim?>? AsNow { get; init; }

    /// <summary>What was added to the record after the job was over.</summary>
    public ImmutableArray<JobAmended> Amendments { get; init; } = [];

    /// <summary>What else concerns the job and was not seen by whoever closed it.</summary>
    public ImmutableArray<JobFact> Late { get; init; } = [];

    /// <summary>Facts of the closed job that were taken back afterwards, each with the reason and when.</summary>
    public ImmutableArray<RecordTakenBack> TakenBack { get; init; } = [];

    /// <summary>What stands of log and countersignature, in sentences.</summary>
    public ImmutableArray<string> Proof { get; init; } = [];

    /// <summary>How far the times printed are ahead of UTC (minutes, −840 to 840).</summary>
    public int OffsetMinutes { get; init; }
}

/// <summary>What was read off one part. Immutable.</summary>
/// <param name="Part">What it is.</param>
/// <param name="Serial">Its serial number; may be empty.</param>
/// <param name="Words">A few words; may be empty.</param>
/// <param name="UtcTicks">When, as the device believed (ticks, UTC).</param>
public sealed record RecordPart(string Part, string Serial, string Words, long UtcTicks);

/// <summary>A fact of a closed job that was taken back afterwards. Immutable.</summary>
/// <param name="Fact">The fact.</param>
/// <param name="UtcTicks">When it was taken back (ticks, UTC).</param>
/// <param name="Reason">Why.</param>
public sealed record RecordTakenBack(JobFact Fact, long UtcTicks, string Reason);

/// <summary>Words by which what a record says can be told apart again.</summary>
public static class RecordMarks
{
    /// <summary>Stands behind limits that are not from the entry but from the spec as it is now.</summary>
    public static string AsNow => Texts.Get("record.asNow.mark");
}
