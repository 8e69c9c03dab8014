using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>A correction of the gap in a mechanic's words.</summary>
public static class GapAdviceWords
{
    /// <summary>What to do, one sentence each, in the order of doing.</summary>
    public static ImmutableArray<string> ToDo(GapAdvice advice, ScrewFacts? screw)
    {
        ArgumentNullException.ThrowIfNull(advice);
        if (advice.SetUp is { } setUp)
        {
            return OnAxle(advice, setUp);
        }
        var name = Name(screw);
        var (ring, cog) = advice.Gear;
        return advice.Kind switch
        {
            GapAdviceKind.Turn =>
            [
                screw?.Tool is { } tool
                    ? Texts.Get("correct.turnWith", name, TurnWords.Of(advice.Turns), tool)
                    : Texts.Get("correct.turn", name, TurnWords.Of(advice.Turns)),
                Texts.Get("correct.expect", advice.ExpectedMm, ring, cog),
                Texts.Get("correct.thenAgain"),
            ],
            GapAdviceKind.LeaveAsIs => [Texts.Get("correct.leave", name)],
            GapAdviceKind.TryHalfTurn =>
            [
                Texts.Get("correct.tryHalf", name, TurnWords.Of(advice.Turns)),
            ],
            GapAdviceKind.OutOfTravel when advice.Turns == 0 =>
            [
                Texts.Get("correct.outOfTravelNow", name),
            ],
            GapAdviceKind.OutOfTravel =>
            [
                Texts.Get(
                    "correct.outOfTravel",
                    name,
                    TurnWords.Of(advice.Turns),
                    advice.ExpectedMm,
                    ring,
                    cog
                ),
            ],
            GapAdviceKind.NoSolution =>
            [
                Texts.Get(
                    screw is { WindsSpring: true }
                        ? "correct.noSolutionSprung"
                        : "correct.noSolution",
                    name,
                    advice.WantedMm,
                    ring,
                    cog
                ),
            ],
            _ => [Texts.Get("correct.noGap", ring, cog)],
        };
    }

    /// <summary>What chain and body do to the gap of a derailleur on the axle, one sentence each.</summary>
    internal static IEnumerable<string> Sensitivity(SetUpAdvice setUp)
    {
        if (setUp is { MmPerPitchSetAgain: { } again, MmPerPitchLeft: { } left })
        {
            yield return Texts.Get("setUp.perPitch", again, left);
        }
        if (setUp.MmPerBodyDegree is { } perDegree)
        {
            yield return Texts.Get("setUp.perDegree", perDegree);
        }
    }

    private static ImmutableArray<string> OnAxle(GapAdvice advice, SetUpAdvice setUp)
    {
        var (ring, cog) = advice.Gear;
        var (setRing, setCog) = setUp.SetUpGear;
        return advice.Kind switch
        {
            GapAdviceKind.LeaveAsIs => [Texts.Get("correct.leaveWithin.onAxle")],
            GapAdviceKind.SetAgain =>
            [
                .. setUp.CageOffMarkDeg is { } off
                    ? [Texts.Get(off > 0 ? "setUp.cageInFront" : "setUp.cageBehind", Math.Abs(off))]
                    : Array.Empty<string>(),
                Texts.Get("setUp.again", setRing, setCog),
                Texts.Get("correct.expect", advice.ExpectedMm, ring, cog),
                Texts.Get("correct.thenAgain.onAxle"),
            ],
            GapAdviceKind.OtherMeans =>
            [
                Texts.Get("setUp.notByMark", advice.ExpectedMm, advice.WantedMm, ring, cog),
                .. setUp.Ways.Select(way => Way(way, setUp, advice.Gear)),
                .. Sensitivity(setUp),
            ],
            GapAdviceKind.NotSet =>
            [
                Texts.Get("setUp.notSet", setRing, setCog),
                .. setUp.Ways.Select(way => Way(way, setUp, advice.Gear)),
            ],
            _ => [Texts.Get("correct.noGap", ring, cog)],
        };
    }

    private static string Way(SetUpAlternative way, SetUpAdvice setUp, (int Ring, int Cog) gear) =>
        way.Pitches != setUp.Pitches
            ? Texts.Get("setUp.way.chain", way.Pitches, way.GapMm, gear.Ring, gear.Cog)
            : Texts.Get("setUp.way.cog", way.CogTeeth, way.GapMm, gear.Ring, gear.Cog);

    /// <summary>What to ask before trusting it.</summary>
    public static ImmutableArray<string> Questions(GapAdvice advice, ScrewFacts? screw)
    {
        ArgumentNullException.ThrowIfNull(advice);
        return advice.Kind switch
        {
            GapAdviceKind.TryHalfTurn when screw is null =>
            [
                Texts.Get("correct.notDescribed"),
                Texts.Get("correct.touches"),
            ],
            GapAdviceKind.Turn or GapAdviceKind.TryHalfTurn or GapAdviceKind.OutOfTravel =>
            [
                Texts.Get("correct.touches"),
            ],
            _ => [],
        };
    }

    /// <summary>What will then hold in every gear, one line each; empty when that is unknown.</summary>
    public static ImmutableArray<string> After(GapAdvice advice)
    {
        ArgumentNullException.ThrowIfNull(advice);
        return [.. advice.After.Select(Line)];
    }

    /// <summary>The screw's name, or what it is generally called.</summary>
    internal static string Name(ScrewFacts? screw) => screw?.Name ?? Texts.Get("screw.unnamed");

    private static string Line(GearAfter gear)
    {
        var words = string.Join(" ", gear.Words);
        return gear.GapMm is not { } gap
                ? Texts.Get("after.words", gear.RingTeeth, gear.CogTeeth, words)
            : words.Length == 0 ? Texts.Get("after.gap", gear.RingTeeth, gear.CogTeeth, gap)
            : Texts.Get("after.gapWords", gear.RingTeeth, gear.CogTeeth, gap, words);
    }
}
