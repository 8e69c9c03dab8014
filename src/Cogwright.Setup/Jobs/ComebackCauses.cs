using System.Collections.Immutable;

namespace Cogwright.Setup.Jobs;

/// <summary>
/// Why a bike comes back after a job: what the shop can learn from, so that the same does not come again. Names are stable:
/// entries use them. The list is common practice of the trade.
/// </summary>
public static class ComebackCauses
{
    /// <summary>What is none of the others; the note tells.</summary>
    public const string Other = "other";

    /// <summary>All, in the order of asking.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        // Ends of the housing seat themselves in the first days.
        "cable-settling",
        // A knock, the car, a courier: after the bike was handed over.
        "hanger-after-handover",
        "part-fault",
        "assembly-slip",
        "wear-not-quoted",
        "unclear-instructions",
        Other,
    ];

    /// <summary>A cause in words; one of a later version as it is named.</summary>
    /// <param name="name">Its stable name.</param>
    public static string TitleOf(string name) =>
        All.Contains(name) ? Texts.Get("comeback." + name) : name;
}
