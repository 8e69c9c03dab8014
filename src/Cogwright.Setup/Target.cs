namespace Cogwright.Setup;

/// <summary>
/// The built-in order of work. The order is the trade's: nothing downstream is set before what it depends on.
/// </summary>
public enum WorkStage
{
    /// <summary>Stop box: go or no-go before anything is touched.</summary>
    Inspection,

    /// <summary>Wheel seated and axle tight.</summary>
    WheelSeated,

    /// <summary>Hanger straight.</summary>
    Hanger,

    /// <summary>Cassette lockring and mounting bolts tight.</summary>
    Mounting,

    /// <summary>Rear stops by eye, without chain.</summary>
    RoughStops,

    /// <summary>Chain counted, cut and joined.</summary>
    Chain,

    /// <summary>Cable anchored, or units paired.</summary>
    CableOrPairing,

    /// <summary>A derailleur on the axle is set to its mark on the set-up cog, and the axle tightened.</summary>
    SetUpCog,

    /// <summary>Outboard stop.</summary>
    OutboardStop,

    /// <summary>Index.</summary>
    Index,

    /// <summary>Inboard stop, proven by hand before any powered shift to the largest cog.</summary>
    InboardStop,

    /// <summary>Pulley-to-cog gap.</summary>
    Gap,

    /// <summary>Index again, and the inboard stop again.</summary>
    IndexAgain,

    /// <summary>Front derailleur.</summary>
    Front,

    /// <summary>Torque walk-round.</summary>
    Torque,

    /// <summary>Test under load.</summary>
    LoadedTest,
}

/// <summary>Where a target comes from.</summary>
public enum TargetSource
{
    /// <summary>The spec states it, or the model computes it from stated values only.</summary>
    Spec,

    /// <summary>Common practice of the trade.</summary>
    CommonPractice,

    /// <summary>The model computes it, but from values that were assumed: measure first.</summary>
    Assumed,
}

/// <summary>
/// What a measured or observed quantity should be, with its tolerance and its convention. A check without a number
/// (a look, a push by hand) has no <see cref="Value"/>.
/// </summary>
public sealed record Target
{
    /// <summary>Stable name, such as <c>gap</c> or <c>chain-pitches</c>.</summary>
    public required string Id { get; init; }

    /// <summary>Its place in the order of work.</summary>
    public required WorkStage Stage { get; init; }

    /// <summary>What is measured or done, in a few words.</summary>
    public required string Title { get; init; }

    /// <summary>The gear it holds in, or null when it has none: ring teeth and cog teeth.</summary>
    public (int RingTeeth, int CogTeeth)? Gear { get; init; }

    /// <summary>How it is measured: from what to what, where the chain lies, suspension state; empty when plain.</summary>
    public string Convention { get; init; } = "";

    /// <summary>The aim, in <see cref="Unit"/>, or null.</summary>
    public double? Value { get; init; }

    /// <summary>Least acceptable value, in <see cref="Unit"/>, or null.</summary>
    public double? Lower { get; init; }

    /// <summary>Greatest acceptable value, in <see cref="Unit"/>, or null.</summary>
    public double? Upper { get; init; }

    /// <summary>Unit, such as <c>mm</c>, <c>pitches</c>, <c>N·m</c>; empty for a check without a number.</summary>
    public string Unit { get; init; } = "";

    /// <summary>Where it comes from.</summary>
    public required TargetSource Source { get; init; }

    /// <summary>The tool, or null.</summary>
    public string? Tool { get; init; }

    /// <summary>Whether it is a torque: the paper asks for the tool's setting and "clicked or measured".</summary>
    public bool IsTorque { get; init; }

    /// <summary>What to know when doing it, or null.</summary>
    public string? Note { get; init; }

    /// <summary>The title in the fewest words, for one line of paper at the stand; or null when the title is short enough.</summary>
    public string? TitleInShort { get; init; }

    /// <summary>The convention in the fewest words, for one line of paper at the stand; or null when it is short enough.</summary>
    public string? ConventionInShort { get; init; }

    /// <summary>The caution in the fewest words, a whole sentence without signal word; or null.</summary>
    public string? CautionInShort { get; init; }

    /// <summary>A hazard that stands before the action: signal word, what, consequence, avoidance; or null.</summary>
    public string? Caution { get; init; }
}
