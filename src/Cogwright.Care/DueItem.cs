using System.Globalization;
using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>How urgent something is.</summary>
public enum DueState
{
    /// <summary>Now, or it was before.</summary>
    Due,

    /// <summary>Within <see cref="CareDue.SoonDays"/> days.</summary>
    Soon,

    /// <summary>Later.</summary>
    Later,

    /// <summary>It cannot be said when.</summary>
    CannotSay,
}

/// <summary>Something that falls due on a bike. Immutable.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Place">Where on the bike.</param>
/// <param name="State">How urgent.</param>
/// <param name="What">What to do, in words; it holds no free text.</param>
/// <param name="Why">Why, with the figures, in words.</param>
/// <param name="From">Where the limit or interval comes from, in words.</param>
public sealed record DueItem(
    CareKind Kind,
    CarePlace Place,
    DueState State,
    string What,
    string Why,
    string From
)
{
    /// <summary>The day on which to act, the earliest when there is an interval; null when no day can be said.</summary>
    public DateOnly? Day { get; init; }

    /// <summary>The latest day, when there is an interval.</summary>
    public DateOnly? LatestDay { get; init; }

    /// <summary>What the counter will stand at (km or hours), the earliest when there is an interval; null when not by use.</summary>
    public double? Usage { get; init; }

    /// <summary>The latest of it, when there is an interval.</summary>
    public double? LatestUsage { get; init; }

    /// <summary>How the last value stands to its limit, or null when there is none.</summary>
    public Verdict? Verdict { get; init; }

    /// <summary>What tells it apart on one bike; it stays the same for the same part.</summary>
    public string Id =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{Lower(Kind.ToString())}-{Lower(Place.ToString())}"
        );

    private static string Lower(string name) => char.ToLowerInvariant(name[0]) + name[1..];
}
