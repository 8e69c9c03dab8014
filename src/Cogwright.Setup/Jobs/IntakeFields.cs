using System.Collections.Immutable;

namespace Cogwright.Setup.Jobs;

/// <summary>What is taken down of a person, beside the log. Names are stable: entries use them.</summary>
public static class PersonalWords
{
    /// <summary>Who the customer is and how to be reached.</summary>
    public const string Customer = "customer";

    /// <summary>The complaint as the customer says it.</summary>
    public const string Complaint = "complaint-said";

    /// <summary>All, in the order of asking.</summary>
    public static ImmutableArray<string> All { get; } = [Customer, Complaint];
}

/// <summary>
/// What is asked and looked at when a bike comes in. None of it names a person or gives a person's own words, since an entry
/// cannot be erased: the reference is that of the shop's own list.
/// Names are stable: entries use them.
/// </summary>
public static class IntakeFields
{
    /// <summary>Whose bike it is, by the shop's own reference.</summary>
    public const string Reference = "reference";

    /// <summary>Whether the bike may be worked on: <see cref="Go"/> or <see cref="NoGo"/>.</summary>
    public const string Inspection = "inspection";

    /// <summary>The frame, the dropouts and the wheels bear the work.</summary>
    public const string Go = "go";

    /// <summary>They do not: nothing is ordered or taken apart.</summary>
    public const string NoGo = "no-go";

    /// <summary>What kind of work it is: one of <see cref="WorkKinds"/>.</summary>
    public const string Kind = "kind-of-work";

    /// <summary>All fields, in the order of asking.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        Reference,
        Kind,
        "complaint-gear",
        "complaint-load",
        "complaint-conditions",
        "complaint",
        "history",
        "findings",
        "authority",
        "consent",
        Inspection,
    ];
}
