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
    /// <summary>Chain angle from which a gear is noisy and the chain may fall when back-pedalled (rad): 3.5°, from memory.</summary>
    internal static readonly double MostChainAngleRad = 3.5 * Math.PI / 180;

    /// <summary>Reserve of chain at either end that is comfortable (mm of chain).</summary>
    private const double ComfortableChainMm = 12.7;

    /// <summary>Gap beyond the part's least that is comfortable (mm).</summary>
    private const double ComfortableGapMm = 2;

    /// <summary>Room beyond the least to spokes or frame that is comfortable (mm).</summary>
    private const double ComfortableRoomMm = 2;

    /// <summary>Room beside the next ring that is comfortable (mm; our choice).</summary>
    private const double ComfortableRubMm = 1;

    /// <summary>How far the body-angle screw is thought to reach to either side when nobody has counted its turns (rad; from memory).</summary>
    private const double ScrewReachRad = 15 * Math.PI / 180;

    private const int ScrewSteps = 15;

    private const double ScrewStepRad = ScrewReachRad / ScrewSteps;

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
            (answer, least, gear, setGap) = Turned(table, least, gear);
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
            room / ComfortableGapMm,
            Mechanism,
            AnswerView.Side,
            double.IsNaN(least) ? null : gear,
            least,
            derailleur.LeastGapMm
        );
    }

    /// <summary>
    /// What the body-angle screw can do about a gap that is too small: the nearest angle at which every gap is at least the
    /// part's and no gear is worse off, with the least gap there, its gear, and the gap in the set-up gear. Where no angle
    /// does, the best there is.
    /// </summary>
    private (Compatibility Answer, double LeastMm, Gear Gear, double SetGapMm) Turned(
        GearTable table,
        double asItIsMm,
        Gear tightest
    )
    {
        var derailleur = spec.RearDerailleur!;
        var (best, at) = (asItIsMm, tightest);
        if (derailleur.Coaxial is not null)
        {
            return (Compatibility.No, best, at, double.NaN);
        }
        var (less, more) = ScrewRoomRad(table);
        for (var step = 1; step <= ScrewSteps; step++)
        {
            foreach (var sign in (ReadOnlySpan<int>)[1, -1])
            {
                if (step * ScrewStepRad > (sign > 0 ? more : less))
                {
                    continue;
                }
                var angle = table.BodyAngleRad + (sign * step * ScrewStepRad);
                // The gear with the least gap says soonest that it is not enough.
                var first = LeastGap(
                    GearTableSolver.SolveOne(spec, table.Pitches, tightest, angle)
                );
                if (!(first.Mm >= derailleur.LeastGapMm))
                {
                    (best, at) = first.Mm > best ? first : (best, at);
                    continue;
                }
                var turned = GearTableSolver.Solve(spec, table.Pitches, angle);
                if (IsAnyWorse(table, turned))
                {
                    continue;
                }
                var least = LeastGap(turned);
                if (least.Mm >= derailleur.LeastGapMm)
                {
                    return (
                        Compatibility.YesWith,
                        least.Mm,
                        least.Gear,
                        turned.Find(SetUpGear())?.GapMm ?? double.NaN
                    );
                }
                (best, at) = least.Mm > best ? least : (best, at);
            }
        }
        return (Compatibility.No, best, at, double.NaN);
    }

    /// <summary>Whether a gear that was as it should be is not any more.</summary>
    private bool IsAnyWorse(GearTable before, GearTable after)
    {
        for (var i = 0; i < after.Gears.Length; i++)
        {
            if (
                after.Gears[i].State != GearState.Ok
                && before.Gears[i].State == GearState.Ok
                && !IsNotUsed(after.Gears[i].Gear)
            )
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>
    /// How far the screw can still turn the body to a smaller and to a larger angle (rad, never negative): by its turns where
    /// they are counted, else as far as one is thought to.
    /// </summary>
    private (double Less, double More) ScrewRoomRad(GearTable table)
    {
        if (
            spec.RearDerailleur!.BodyAngleScrew is not { } screw
            || GapCorrector.RadPerTurn(spec, table.Pitches, SetUpGear()) is not { } perTurn
        )
        {
            return (ScrewReachRad, ScrewReachRad);
        }
        var clockwise = screw.TurnsLeftIn * Math.Abs(perTurn) ?? ScrewReachRad;
        var anticlockwise = screw.TurnsLeftOut * Math.Abs(perTurn) ?? ScrewReachRad;
        return perTurn > 0 ? (anticlockwise, clockwise) : (clockwise, anticlockwise);
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
        Gear? gear,
        params ReadOnlySpan<double> figures
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
            MayBeAccepted =
                id is not ("mechanism-chain" or "mechanism-boxed" or "mechanism-spokes"),
            RestsOnAssumed = spec.Assumptions.Any(a =>
                a.Path.StartsWith("rearDerailleur.", StringComparison.Ordinal)
                || a.Path.StartsWith("hanger.", StringComparison.Ordinal)
                || a.Path.StartsWith("frame.", StringComparison.Ordinal)
            ),
            Ground = GroundOf(answer, gear, figures),
        };

    /// <summary>
    /// What an answer was made from: whatever part it is about, all that the mechanism is made of counts, and the figures.
    /// Not the sentence: the ground is the same in every language.
    /// </summary>
    private string GroundOf(Compatibility answer, Gear? gear, ReadOnlySpan<double> figures)
    {
        List<string> ground = [answer.ToString(), gear?.ToString() ?? ""];
        foreach (var kind in PartKinds.All)
        {
            ground.Add(Ignored.Contains(kind) ? "" : build[kind]?.Id ?? "");
        }
        foreach (var figure in figures)
        {
            ground.Add(Number(figure, 2));
        }
        return GroundDigest.Of(ground);
    }
}
