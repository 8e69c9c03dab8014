using System.Collections.Immutable;

namespace Cogwright.Setup;

/// <summary>
/// Everything that the paper worksheet says, in the order in which it says it. All sentences come ready to print;
/// whoever lays them out decides only where they stand. Immutable.
/// </summary>
public sealed partial record WorksheetContent
{
    /// <summary>What the bike is called.</summary>
    public required string BikeName { get; init; }

    /// <summary>Rings and cogs in one line, such as <c>50-34 × 11-12-13-14-15-17-19-21-24-27-30-34</c>.</summary>
    public required string Gearing { get; init; }

    /// <summary>Cautions that hold for the whole job; they stand at the top of the first page.</summary>
    public required ImmutableArray<string> Cautions { get; init; }

    /// <summary>The same cautions in the fewest words, in the same order, for the side that hangs at the stand; empty when there are none.</summary>
    public ImmutableArray<string> CautionsInShort { get; init; } = [];

    /// <summary>The stages in the order of work, each with its cautions and its targets.</summary>
    public required ImmutableArray<WorksheetStage> Stages { get; init; }

    /// <summary>The chain to cut.</summary>
    public required ChainBox Chain { get; init; }

    /// <summary>How many turns of the body-angle screw for a gap that is off, to use without the computer; null when there is no gap to set.</summary>
    public TurnTable? Turns { get; init; }

    /// <summary>Gears that the rider must not use, with the reason.</summary>
    public required ImmutableArray<GearNotToUse> GearsNotToUse { get; init; }

    /// <summary>Values that nobody measured: measure them first, then compute again.</summary>
    public required ImmutableArray<AssumedValue> Assumed { get; init; }
}

/// <summary>One stage of the work on paper.</summary>
/// <param name="Stage">Which stage.</param>
/// <param name="Title">Its heading, a few words.</param>
/// <param name="Cautions">Hazards that stand before the stage's first action, each once.</param>
/// <param name="Targets">Its targets in the order of work; their own <see cref="Target.Caution"/> is already listed in <paramref name="Cautions"/>.</param>
public sealed record WorksheetStage(
    WorkStage Stage,
    string Title,
    ImmutableArray<string> Cautions,
    ImmutableArray<Target> Targets
)
{
    /// <summary>The cautions in the fewest words, in the same order; empty when there are no short ones.</summary>
    public ImmutableArray<string> CautionsInShort { get; init; } = [];
}

/// <summary>The chain to cut, as large figures and the sentences below them.</summary>
public sealed record ChainBox
{
    /// <summary>Length to cut (pitches), or null when no length serves.</summary>
    public int? Pitches { get; init; }

    /// <summary>Number of inner links, or null when no length serves.</summary>
    public int? InnerLinks { get; init; }

    /// <summary>Number of outer links, the joining link counted as one; null when no length serves.</summary>
    public int? OuterLinks { get; init; }

    /// <summary>Path straight round the largest ring and the largest cog, no derailleur (pitches).</summary>
    public required double DirectPathPitches { get; init; }

    /// <summary>The number in words, such as "110 pitches (55 inner + 55 outer)", or why there is none.</summary>
    public required string Headline { get; init; }

    /// <summary>How near the bench rule is to another number, on one line; empty when nothing is known of it.</summary>
    public string EdgeInShort { get; init; } = "";

    /// <summary>The reasons: bench rule, shortest and longest safe, rounding edge, chainstay longer or shorter, capacity.</summary>
    public required ImmutableArray<string> Lines { get; init; }
}

/// <summary>Turns of the body-angle screw against the gap that was read.</summary>
public sealed record TurnTable
{
    /// <summary>Ring and cog in which the gap is read.</summary>
    public required (int RingTeeth, int CogTeeth) Gear { get; init; }

    /// <summary>The gap that is wanted (mm, tooth tip to tooth tip).</summary>
    public required double WantedMm { get; init; }

    /// <summary>What the screw is called, such as "body-angle screw".</summary>
    public required string Screw { get; init; }

    /// <summary>The tool that turns it, or null.</summary>
    public string? Tool { get; init; }

    /// <summary>From 3 mm too small to 3 mm too large.</summary>
    public required ImmutableArray<TurnTableRow> Rows { get; init; }

    /// <summary>What a row without turns means and what to do then, in one sentence; null when every row has turns.</summary>
    public string? WithoutTurns { get; init; }

    /// <summary>What to know when using it; the first line is the rule, the others are warnings.</summary>
    public required ImmutableArray<string> Notes { get; init; }
}

/// <summary>One row of the turn table.</summary>
/// <param name="OffByMm">How much larger than wanted the gap was read (mm; negative when too small).</param>
/// <param name="ReadMm">The gap that was read (mm).</param>
/// <param name="Turns">Turns to make, clockwise positive, or null when the effect is unknown or out of reach.</param>
/// <param name="Gap">The left column in words, such as "1 mm too large".</param>
/// <param name="Action">The right column in words, such as "1¼ turns anticlockwise".</param>
public sealed record TurnTableRow(
    double OffByMm,
    double ReadMm,
    double? Turns,
    string Gap,
    string Action
);

/// <summary>A gear that the rider must not use.</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="CogTeeth">Teeth of the cog.</param>
/// <param name="Reason">Why, in one sentence.</param>
public sealed record GearNotToUse(int RingTeeth, int CogTeeth, string Reason);

/// <summary>A value that was filled in because the spec does not give it.</summary>
/// <param name="Path">The field, as in the spec file, such as <c>rearDerailleur.slant</c>.</param>
/// <param name="Value">The value taken, with its unit.</param>
/// <param name="From">Where it was taken from.</param>
public sealed record AssumedValue(string Path, string Value, string From);
