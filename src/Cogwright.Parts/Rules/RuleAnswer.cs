using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Parts;

/// <summary>The drawing that shows what an answer is about.</summary>
public enum AnswerView
{
    /// <summary>None: it is a matter of names or counts.</summary>
    None,

    /// <summary>The side view.</summary>
    Side,

    /// <summary>The top view.</summary>
    Top,
}

/// <summary>What one rule says of a build. Immutable.</summary>
public sealed record RuleAnswer
{
    /// <summary>The rule's id; stable, so that an accepted deviation can name it.</summary>
    public required string RuleId { get; init; }

    /// <summary>What is asked, in few words.</summary>
    public required string Title { get; init; }

    /// <summary>The answer.</summary>
    public required Compatibility Answer { get; init; }

    /// <summary>Why, and by how much.</summary>
    public required string Sentence { get; init; }

    /// <summary>What to do: the adapter, the setting, what to measure; empty when nothing.</summary>
    public string WhatToDo { get; init; } = "";

    /// <summary>Where the rule comes from.</summary>
    public required string Source { get; init; }

    /// <summary>
    /// How much is left beyond what the rule asks for, as a multiple of what is comfortable there (1 is comfortable,
    /// negative when it fails); null where nothing is measured.
    /// </summary>
    public double? Reserve { get; init; }

    /// <summary>The kinds of part that it is about.</summary>
    public required ImmutableArray<PartKind> Kinds { get; init; }

    /// <summary>The gear in which it shows, or null.</summary>
    public Gear? Gear { get; init; }

    /// <summary>The drawing that shows it.</summary>
    public AnswerView View { get; init; }

    /// <summary>Whether it was computed with figures that nobody measured or looked up.</summary>
    public bool RestsOnAssumed { get; init; }

    /// <summary>
    /// Digest of what the answer was made from: the ids of the parts and the figures compared. A deviation that was accepted
    /// holds only as long as this stays the same.
    /// </summary>
    public required string Ground { get; init; }

    /// <summary>
    /// Whether a head mechanic may accept it all the same when it is a "no": not where the wheel would lock or the
    /// derailleur be torn off.
    /// </summary>
    public bool MayBeAccepted { get; init; } = true;

    /// <summary>The deviation that a head mechanic accepted on just this ground, or null.</summary>
    public Deviation? Accepted { get; init; }

    /// <summary>Whether it stands in the way of the work: a "no" or a "cannot say" that nobody has accepted.</summary>
    public bool Blocks => Answer is Compatibility.No or Compatibility.CannotSay && Accepted is null;
}

/// <summary>A rule's answer that a head mechanic has accepted all the same. Immutable.</summary>
/// <param name="RuleId">The rule.</param>
/// <param name="Ground">What the answer was made from, <see cref="RuleAnswer.Ground"/>.</param>
/// <param name="Reason">Why it is accepted; never empty.</param>
/// <param name="By">Who accepted it.</param>
public sealed record Deviation(string RuleId, string Ground, string Reason, string By);
