using System.Collections.Immutable;

namespace Cogwright.Setup.Records;

/// <summary>
/// What the record of a job says, in sentences: the first page for the customer, the rest for whoever works on the bike next.
/// The page in the app and the PDF print this and nothing else. Made by <see cref="RecordMaker"/>. Immutable.
/// </summary>
public sealed record RecordContent
{
    /// <summary>The name of the bike.</summary>
    public required string BikeName { get; init; }

    /// <summary>What the job was.</summary>
    public required string Title { get; init; }

    /// <summary>From when to when, and whether it is handed over.</summary>
    public required string Standing { get; init; }

    /// <summary>Whether the job is over; a record of one that is not says so on its first page.</summary>
    public required bool IsClosed { get; init; }

    /// <summary>What was done, procedure by procedure.</summary>
    public required ImmutableArray<string> Done { get; init; }

    /// <summary>What the rider has to know.</summary>
    public required ImmutableArray<string> Know { get; init; }

    /// <summary>Cautions.</summary>
    public required ImmutableArray<string> Cautions { get; init; }

    /// <summary>When the bike is to be looked at first.</summary>
    public required string FirstCheck { get; init; }

    /// <summary>What was agreed and found when the bike came in.</summary>
    public required ImmutableArray<string> Intake { get; init; }

    /// <summary>Parts with their serial numbers.</summary>
    public required ImmutableArray<string> Parts { get; init; }

    /// <summary>What was read, with limits, gauge, calibration and convention.</summary>
    public required ImmutableArray<RecordRow> Readings { get; init; }

    /// <summary>What was tightened, with limits, tool and calibration.</summary>
    public required ImmutableArray<RecordRow> Torques { get; init; }

    /// <summary>What was looked at, felt and tried.</summary>
    public required ImmutableArray<RecordRow> Looks { get; init; }

    /// <summary>What was done more than once, and what had put it in doubt.</summary>
    public required ImmutableArray<string> Again { get; init; }

    /// <summary>What was left as it is, who answers for it and why.</summary>
    public required ImmutableArray<string> Exceptions { get; init; }

    /// <summary>What happened to the bike meanwhile.</summary>
    public required ImmutableArray<string> Happened { get; init; }

    /// <summary>Who had the job in hand.</summary>
    public required ImmutableArray<string> Hands { get; init; }

    /// <summary>What was added after the job was over.</summary>
    public ImmutableArray<string> Amendments { get; init; } = [];

    /// <summary>What else came to this job after it was over, or was not seen by whoever closed it: it changes nothing above.</summary>
    public ImmutableArray<string> Late { get; init; } = [];

    /// <summary>What the record comes from: ends of chains, countersignature, what that proves and what not.</summary>
    public ImmutableArray<string> Proof { get; init; } = [];

    /// <summary>Lines to sign, by what stands under them.</summary>
    public required ImmutableArray<string> Signatures { get; init; }

    /// <summary>What the times are.</summary>
    public required string Clock { get; init; }

    /// <summary>
    /// Everything that it says, in order, each with the name of its place: what is kept with a record to hold its pages against.
    /// </summary>
    public IEnumerable<RecordLine> Lines()
    {
        yield return new("bike", BikeName);
        yield return new("title", Title);
        yield return new("standing", Standing);
        foreach (
            var (place, texts) in new[] { ("done", Done), ("know", Know), ("cautions", Cautions) }
        )
        {
            foreach (var text in texts)
            {
                yield return new(place, text);
            }
        }
        yield return new("firstCheck", FirstCheck);
        foreach (
            var (place, texts) in new[]
            {
                ("intake", Intake),
                ("parts", Parts),
                ("readings", TextsOf(Readings)),
                ("torques", TextsOf(Torques)),
                ("looks", TextsOf(Looks)),
                ("again", Again),
                ("exceptions", Exceptions),
                ("happened", Happened),
                ("hands", Hands),
                ("amendments", Amendments),
                ("late", Late),
                ("proof", Proof),
                ("clock", [Clock]),
            }
        )
        {
            foreach (var text in texts)
            {
                yield return new(place, text);
            }
        }
    }

    private static ImmutableArray<string> TextsOf(ImmutableArray<RecordRow> rows) =>
        [.. rows.Select(row => row.ToString())];
}

/// <summary>One thing that a record says. Immutable.</summary>
/// <param name="Place">Where it says it.</param>
/// <param name="Text">What it says.</param>
public sealed record RecordLine(string Place, string Text);

/// <summary>One step in a record. Immutable.</summary>
/// <param name="Step">The step, and what it is about.</param>
/// <param name="Asked">What was asked for, with convention; says so when it is not from the entry.</param>
/// <param name="Came">What it came to.</param>
/// <param name="With">What it was read or tightened with, and when that was calibrated.</param>
/// <param name="By">By whom, when.</param>
public sealed record RecordRow(string Step, string Asked, string Came, string With, string By)
{
    /// <inheritdoc/>
    public override string ToString() => string.Join(" | ", Step, Asked, Came, With, By);
}
