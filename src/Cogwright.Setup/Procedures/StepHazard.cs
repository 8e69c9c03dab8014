namespace Cogwright.Setup.Procedures;

/// <summary>The word that a warning begins with, the gravest first (ANSI Z535.6 practice).</summary>
public enum SignalWord
{
    /// <summary>DANGER: will kill or seriously injure.</summary>
    Danger,

    /// <summary>WARNING: could kill or seriously injure.</summary>
    Warning,

    /// <summary>CAUTION: could injure slightly or moderately.</summary>
    Caution,

    /// <summary>NOTICE: damages property only.</summary>
    Notice,
}

/// <summary>The worst that can come of a hazard.</summary>
public enum Harm
{
    /// <summary>Death or serious injury.</summary>
    Serious,

    /// <summary>Minor or moderate injury.</summary>
    Minor,

    /// <summary>Damage to property only.</summary>
    Property,
}

/// <summary>A hazard of a step, told before its action. Immutable.</summary>
public sealed record StepHazard
{
    /// <summary>The signal word.</summary>
    public required SignalWord Signal { get; init; }

    /// <summary>The worst that can come of it.</summary>
    public required Harm Harm { get; init; }

    /// <summary>What the danger is and where it comes from; empty when not said.</summary>
    public string Nature { get; init; } = "";

    /// <summary>What it does to people or things; empty when not said.</summary>
    public string Consequence { get; init; } = "";

    /// <summary>How to avoid it; empty when not said.</summary>
    public string Avoidance { get; init; } = "";

    /// <summary>The id of the step that it is about, when that is not the one it stands in; or null.</summary>
    public string? About { get; init; }

    /// <summary>The act of the step whose hazard this is: one of <see cref="StepActs"/>; null when it is of none.</summary>
    public string? Act { get; init; }
}
