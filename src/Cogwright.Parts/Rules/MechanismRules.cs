using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;

namespace Cogwright.Parts.Rules;

/// <summary>
/// The rules that ask the mechanism itself: what becomes of every gear with these parts on this frame. Each is judged from
/// the same gear table, so that a search can judge many builds without a word.
/// </summary>
internal sealed partial class MechanismRules
{
    /// <summary>Chain angle from which a gear is noisy and the chain may fall when back-pedalled (rad): 3.5°, common practice.</summary>
    internal static readonly double MostChainAngleRad = 3.5 * Math.PI / 180;

    /// <summary>Reserve of chain at either end that is comfortable (mm of chain).</summary>
    private const double ComfortableChainMm = 12.7;

    /// <summary>Gap beyond the part's least that is comfortable (mm).</summary>
    private const double ComfortableGapMm = 2;

    /// <summary>Room beyond the least to spokes or frame that is comfortable (mm).</summary>
    private const double ComfortableRoomMm = 2;

    /// <summary>How far the body-angle screw is thought to reach to either side when nobody has counted its turns (rad; from memory).</summary>
    private const double ScrewReachRad = 15 * Math.PI / 180;

    private const int ScrewSteps = 15;

    private static readonly ImmutableArray<PartKind> Mechanism =
    [
        PartKind.Rings,
        PartKind.Cassette,
        PartKind.RearDerailleur,
        PartKind.Cage,
        PartKind.Chain,
    ];

    private static readonly ImmutableArray<PartKind> Wheel =
    [
        PartKind.RearWheel,
        PartKind.Cassette,
        PartKind.RearDerailleur,
    ];

    private readonly DrivetrainSpec spec;
    private readonly Build build;
    private readonly ChainChoice choice;
    private readonly GearTable? table;
    private readonly ImmutableArray<Finding> findings;

    private MechanismRules(DrivetrainSpec spec, Build build)
    {
        this.spec = spec;
        this.build = build;
        choice = ChainChooser.Choose(spec, withSensitivity: false);
        table = spec.Chain.Pitches is { } pitches
            ? GearTableSolver.Solve(spec, pitches)
            : choice.Table;
        findings = table is null ? [] : Findings.Of(table);
    }

    /// <summary>The rules for a spec; it must be without <see cref="SpecCheck.Problems"/>.</summary>
    internal static MechanismRules Of(DrivetrainSpec spec, Build build) => new(spec, build);

    /// <summary>All answers, in no order.</summary>
    internal IEnumerable<RuleAnswer> Answers()
    {
        if (BoxedChain() is { } boxed)
        {
            yield return boxed;
        }
        foreach (var answer in Solved())
        {
            yield return answer;
        }
    }

    private IEnumerable<RuleAnswer> Solved()
    {
        yield return ChainLength();
        if (table is null)
        {
            yield break;
        }
        if (spec.RearDerailleur is not null)
        {
            yield return Gap(table);
        }
        yield return ChainAngle(table);
        if (spec.Rings.Length > 1)
        {
            yield return RingRubbing(table);
        }
        if (spec.RearDerailleur is not null)
        {
            foreach (var answer in Rooms(table))
            {
                yield return answer;
            }
        }
    }

    /// <summary>Kinds of part that none of these rules looks at, but for the length and width of the chain.</summary>
    internal static ImmutableArray<PartKind> Ignored { get; } =
    [
        PartKind.Chain,
        PartKind.BottomBracket,
        PartKind.FrontDerailleur,
        PartKind.RearShifter,
        PartKind.FrontShifter,
    ];

    /// <summary>The chain length that the mechanism asks for (pitches), or null when none serves.</summary>
    internal int? RecommendedPitches => choice.Numbers.Recommended;

    /// <summary>Whether a chain of that length as sold is long enough.</summary>
    internal static (Compatibility Answer, double Reserve) Boxed(double boxed, int needed) =>
        (boxed >= needed ? Compatibility.Yes : Compatibility.No, (boxed - needed) / 2);

    /// <summary>The worst answer, and the least reserve (NaN when nothing is measured), whatever length the chain is sold in.</summary>
    internal (Compatibility Answer, double Reserve) Worst()
    {
        var (worst, least) = (Compatibility.Yes, double.NaN);
        foreach (var answer in Solved())
        {
            worst = (Compatibility)Math.Min((int)worst, (int)answer.Answer);
            least = answer.Reserve is { } reserve && !(reserve >= least) ? reserve : least;
        }
        return (worst, least);
    }

    private RuleAnswer Gap(GearTable table)
    {
        var derailleur = spec.RearDerailleur!;
        var (least, gear) = LeastGap(table);
        var answer = Compatibility.Yes;
        var setGap = double.NaN;
        if (double.IsNaN(least))
        {
            answer = Compatibility.CannotSay;
        }
        else if (least < derailleur.LeastGapMm)
        {
            (answer, least, setGap) = Turned(table, least, gear);
        }
        var room = least - derailleur.LeastGapMm;
        var sentence = answer switch
        {
            Compatibility.CannotSay => Texts.Get("mechanism.gap.ask"),
            Compatibility.Yes => Texts.Get(
                "mechanism.gap.yes",
                Number(least, 1),
                Explanation.List([gear]),
                Number(derailleur.LeastGapMm, 1)
            ),
            Compatibility.YesWith => Texts.Get(
                "mechanism.gap.with",
                Number(derailleur.LeastGapMm, 1)
            ),
            _ => Texts.Get(
                "mechanism.gap.no",
                Number(-room, 1),
                Explanation.List([gear]),
                Number(derailleur.LeastGapMm, 1)
            ),
        };
        return Answer(
            "mechanism-gap",
            answer,
            sentence,
            answer == Compatibility.YesWith
                ? Texts.Get("mechanism.gap.do", Number(setGap, 1), Explanation.List([SetUpGear()]))
                : "",
            answer is Compatibility.Yes or Compatibility.YesWith
                ? room / ComfortableGapMm
                : double.NaN,
            Mechanism,
            AnswerView.Side,
            double.IsNaN(least) ? null : gear
        );
    }

    /// <summary>
    /// What the body-angle screw can do about a gap that is too small: the nearest angle at which every gap is at least the
    /// part's, the least gap there and the gap in the set-up gear.
    /// </summary>
    private (Compatibility Answer, double LeastMm, double SetGapMm) Turned(
        GearTable table,
        double asItIsMm,
        Gear tightest
    )
    {
        var derailleur = spec.RearDerailleur!;
        if (derailleur.Coaxial is not null)
        {
            return (Compatibility.No, asItIsMm, double.NaN);
        }
        var best = asItIsMm;
        for (var step = 1; step <= ScrewSteps; step++)
        {
            foreach (var sign in (ReadOnlySpan<int>)[1, -1])
            {
                var angle = table.BodyAngleRad + (sign * step * ScrewReachRad / ScrewSteps);
                // The gear with the least gap says soonest that it is not enough.
                var first = GearTableSolver.SolveOne(spec, table.Pitches, tightest, angle);
                var there = LeastGap(first).Mm;
                if (!(there >= derailleur.LeastGapMm))
                {
                    best = Math.Max(best, double.IsNaN(there) ? best : there);
                    continue;
                }
                var turned = GearTableSolver.Solve(spec, table.Pitches, angle);
                if (turned.Gears.Any(g => g.State != GearState.Ok && !IsNotUsed(g.Gear)))
                {
                    continue;
                }
                var least = LeastGap(turned).Mm;
                if (least >= derailleur.LeastGapMm)
                {
                    return (
                        Compatibility.YesWith,
                        least,
                        turned.Find(SetUpGear())?.GapMm ?? double.NaN
                    );
                }
                best = Math.Max(best, least);
            }
        }
        return (Compatibility.No, best, double.NaN);
    }

    private (double Mm, Gear Gear) LeastGap(GearTable table)
    {
        var (least, at) = (double.NaN, table.Gears[0].Gear);
        foreach (var gear in table.Gears)
        {
            if (!gear.HasPose || IsNotUsed(gear.Gear))
            {
                continue;
            }
            var gap = double.IsNaN(gear.GapToNextMm)
                ? gear.GapMm
                : Math.Min(gear.GapMm, gear.GapToNextMm);
            if (double.IsNaN(least) || gap < least)
            {
                (least, at) = (gap, gear.Gear);
            }
        }
        return (least, at);
    }

    /// <summary>The gear in which the gap is set: the smallest ring with the largest cog.</summary>
    private Gear SetUpGear() => new(spec.Rings.Min(r => r.Teeth), spec.Cogs.Teeth[^1]);

    private ImmutableArray<Gear> Gears(GearTable table, Func<GearResult, bool> which) =>
        [.. table.Gears.Where(g => !IsNotUsed(g.Gear) && which(g)).Select(g => g.Gear)];

    private bool IsNotUsed(Gear gear) => spec.GearsNotUsed.Contains(gear);

    private static Gear? FirstOf(ImmutableArray<Gear> gears) => gears.IsEmpty ? null : gears[0];

    private static string Number(double value, int decimals) =>
        double.IsNaN(value)
            ? "–"
            : Math.Round(value, decimals).ToString("0.##", CultureInfo.InvariantCulture);

    private RuleAnswer Answer(
        string id,
        Compatibility answer,
        string sentence,
        string whatToDo,
        double reserve,
        ImmutableArray<PartKind> kinds,
        AnswerView view,
        Gear? gear
    ) =>
        new()
        {
            RuleId = id,
            Title = Texts.Get($"rule.{id}"),
            Answer = answer,
            Sentence = sentence,
            WhatToDo = whatToDo,
            Source = Texts.Get($"rule.{id}.source"),
            Reserve = double.IsNaN(reserve) ? null : reserve,
            Kinds = kinds,
            View = view,
            Gear = gear,
            MayBeAccepted = id is not ("mechanism-chain" or "mechanism-spokes"),
            RestsOnAssumed = spec.Assumptions.Any(a =>
                a.Path.StartsWith("rearDerailleur.", StringComparison.Ordinal)
                || a.Path.StartsWith("hanger.", StringComparison.Ordinal)
                || a.Path.StartsWith("frame.", StringComparison.Ordinal)
            ),
            // Not the sentence: the ground is the same in every language.
            Ground = GroundDigest.Of([
                .. kinds.Select(kind => build[kind]?.Id ?? ""),
                answer.ToString(),
                Number(reserve, 1),
                gear?.ToString() ?? "",
            ]),
        };
}
