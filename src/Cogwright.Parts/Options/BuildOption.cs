using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Parts;

/// <summary>What a search for parts starts from. Immutable.</summary>
public sealed record OptionQuestion
{
    /// <summary>The parts that are there now, those that may be replaced and the adapters that are fitted among them.</summary>
    public required Build Now { get; init; }

    /// <summary>For each kind that may be replaced, or is still to be chosen, the parts that come into question.</summary>
    public required ImmutableDictionary<PartKind, ImmutableArray<Part>> Candidates { get; init; }

    /// <summary>Adapters that may be fitted besides; where two lead to the same, the first is taken.</summary>
    public ImmutableArray<Part> AdaptersAtHand { get; init; } = [];

    /// <summary>Most options that are listed.</summary>
    public int Most { get; init; } = 100;

    /// <summary>
    /// Makes the drivetrain of a build, without <see cref="SpecCheck.Problems"/>, or null when its figures make none; null
    /// to go by the rules that need no mechanism. It is called from one thread at a time.
    /// </summary>
    public Func<Build, DrivetrainSpec?>? SpecOf { get; init; }
}

/// <summary>Parts that would work together. Immutable.</summary>
/// <param name="Build">All parts, the ones that stay among them, and all adapters at hand.</param>
/// <param name="Answer">The worst answer of any rule about a part that may be replaced.</param>
/// <param name="Reserve">The least reserve of those rules (1 is comfortable), or null when nothing is measured.</param>
/// <param name="Changes">How many parts differ from those there are now.</param>
/// <param name="AllInStock">
/// Whether each part that differs is in stock, and each adapter that is needed and not fitted yet; null when nobody counts one
/// of them.
/// </param>
public sealed record BuildOption(
    Build Build,
    Compatibility Answer,
    double? Reserve,
    int Changes,
    bool? AllInStock
)
{
    /// <summary>The chain length that the mechanism asks for (pitches); null when it was not asked, or none serves.</summary>
    public int? Pitches { get; init; }
}

/// <summary>How far a search is.</summary>
/// <param name="Seen">Combinations judged or ruled out.</param>
/// <param name="All">Combinations there are.</param>
/// <param name="Solved">Mechanisms solved.</param>
public readonly record struct OptionProgress(long Seen, long All, int Solved);

/// <summary>What a search found. Immutable.</summary>
/// <param name="Options">The options, the best first.</param>
/// <param name="Combinations">Combinations there were.</param>
/// <param name="ByRules">Combinations that the rules on paper leave.</param>
/// <param name="Solved">Mechanisms that had to be solved to know the options listed.</param>
/// <param name="Blocking">Where nothing is left: the rules that ruled out most, each with the number of candidates or pairs.</param>
public sealed record OptionResult(
    ImmutableArray<BuildOption> Options,
    long Combinations,
    long ByRules,
    int Solved,
    ImmutableArray<(string RuleTitle, long Count)> Blocking
)
{
    /// <summary>
    /// Where there were too many to search (<see cref="OptionSearch.MostCombinations"/>): how many parts of each kind are left
    /// by the rules about them alone; then nothing was searched. Empty otherwise.
    /// </summary>
    public ImmutableArray<(PartKind Kind, int Parts)> TooMany { get; init; } = [];

    /// <summary>
    /// Combinations that the rules on paper leave and the mechanism then says no to: in some gear chain, pulley or cage would not
    /// do. Of those alone that had to be looked at to know the options listed.
    /// </summary>
    public long NotServed { get; init; }
}
