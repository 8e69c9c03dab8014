using System.Collections.Immutable;

namespace Cogwright.Setup.Jobs;

/// <summary>A kind of work with the time it takes where nothing goes wrong. Immutable.</summary>
/// <param name="Name">Its stable name: entries use it.</param>
/// <param name="PlannedHours">
/// Time at the bike (h), above 0: common practice, the middle of what shops tell; weak, so each shop sets its own.
/// </param>
public sealed record WorkKind(string Name, double PlannedHours);

/// <summary>The kinds of work that a job can be, so that what it took can be held against a plan.</summary>
public static class WorkKinds
{
    /// <summary>All, the small ones first.</summary>
    public static ImmutableArray<WorkKind> All { get; } =
    [
        // 10–20 min
        new("first-check", 0.25),
        // 10–15 min
        new("hanger", 0.25),
        // 10–20 min
        new("chain", 0.25),
        // 10 min
        new("cassette", 0.2),
        // 20–30 min
        new("front-derailleur", 0.4),
        // 5–40 min
        new("gears", 0.4),
        // under 1 h
        new("basic", 0.75),
        // 1–3 h
        new("full", 2),
        // 2–4 h
        new("deep", 3),
        // 2–3 h
        new("drivetrain-cable", 2.5),
        // 3–5 h
        new("drivetrain-internal-cable", 4),
        // 1.5–2.5 h
        new("drivetrain-wireless", 2),
        // 3–5 h
        new("drivetrain-wired", 4),
        // about 2.5 h for someone who has done it often
        new("assembly", 2.5),
    ];

    /// <summary>The kind with that name, or null.</summary>
    public static WorkKind? Find(string name) => All.FirstOrDefault(kind => kind.Name == name);

    /// <summary>A kind in words; one of a later version as it is named.</summary>
    /// <param name="name">Its stable name.</param>
    public static string TitleOf(string name) =>
        Find(name) is null ? name : Texts.Get("work." + name);
}
