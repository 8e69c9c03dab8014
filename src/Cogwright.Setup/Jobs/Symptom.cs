using System.Collections.Immutable;

namespace Cogwright.Setup.Jobs;

/// <summary>What can be the matter with a gear when it is tried. Immutable.</summary>
/// <param name="Name">Its code; stable: entries use it.</param>
/// <param name="First">The first pass in which it can be seen at all.</param>
/// <param name="IsSerious">Whether a bike that does it is not ridden: it throws the rider off or tears parts off.</param>
public sealed record Symptom(string Name, TestPass First = TestPass.Stand, bool IsSerious = false)
{
    /// <summary>What is seen, felt or heard, in one sentence.</summary>
    public string About => Texts.Get("symptom." + Name);
}

/// <summary>The closed list of codes, after what workshops are told and find (common practice). Names are stable.</summary>
public static class Symptoms
{
    /// <summary>The chain does not come onto the cog or the ring.</summary>
    public const string NotReached = "not-reached";

    /// <summary>The chain rubs on the front derailleur.</summary>
    public const string FrontRub = "front-rub";

    /// <summary>The chain rubs on the next ring.</summary>
    public const string RingRub = "ring-rub";

    /// <summary>The guide pulley touches the cog or the chain on it.</summary>
    public const string PulleyTouches = "pulley-touches";

    /// <summary>The chain is so short that the cage is drawn out.</summary>
    public const string CageStretched = "cage-stretched";

    /// <summary>The chain hangs.</summary>
    public const string ChainSlack = "chain-slack";

    /// <summary>None of the others: the note says what.</summary>
    public const string Other = "other";

    /// <summary>All of them, in the order of asking.</summary>
    public static ImmutableArray<Symptom> All { get; } =
    [
        new("slow-to-larger"),
        new("slow-to-smaller"),
        new(NotReached),
        new("jumps-two"),
        new("noise"),
        new(PulleyTouches),
        new(FrontRub),
        new(RingRub),
        new(ChainSlack),
        new(CageStretched, IsSerious: true),
        new("past-inboard", IsSerious: true),
        new("past-outboard", IsSerious: true),
        new("off-the-rings", IsSerious: true),
        new("falls-backpedalling"),
        new("once-a-round", IsSerious: true),
        new("slips", TestPass.Loaded, IsSerious: true),
        new("shifts-by-itself", TestPass.Loaded, IsSerious: true),
        new("creaks", TestPass.Loaded),
        new(Other),
    ];

    /// <summary>The one of that code, or null.</summary>
    /// <param name="name">The code.</param>
    public static Symptom? Find(string name) => All.FirstOrDefault(one => one.Name == name);
}
